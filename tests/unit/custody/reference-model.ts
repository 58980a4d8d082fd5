/**
 * The life of a thing as a person at the table would tell it, one rule after the other: the second account against which the code is
 * played. Written from the README of the library and from nothing of its code but the words of its types. It says whether a passing
 * may happen and how the thing stands then; it knows no hashes.
 */
import type { CustodyCommand, CustodyEventKind, Keeper, KeeperKind, Stage } from '#custody';

/** One thing, as it stands. */
export interface Known {
  keeper: Keeper;
  stage: Stage;
  offer: { id: string; to: Keeper } | null;
  disputed: boolean;
  missing: boolean;
  /** How many events its record has. */
  events: number;
}

type Said = CustodyCommand & { itemId: string };
type Next = Pick<Known, 'keeper' | 'stage'> & Partial<Known>;

const MINUTE_MS = 60_000;

/** How the thing stands after it, or null when it must be refused. */
export function predict(known: Known | undefined, said: Said, nowMs: number): Known | null {
  if (unreadable(said)) return null;
  if (said.occurredAtMs > nowMs + 5 * MINUTE_MS) return null;
  if (known === undefined) return first(said);
  if (said.kind === 'taken-in' || said.kind === 'split-off') return null;
  if (['released', 'handed-back', 'merged'].includes(known.stage) && said.kind !== 'correction') return null;
  if (said.from === null || !same(known.keeper, said.from)) return null;
  if (said.kind === 'correction' && !namesItsMistake(known, said)) return null;
  if (buries(known, said.kind)) return null;
  const next = RULES[said.kind](known, said);
  return next === null ? null : { ...known, ...next, events: known.events + 1 };
}

function same(a: Keeper, b: Keeper): boolean {
  return `${a.kind}/${a.id}` === `${b.kind}/${b.id}`;
}

function ref(said: Said, key: string): string | null {
  const value = said.refs[key];
  return value === undefined || value.trim() === '' ? null : value;
}

function unreadable({ commandId, actorId, from, to, refs, corrects, kind }: Said): boolean {
  const ids = [commandId, actorId, to.id, ...(from === null ? [] : [from.id])];
  if (ids.some((id) => id.trim() === '' || /[A-Z\0]/.test(id))) return true;
  if (Object.values(refs).some((value) => value.includes('\0'))) return true;
  return corrects !== undefined && kind !== 'correction';
}

function namesItsMistake(known: Known, { corrects }: Said): boolean {
  return corrects !== undefined && corrects.seq >= 1 && corrects.seq <= known.events && corrects.reason.trim() !== '';
}

/** Only the answer goes on over an open matter, and what merely adds to the record. */
function buries(known: Known, kind: CustodyEventKind): boolean {
  if (['hand-over-ended', 'location-disputed', 'reported-missing', 'retagged', 'merged-in', 'correction'].includes(kind)) return false;
  if (known.missing) return kind !== 'found-again';
  if (known.disputed) return kind !== 'location-settled' && kind !== 'found-again';
  return known.offer !== null && kind !== 'hand-over-accepted';
}

function first(said: Said): Known | null {
  if (said.from !== null) return null;
  const begun = { keeper: said.to, offer: null, disputed: false, missing: false, events: 1 };
  if (said.kind === 'taken-in') return ['holding', 'station', 'container', 'shelf', 'freezer', 'vehicle'].includes(said.to.kind) ? { ...begun, stage: 'waiting' } : null;
  if (said.kind !== 'split-off') return null;
  const lot = ref(said, 'splitFrom');
  const stage = (ref(said, 'stage') ?? 'waiting') as Stage;
  if (lot === null || lot === said.itemId || !['waiting', 'in-work', 'drying', 'held-wet', 'held-frozen'].includes(stage)) return null;
  return mayHold(said.to.kind, stage) ? { ...begun, stage } : null;
}

/** Who may have a thing that is in this stage. */
function mayHold(kind: KeeperKind, stage: Stage): boolean {
  const isStore = kind === 'holding' || kind === 'station' || kind === 'container' || kind === 'shelf';
  const isTransport = kind === 'vehicle' || kind === 'courier';
  if (stage === 'waiting') return isStore || isTransport || kind === 'freezer';
  if (stage === 'in-work') return kind === 'station';
  if (stage === 'drying') return kind === 'drying-place';
  if (stage === 'held-wet') return isStore || isTransport;
  if (stage === 'held-frozen') return isTransport || kind === 'freezer';
  if (stage === 'referred-out') return isTransport || kind === 'specialist' || kind === 'partner-network';
  if (stage === 'released') return kind === 'disposed' || kind === 'household';
  return stage === 'handed-back' ? kind === 'household' : kind === 'same-thing';
}

const outside = (kind: KeeperKind) => kind === 'specialist' || kind === 'partner-network';
const ended = (stage: Stage) => stage === 'released' || stage === 'handed-back' || stage === 'merged';

/** A passing into a stage that changes something. */
function into(known: Known, said: Said, stage: Stage, from: readonly Stage[], to: readonly KeeperKind[]): Next | null {
  if (!from.includes(known.stage) || !to.includes(said.to.kind)) return null;
  if (known.stage === stage && same(known.keeper, said.to)) return null;
  return { keeper: said.to, stage };
}

/** Only the record grows. */
function onlyAdds(known: Known, said: Said, refs: readonly string[], change: Partial<Known> = {}): Next | null {
  if (ended(known.stage) || !same(known.keeper, said.to) || refs.some((key) => ref(said, key) === null)) return null;
  return { keeper: known.keeper, stage: known.stage, ...change };
}

const TABLES: readonly KeeperKind[] = ['holding', 'station', 'container', 'shelf'];
const INSIDE: readonly Stage[] = ['waiting', 'in-work', 'drying', 'held-wet', 'held-frozen'];
const MAY_LEAVE: readonly Stage[] = ['waiting', 'drying', 'held-wet', 'held-frozen'];

const RULES: Record<Exclude<CustodyEventKind, 'taken-in' | 'split-off'>, (known: Known, said: Said) => Next | null> = {
  moved: moves,
  'work-started': (known, said) => into(known, said, 'in-work', ['waiting', 'held-wet', 'drying', 'in-work'], ['station']),
  'work-ended': (known, said) => into(known, said, 'waiting', ['in-work'], TABLES),
  'drying-started': (known, said) => into(known, said, 'drying', ['waiting', 'in-work', 'held-wet', 'drying'], ['drying-place']),
  'drying-ended': (known, said) => into(known, said, 'waiting', ['drying'], TABLES),
  frozen: (known, said) => into(known, said, 'held-frozen', INSIDE, ['freezer']),
  thawed: (known, said) => into(known, said, 'waiting', ['held-frozen'], TABLES),
  'held-wet': (known, said) => into(known, said, 'held-wet', ['waiting', 'in-work', 'drying'], ['holding', 'container', 'shelf']),
  'referred-out': (known, said) => (ref(said, 'consentId') === null ? null : into(known, said, 'referred-out', MAY_LEAVE, ['vehicle', 'courier', 'specialist', 'partner-network'])),
  'referral-returned': (known, said) => into(known, said, 'waiting', ['referred-out'], [...TABLES, 'freezer', 'vehicle']),
  released: (known, said) => (ref(said, 'consentId') === null ? null : into(known, said, 'released', [...MAY_LEAVE, 'referred-out'], ['disposed', 'household'])),
  'handed-back': (known, said) => (ref(said, 'handBackId') === null ? null : into(known, said, 'handed-back', [...MAY_LEAVE, 'referred-out'], ['household'])),
  'lot-split': splits,
  'hand-over-offered': offers,
  'hand-over-accepted': accepts,
  'hand-over-ended': ends,
  'location-disputed': disputes,
  'location-settled': (known, said) => (known.disputed ? puts(known, said) : null),
  'reported-missing': (known, said) => onlyAdds(known, said, [], { missing: true }),
  'found-again': (known, said) => (known.missing ? puts(known, said) : null),
  retagged: (known, said) => (ref(said, 'tagWas') === ref(said, 'tagIs') ? null : onlyAdds(known, said, ['tagWas', 'tagIs'])),
  'merged-away': (known, said) => (said.to.kind !== 'same-thing' || ref(said, 'mergedInto') !== said.to.id || said.to.id === said.itemId ? null : { keeper: said.to, stage: 'merged' }),
  'merged-in': (known, said) => (ref(said, 'mergedFrom') === said.itemId || !/^[0-9a-f]{64}$/.test(ref(said, 'otherHead') ?? '') ? null : onlyAdds(known, said, ['mergedFrom'])),
  correction: puts,
};

function moves(known: Known, said: Said): Next | null {
  if (same(known.keeper, said.to) || ended(known.stage)) return null;
  const { kind } = said.to;
  const stays = { keeper: said.to, stage: known.stage };
  if (known.stage === 'referred-out') {
    if (outside(kind)) return ref(said, 'consentId') === null ? null : stays;
    return kind === 'vehicle' || kind === 'courier' ? stays : null;
  }
  if (kind === 'drying-place' || kind === 'freezer' || outside(kind)) return null;
  return mayHold(kind, known.stage) ? stays : null;
}

function splits(known: Known, said: Said): Next | null {
  const counted = ['pieces', 'left'].every((key) => /^[1-9][0-9]*$/.test(ref(said, key) ?? ''));
  if (!INSIDE.includes(known.stage) || !counted || ref(said, 'splitTo') === said.itemId) return null;
  return onlyAdds(known, said, ['splitTo']);
}

const PARTIES: readonly KeeperKind[] = ['holding', 'station', 'shelf', 'container', 'vehicle', 'courier', 'specialist', 'partner-network'];

/** The stage in which somebody would receive it, or null when they cannot. */
function receivedBy(known: Known, to: Keeper): Stage | null {
  if (!['waiting', 'held-wet', 'held-frozen', 'referred-out'].includes(known.stage) || !PARTIES.includes(to.kind) || same(known.keeper, to)) return null;
  if (outside(to.kind)) return 'referred-out';
  if (known.stage === 'referred-out' && to.kind !== 'vehicle' && to.kind !== 'courier') return 'waiting';
  return mayHold(to.kind, known.stage) ? known.stage : null;
}

function offers(known: Known, said: Said): Next | null {
  const id = ref(said, 'handOverId');
  const offered = { kind: ref(said, 'offeredKind') as KeeperKind, id: ref(said, 'offeredId') ?? '' };
  if (id === null || offered.id === '' || receivedBy(known, offered) === null) return null;
  return onlyAdds(known, said, [], { offer: { id, to: offered } });
}

/** The giver keeps it until exactly who was named says so. */
function accepts(known: Known, said: Said): Next | null {
  if (known.offer === null || known.offer.id !== ref(said, 'handOverId') || !same(known.offer.to, said.to)) return null;
  const stage = receivedBy(known, said.to);
  if (stage === null || (outside(said.to.kind) && ref(said, 'consentId') === null)) return null;
  return { keeper: said.to, stage, offer: null };
}

function ends(known: Known, said: Said): Next | null {
  if (known.offer === null || known.offer.id !== ref(said, 'handOverId')) return null;
  if (!['withdrawn', 'declined', 'expired'].includes(ref(said, 'outcome') ?? '')) return null;
  return onlyAdds(known, said, [], { offer: null });
}

/** A claim that says what the record says is none. */
function disputes(known: Known, said: Said): Next | null {
  const claimed = { kind: ref(said, 'claimedKind') as KeeperKind, id: ref(said, 'claimedId') ?? '' };
  return same(known.keeper, claimed) ? null : onlyAdds(known, said, ['claimedKind', 'claimedId'], { disputed: true });
}

/** A correction, or a person who has it in front of them: where it truly is. Elsewhere than on record, nothing stays open. */
function puts(known: Known, said: Said): Next | null {
  const stage = (ref(said, 'stage') ?? known.stage) as Stage;
  const looked = said.kind !== 'correction';
  if (!mayHold(said.to.kind, stage) || (looked && (stage === 'merged' || ref(said, 'personId') === null))) return null;
  const moved = !same(known.keeper, said.to);
  if ((moved || stage !== known.stage) && !agreed(said, stage)) return null;
  if (moved) return { keeper: said.to, stage, offer: null, disputed: false, missing: false };
  return looked ? { keeper: said.to, stage, disputed: false, missing: false } : { keeper: said.to, stage };
}

function agreed(said: Said, stage: Stage): boolean {
  if (stage === 'handed-back') return ref(said, 'handBackId') !== null;
  if (stage === 'merged') return ref(said, 'mergedInto') === said.to.id && said.to.id !== said.itemId;
  return (stage !== 'released' && stage !== 'referred-out') || ref(said, 'consentId') !== null;
}
