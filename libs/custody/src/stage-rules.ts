/**
 * The life cycle of an item as data: what each kind of event needs and where it leads.
 * The table is our own design for this job; it restates no published scheme. One rule follows published practice:
 * a mistake is answered by a new event that names the wrong one, never by an edit (GS1 EPCIS 2.0, ISO/IEC 19987,
 * error declaration).
 */
import type { CustodyEventKind, Keeper, KeeperKind, Stage } from './types.js';
import { STAGES } from './types.js';

/** Keys of `refs` that the rules read; every other key is carried and hashed but not interpreted. */
export const REF = {
  /** The owner's recorded agreement to a referral or a release. */
  consentId: 'consentId',
  /** A decision of our own people in the place of an agreement, where nobody knows the owner; only the service writes it. */
  decisionId: 'decisionId',
  /** The hand-back record: receipt, condition note and storage advice. */
  handBackId: 'handBackId',
  /** The lot that a split-off item came out of. */
  splitFrom: 'splitFrom',
  /** The part that came out of a lot. */
  splitTo: 'splitTo',
  /** Pieces in the part, and pieces that stay in the lot; whole numbers in plain decimal. */
  pieces: 'pieces',
  left: 'left',
  /** The stage that a correction restores, or in which a split-off item starts. */
  stage: 'stage',
  /** The hand-over that an event offers, accepts or ends. */
  handOverId: 'handOverId',
  /** Who is to receive it: kind and id of the keeper. */
  offeredKind: 'offeredKind',
  offeredId: 'offeredId',
  /** How a hand-over ended without being accepted: one of `HAND_OVER_ENDS`. */
  outcome: 'outcome',
  /** Where else it is said to be: kind and id of the keeper. */
  claimedKind: 'claimedKind',
  claimedId: 'claimedId',
  /** The person who looked at it. */
  personId: 'personId',
  /** The code on the tag before and after. */
  tagWas: 'tagWas',
  tagIs: 'tagIs',
  /** The other record of the same thing: the one that goes on, and the one that ended with its last hash. */
  mergedInto: 'mergedInto',
  mergedFrom: 'mergedFrom',
  otherHead: 'otherHead',
} as const;

/** How a hand-over may end without being accepted. */
export const HAND_OVER_ENDS = ['withdrawn', 'declined', 'expired'] as const;

/** A key of `refs` that a kind of event cannot do without. */
export type RequiredRef = 'consentId' | 'handBackId' | 'splitFrom' | 'splitTo' | 'pieces' | 'left' | 'handOverId' | 'offeredKind' | 'offeredId' | 'outcome' | 'claimedKind' | 'claimedId' | 'personId' | 'tagWas' | 'tagIs' | 'mergedInto' | 'mergedFrom' | 'otherHead';

/** Who or what may hold an item in each stage. A correction and a split-off must end on one of these pairs. */
export const STAGE_KEEPERS: Record<Stage, readonly KeeperKind[]> = {
  waiting: ['holding', 'station', 'container', 'freezer', 'shelf', 'vehicle', 'courier'],
  'in-work': ['station'],
  drying: ['drying-place'],
  'held-wet': ['holding', 'container', 'station', 'shelf', 'vehicle', 'courier'],
  'held-frozen': ['freezer', 'vehicle', 'courier'],
  'referred-out': ['vehicle', 'courier', 'specialist', 'partner-network'],
  released: ['disposed', 'household'],
  'handed-back': ['household'],
  merged: ['same-thing'],
};

/** The stages that end an item's stay; only a correction may follow. */
export const TERMINAL_STAGES: readonly Stage[] = ['released', 'handed-back', 'merged'];

/** What one kind of event needs and where it leads. */
export interface KindRule {
  /** Stages in which it may happen; `none` before intake, `any` in every stage including the terminal ones. */
  from: readonly Stage[] | 'none' | 'any';
  /** The stage after it; `kept` leaves the stage alone, `named` takes `refs.stage`, `received` follows from who receives it (see `stageAfter`). */
  stage: Stage | 'kept' | 'named' | 'received';
  /** Keepers that may receive the item; `by-stage` means those of `STAGE_KEEPERS` for the resulting stage, `stays` that nothing moves. */
  keepers: readonly KeeperKind[] | 'by-stage' | 'stays';
  /** References that must be present. */
  refs: readonly RequiredRef[];
}

const SHELF: readonly KeeperKind[] = ['holding', 'station', 'container', 'shelf'];
/** A vehicle too: custody begins at the family's door (collection), not when the van is unloaded. */
const ARRIVAL: readonly KeeperKind[] = [...SHELF, 'freezer', 'vehicle'];
/** Stages in which a thing travels; what hangs or is being worked on is taken down, or its work closed, first. */
export const TRAVELS: readonly Stage[] = ['waiting', 'held-wet', 'held-frozen', 'referred-out'];
const HELD: readonly Stage[] = ['waiting', 'in-work', 'drying', 'held-wet', 'held-frozen', 'referred-out'];
/** Work is closed first, so that its result is on record before the item leaves the premises. */
const LEAVING: readonly Stage[] = ['waiting', 'drying', 'held-wet', 'held-frozen'];

/** Stages in which a lot may be split and a split-off starts: it is on the premises, and nothing about it is settled yet. */
export const SPLIT_STAGES: readonly Stage[] = ['waiting', 'in-work', 'drying', 'held-wet', 'held-frozen'];

/** The rule of each kind of event. */
export const KIND_RULES: Record<CustodyEventKind, KindRule> = {
  // An arrival put straight into a freezer stays `waiting` until `frozen` confirms it: its clocks keep running until then.
  'taken-in': { from: 'none', stage: 'waiting', keepers: ARRIVAL, refs: [] },
  // Nothing moves and nothing is done to it: the lot only counts less from here on.
  'lot-split': { from: SPLIT_STAGES, stage: 'kept', keepers: 'stays', refs: ['splitTo', 'pieces', 'left'] },
  'split-off': { from: 'none', stage: 'named', keepers: 'by-stage', refs: ['splitFrom'] },
  // `drying` is listed so that a wrong move answers with the right kind of event instead of a bare "wrong stage".
  moved: { from: ['waiting', 'in-work', 'drying', 'held-wet', 'held-frozen', 'referred-out'], stage: 'kept', keepers: 'by-stage', refs: [] },
  'work-started': { from: ['waiting', 'held-wet', 'drying', 'in-work'], stage: 'in-work', keepers: ['station'], refs: [] },
  'work-ended': { from: ['in-work'], stage: 'waiting', keepers: SHELF, refs: [] },
  // Re-hanging on another place is a second `drying-started`: the new place's area and the room's air change hands.
  'drying-started': { from: ['waiting', 'in-work', 'held-wet', 'drying'], stage: 'drying', keepers: ['drying-place'], refs: [] },
  'drying-ended': { from: ['drying'], stage: 'waiting', keepers: SHELF, refs: [] },
  // From one freezer to another it is a second `frozen`, for the same reason.
  frozen: { from: ['waiting', 'in-work', 'drying', 'held-wet', 'held-frozen'], stage: 'held-frozen', keepers: ['freezer'], refs: [] },
  thawed: { from: ['held-frozen'], stage: 'waiting', keepers: SHELF, refs: [] },
  'held-wet': { from: ['waiting', 'in-work', 'drying'], stage: 'held-wet', keepers: ['holding', 'container', 'shelf'], refs: [] },
  'referred-out': { from: LEAVING, stage: 'referred-out', keepers: ['vehicle', 'courier', 'specialist', 'partner-network'], refs: ['consentId'] },
  'referral-returned': { from: ['referred-out'], stage: 'waiting', keepers: ARRIVAL, refs: [] },
  released: { from: [...LEAVING, 'referred-out'], stage: 'released', keepers: ['disposed', 'household'], refs: ['consentId'] },
  'handed-back': { from: [...LEAVING, 'referred-out'], stage: 'handed-back', keepers: ['household'], refs: ['handBackId'] },
  // Two-sided: the giver stays the keeper until the receiver says so.
  'hand-over-offered': { from: TRAVELS, stage: 'kept', keepers: 'stays', refs: ['handOverId', 'offeredKind', 'offeredId'] },
  'hand-over-accepted': { from: TRAVELS, stage: 'received', keepers: 'by-stage', refs: ['handOverId'] },
  'hand-over-ended': { from: HELD, stage: 'kept', keepers: 'stays', refs: ['handOverId', 'outcome'] },
  // Evidence against the record is kept; it moves nothing until a person has looked.
  'location-disputed': { from: HELD, stage: 'kept', keepers: 'stays', refs: ['claimedKind', 'claimedId'] },
  'location-settled': { from: HELD, stage: 'named', keepers: 'by-stage', refs: ['personId'] },
  'reported-missing': { from: HELD, stage: 'kept', keepers: 'stays', refs: [] },
  'found-again': { from: HELD, stage: 'named', keepers: 'by-stage', refs: ['personId'] },
  retagged: { from: HELD, stage: 'kept', keepers: 'stays', refs: ['tagWas', 'tagIs'] },
  // One object under two tags: the record that ends names the one that goes on, and the other way round.
  'merged-away': { from: HELD, stage: 'merged', keepers: ['same-thing'], refs: ['mergedInto'] },
  'merged-in': { from: HELD, stage: 'kept', keepers: 'stays', refs: ['mergedFrom', 'otherHead'] },
  correction: { from: 'any', stage: 'named', keepers: 'by-stage', refs: [] },
};

/** Kinds that only add to the record: nothing moves and no stage changes. */
export function movesNothing(kind: CustodyEventKind): boolean {
  return KIND_RULES[kind].keepers === 'stays';
}

/** Keepers that `moved` never reaches, because reaching them means something that has its own kind of event. */
const OWN_KIND: Partial<Record<KeeperKind, CustodyEventKind>> = {
  'drying-place': 'drying-started',
  freezer: 'frozen',
  household: 'handed-back',
  disposed: 'released',
  specialist: 'referred-out',
  'partner-network': 'referred-out',
  'same-thing': 'merged-away',
};

/** The kind of event that takes an item out of a stage and back to `waiting`. */
export const WAY_BACK: Partial<Record<Stage, CustodyEventKind>> = {
  'in-work': 'work-ended',
  drying: 'drying-ended',
  'held-frozen': 'thawed',
  'referred-out': 'referral-returned',
};

/** True when `text` is one of the stages. */
export function isStage(text: string): text is Stage {
  return (STAGES as readonly string[]).includes(text);
}

/** The value of a reference, or `null` when it is absent or blank. */
export function refValue(refs: Record<string, string>, key: string): string | null {
  const value = Object.hasOwn(refs, key) ? refs[key] : undefined;
  return value === undefined || value.trim() === '' ? null : value;
}

/**
 * The stage that an event leads to, or `null` when no such event can follow: a second intake, anything but a
 * correction after the end, anything before intake, an unknown kind, or a named stage that does not exist.
 * It checks only what can never be true of a sound history, so that chains written under an older table of
 * allowed stages still verify.
 */
export function stageAfter(stage: Stage | null, event: { kind: CustodyEventKind; to: Keeper; refs: Record<string, string> }): Stage | null {
  // A stored row may hold anything: an unknown kind is a fault to name, not a crash.
  if (!Object.hasOwn(KIND_RULES, event.kind)) return null;
  const rule = KIND_RULES[event.kind];
  if ((rule.from === 'none') !== (stage === null)) return null;
  if (stage !== null && TERMINAL_STAGES.includes(stage) && rule.from !== 'any') return null;
  if (rule.stage === 'kept') return stage;
  if (rule.stage === 'received') return stage === null ? null : stageReceived(stage, event.to.kind);
  if (rule.stage !== 'named') return rule.stage;
  const named = refValue(event.refs, REF.stage);
  if (named === null) return stage ?? 'waiting';
  return isStage(named) ? named : null;
}

/** Keepers that may receive the item by an event of this kind that ends in `stage`. */
export function keepersFor(kind: CustodyEventKind, stage: Stage): readonly KeeperKind[] {
  const rule = KIND_RULES[kind];
  if (rule.keepers === 'stays') return STAGE_KEEPERS[stage];
  if (rule.keepers !== 'by-stage') return rule.keepers;
  // Custody between parties; what happens to it there (hung, frozen, worked on) is recorded by its own event afterwards.
  if (kind === 'hand-over-accepted') return STAGE_KEEPERS[stage].filter((party) => PARTIES.includes(party));
  if (kind !== 'moved') return STAGE_KEEPERS[stage];
  // Outside the premises a specialist or a partner may pass the item on, but on the premises a move never changes what is being done.
  if (stage === 'referred-out') return STAGE_KEEPERS[stage];
  return STAGE_KEEPERS[stage].filter((kindOfKeeper) => OWN_KIND[kindOfKeeper] === undefined);
}

/** Kinds that put an item where it truly is, in any stage. */
export const RESTORES: readonly CustodyEventKind[] = ['correction', 'location-settled', 'found-again'];

/** Who may be offered a hand-over: somebody, or a place whose crew, driver or owner answers for what comes. */
export const PARTIES: readonly KeeperKind[] = ['holding', 'station', 'shelf', 'container', 'vehicle', 'courier', 'specialist', 'partner-network'];

/** The stage of what a party received: with an outside party it is referred out, back on the premises it waits, else nothing changes. */
function stageReceived(stage: Stage, by: KeeperKind): Stage {
  if (by === 'specialist' || by === 'partner-network') return 'referred-out';
  const onTheRoad = by === 'courier' || by === 'vehicle';
  return stage === 'referred-out' && !onTheRoad ? 'waiting' : stage;
}

/** The kind of event to use instead of `moved`, or `null` when the keeper is simply wrong. */
export function kindInsteadOfMoved(stage: Stage, to: KeeperKind): CustodyEventKind | null {
  return OWN_KIND[to] ?? WAY_BACK[stage] ?? null;
}

/**
 * References that an event needs, beyond nothing: those of its kind, the owner's agreement whenever a new outside party
 * receives the item, and those of the stage that a correction puts it into, so that no detour avoids them.
 */
export function requiredRefs(kind: CustodyEventKind, stage: Stage, to: KeeperKind, changes: boolean): readonly RequiredRef[] {
  const own = KIND_RULES[kind].refs;
  if (kind === 'hand-over-accepted' && (to === 'specialist' || to === 'partner-network')) return [...own, 'consentId'];
  if (kind === 'moved' && (to === 'specialist' || to === 'partner-network')) return ['consentId'];
  if (!RESTORES.includes(kind) || !changes) return own;
  if (stage === 'handed-back') return [...own, 'handBackId'];
  if (stage === 'merged') return [...own, 'mergedInto'];
  return stage === 'released' || stage === 'referred-out' ? [...own, 'consentId'] : own;
}
