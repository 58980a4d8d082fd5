import { HAND_OVER_ENDS, REF } from '#custody';
import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { HandOverLine, HandOverRecord } from '../ports/hand-over-store.js';
import type { Stores } from '../ports/work.js';
import { recordContainer } from './containers.js';
import { recordCustody } from './record-custody.js';
import { aboutThing, lockThings, type LockedThings, type NamedThing } from './things.js';

type Outcome = (typeof HAND_OVER_ENDS)[number];

/** A hand-over that waits for an answer, locked. @throws Problem not_found, hand_over_not_open with how it stands */
export async function lockOpenHandOver(stores: Stores, call: UseCaseCall, handOverId: string, orExpired = false): Promise<HandOverRecord> {
  const handOver = await stores.handOvers.lock(handOverId);
  if (!handOver) throw notFound('hand-over');
  if (handOver.state !== 'open') throw notOpen(handOver, handOver.state);
  // Its time is up although nobody has written that down yet.
  if (!orExpired && call.env.nowMs >= handOver.expiresAtMs) throw notOpen(handOver, 'expired');
  return handOver;
}

const HOW: Record<HandOverRecord['state'], string> = {
  open: 'is open', accepted: 'was accepted', declined: 'was declined by the receiver', withdrawn: 'was withdrawn by the giver', expired: 'was not answered in time',
};

function notOpen(handOver: HandOverRecord, state: HandOverRecord['state']): Problem {
  const { endedAtMs, endedBy } = handOver;
  return new Problem('hand_over_not_open', `This hand-over ${HOW[state]}, and nothing was changed now. Read it to see which thing is with whom; what is to pass on is offered anew.`, {
    members: { state, endedAt: new Date(endedAtMs ?? handOver.expiresAtMs).toISOString(), endedBy },
  });
}

/** The things of the lines, locked. */
export function lockLines(stores: Stores, handOver: HandOverRecord): Promise<LockedThings> {
  return lockThings(stores, handOver.incidentId, handOver.lines.map((line): NamedThing => ({ kind: line.thing, id: line.id, pointer: '#' })));
}

/** Records that a line was not taken: what was offered stays with the giver. A correction or a find may have answered it before. */
export async function endLine(stores: Stores, call: UseCaseCall, handOver: HandOverRecord, line: HandOverLine, locked: LockedThings, end: { outcome: Outcome; personId: string | null; reason: string }): Promise<void> {
  const refs: Record<string, string> = { [REF.handOverId]: handOver.id, [REF.outcome]: end.outcome };
  if (end.personId !== null) refs[REF.personId] = end.personId;
  if (end.reason !== '') refs['reason'] = end.reason;
  const [item, container] = [locked.items.get(line.id), locked.containers.get(line.id)];
  const thing = item ?? container;
  if (thing?.matters.handOver?.id !== handOver.id || thing.keeper === null) return;
  const passing = { kind: 'hand-over-ended', from: thing.keeper, to: thing.keeper, refs, occurredAtMs: call.env.nowMs } as const;
  await aboutThing({ kind: line.thing, id: line.id, tagCode: line.tagCode }, async () => {
    if (item) await recordCustody(stores, call, item, passing);
    else if (container) await recordContainer(stores, call, container, passing);
  });
}

const STATE_OF = { declined: 'declined', withdrawn: 'withdrawn', expired: 'expired' } as const;

/** Ends a whole hand-over without it being accepted. */
export async function endHandOver(stores: Stores, call: UseCaseCall, handOver: HandOverRecord, end: { outcome: Outcome; personId: string | null; note: string }): Promise<HandOverRecord> {
  const locked = await lockLines(stores, handOver);
  const state = STATE_OF[end.outcome];
  for (const line of handOver.lines) await endLine(stores, call, handOver, line, locked, { ...end, reason: '' });
  const ended: HandOverRecord = { ...handOver, state, endedAtMs: call.env.nowMs, endedBy: end.personId, endedNote: end.note, version: handOver.version + 1, lines: handOver.lines.map((line) => ({ ...line, state })) };
  await stores.handOvers.end(ended);
  return ended;
}
