/** Builders shared by the custody tests: commands that are right, and random but legal histories of one item. */
import fc from 'fast-check';
import { beforeIntake, decide, evolve, isRefusal, KEEPER_KINDS, type CustodyCommand, type CustodyEvent, type CustodyEventKind, type ItemCustody, type Keeper, type KeeperKind, type Refusal, type Stage } from '#custody';

export const NOW = 1_700_000_000_000;
export const NETWORK = '0190b000-0000-7000-8000-00000000000a';
export const ITEM = '0190b000-0000-7000-8000-000000000001';

export function place(kind: KeeperKind, n = 1): Keeper {
  return { kind, id: `${kind}-${n}` };
}

/** Nothing moves: where it is on record it stays. */
const STAYS = ['holding', 'station', 'container', 'freezer', 'courier', 'drying-place', 'shelf', 'vehicle'] as const;

/** Where each kind of event may lead, written by hand from the life cycle: a second account to hold the table against. */
export const DESTINATIONS: Record<CustodyEventKind, readonly KeeperKind[]> = {
  'taken-in': ['holding', 'station', 'container', 'shelf', 'freezer', 'vehicle'],
  moved: ['holding', 'station', 'container', 'shelf', 'vehicle', 'courier', 'specialist', 'partner-network'],
  'work-started': ['station'],
  'work-ended': ['holding', 'station', 'container', 'shelf'],
  'drying-started': ['drying-place'],
  'drying-ended': ['holding', 'station', 'container', 'shelf'],
  frozen: ['freezer'],
  thawed: ['holding', 'station', 'container', 'shelf'],
  'held-wet': ['holding', 'container', 'shelf'],
  'referred-out': ['courier', 'vehicle', 'specialist', 'partner-network'],
  'referral-returned': ['holding', 'station', 'container', 'shelf', 'freezer', 'vehicle'],
  released: ['disposed', 'household'],
  'handed-back': ['household'],
  'lot-split': ['holding', 'station', 'container', 'freezer', 'courier', 'drying-place'],
  'split-off': ['holding', 'station', 'container', 'freezer', 'courier'],
  'hand-over-offered': STAYS,
  'hand-over-accepted': ['courier', 'holding', 'station', 'shelf', 'container', 'vehicle', 'specialist', 'partner-network'],
  'hand-over-ended': STAYS,
  'location-disputed': STAYS,
  'location-settled': ['holding', 'station', 'shelf', 'container', 'drying-place', 'freezer', 'vehicle', 'courier'],
  'reported-missing': STAYS,
  'found-again': ['holding', 'station', 'shelf', 'container', 'drying-place', 'freezer', 'vehicle', 'courier'],
  retagged: STAYS,
  'merged-away': ['same-thing'],
  'merged-in': STAYS,
  correction: KEEPER_KINDS,
};

export function refsFor(kind: CustodyEventKind): Record<string, string> {
  switch (kind) {
    case 'moved':
    case 'referred-out':
    case 'released':
      return { consentId: 'consent-1' };
    case 'handed-back':
      return { handBackId: 'hand-back-1' };
    case 'lot-split':
      return { splitTo: 'a-part', pieces: '80', left: '160' };
    case 'split-off':
      return { splitFrom: 'another-lot' };
    case 'hand-over-offered':
      return { handOverId: 'hand-over-1', offeredKind: 'courier', offeredId: 'courier-2' };
    case 'hand-over-accepted':
      return { handOverId: 'hand-over-1', consentId: 'consent-1' };
    case 'hand-over-ended':
      return { handOverId: 'hand-over-1', outcome: 'declined' };
    case 'location-disputed':
      return { claimedKind: 'shelf', claimedId: 'shelf-8' };
    case 'location-settled':
    case 'found-again':
      return { personId: 'person-1' };
    case 'retagged':
      return { tagWas: 'tag-1', tagIs: 'tag-2' };
    case 'merged-away':
      return { mergedInto: 'another-item' };
    case 'merged-in':
      return { mergedFrom: 'another-item', otherHead: 'f'.repeat(64) };
    case 'correction':
      return { mergedInto: 'another-item', consentId: 'consent-1', handBackId: 'hand-back-1' };
    default:
      return {};
  }
}

let counter = 0;

/** A command that is right in everything but what `part` changes; the kind's usual destination and references. */
export function command(kind: CustodyEventKind, from: Keeper | null, part: Partial<CustodyCommand> = {}): CustodyCommand {
  counter += 1;
  const base: CustodyCommand = { commandId: `command-${counter}`, kind, from, to: place(DESTINATIONS[kind][0] ?? 'holding', 2), actorId: 'actor-1', occurredAtMs: NOW - 60_000, refs: refsFor(kind) };
  const made = { ...base, ...(kind === 'correction' ? { corrects: { seq: 1, reason: 'wrong-scan' } } : {}), ...part };
  // The record that goes on is named twice, as the keeper and as the reference.
  return part.refs === undefined && made.to.kind === 'same-thing' ? { ...made, refs: { ...made.refs, mergedInto: made.to.id } } : made;
}

/** Decides a command that must be accepted. */
export function accept(state: ItemCustody, order: CustodyCommand, nowMs = NOW): CustodyEvent {
  const outcome = decide(state, order, nowMs);
  if (isRefusal(outcome)) throw new Error(`${order.kind} refused: ${outcome.code} ${outcome.text}`);
  return outcome;
}

/** Decides a command that must be refused. */
export function refused(state: ItemCustody, order: CustodyCommand, nowMs = NOW): Refusal {
  const outcome = decide(state, order, nowMs);
  if (!isRefusal(outcome)) throw new Error(`${order.kind} was accepted`);
  return outcome;
}

const TO_STAGE: Record<Stage, readonly [CustodyEventKind, KeeperKind][]> = {
  waiting: [],
  'in-work': [['work-started', 'station']],
  drying: [['drying-started', 'drying-place']],
  'held-wet': [['held-wet', 'container']],
  'held-frozen': [['frozen', 'freezer']],
  'referred-out': [['referred-out', 'courier']],
  released: [['released', 'disposed']],
  'handed-back': [['handed-back', 'household']],
  merged: [['merged-away', 'same-thing']],
};

export interface Chain {
  events: CustodyEvent[];
  head: ItemCustody;
}

/** Appends commands to a chain; each is built from the state before it. */
export function chainOf(steps: readonly [CustodyEventKind, Keeper, Partial<CustodyCommand>?][], itemId = ITEM): Chain {
  let head = beforeIntake(NETWORK, itemId);
  const events: CustodyEvent[] = [];
  for (const [kind, to, part] of steps) {
    const event = accept(head, command(kind, head.keeper, { to, ...part }));
    events.push(event);
    head = evolve(head, event);
  }
  return { events, head };
}

/** The shortest history that ends in a stage. */
export function inStage(stage: Stage): Chain {
  return chainOf([['taken-in', place('holding')], ...TO_STAGE[stage].map(([kind, to]): [CustodyEventKind, Keeper] => [kind, place(to)])]);
}

export interface Attempt {
  kind: CustodyEventKind;
  to: Keeper;
  liesAboutFrom: boolean;
  refs: Record<string, string>;
  agoMs: number;
  target: number;
}

const STAGE_OF_KEEPER: Partial<Record<KeeperKind, Stage>> = { 'drying-place': 'drying', freezer: 'held-frozen', courier: 'referred-out', specialist: 'referred-out', household: 'handed-back', disposed: 'released' };

const kindArb: fc.Arbitrary<CustodyEventKind> = fc.oneof(
  { weight: 8, arbitrary: fc.constantFrom<CustodyEventKind>('moved', 'work-started', 'work-ended', 'drying-started', 'drying-ended', 'frozen', 'thawed', 'held-wet', 'referred-out', 'referral-returned') },
  { weight: 1, arbitrary: fc.constantFrom<CustodyEventKind>('released', 'handed-back', 'lot-split', 'split-off', 'taken-in', 'correction') },
);

/** A random attempt: mostly plausible, sometimes with a false giver or an odd destination. */
export const attemptArb: fc.Arbitrary<Attempt> = kindArb.chain((kind) =>
  fc.record({
    kind: fc.constant(kind),
    to: fc.tuple(fc.oneof({ weight: 9, arbitrary: fc.constantFrom(...DESTINATIONS[kind]) }, { weight: 1, arbitrary: fc.constantFrom(...KEEPER_KINDS) }), fc.integer({ min: 1, max: 3 })).map(([toKind, n]) => place(toKind, n)),
    liesAboutFrom: fc.oneof({ weight: 9, arbitrary: fc.constant(false) }, { weight: 1, arbitrary: fc.constant(true) }),
    refs: fc.dictionary(fc.string({ unit: 'grapheme', maxLength: 6 }), fc.string({ unit: 'grapheme', maxLength: 8 }), { maxKeys: 3 }).map((extra) => ({ ...extra, ...refsFor(kind) })),
    agoMs: fc.integer({ min: -300_000, max: 86_400_000 }),
    target: fc.integer({ min: 1, max: 4 }),
  }),
);

/** The command of an attempt against the true keeper. */
export function attempted(attempt: Attempt, holder: Keeper | null, nowMs: number): CustodyCommand {
  const from = attempt.liesAboutFrom ? { kind: 'holding' as const, id: 'somewhere-else' } : holder;
  const stage = attempt.kind === 'correction' ? STAGE_OF_KEEPER[attempt.to.kind] ?? 'waiting' : null;
  return command(attempt.kind, from, {
    to: attempt.to,
    occurredAtMs: nowMs - attempt.agoMs,
    refs: stage === null ? attempt.refs : { ...attempt.refs, stage },
    ...(attempt.kind === 'correction' ? { corrects: { seq: attempt.target, reason: 'wrong-scan' } } : {}),
  });
}

/** A sound chain of at least two events, from random attempts; refused ones leave no trace. */
export const chainArb: fc.Arbitrary<Chain> = fc.array(attemptArb, { minLength: 8, maxLength: 30 }).map((attempts) => {
  const chain = chainOf([['taken-in', place('holding')], ['moved', place('container')]]);
  attempts.forEach((attempt, i) => {
    const outcome = decide(chain.head, attempted(attempt, chain.head.keeper, NOW + i * 1000), NOW + i * 1000);
    if (isRefusal(outcome)) return;
    chain.events.push(outcome);
    chain.head = evolve(chain.head, outcome);
  });
  return chain;
});
