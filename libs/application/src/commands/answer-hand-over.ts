import { acceptanceDifference, formatTagCode, REF } from '#custody';
import { Problem, type ProblemError } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { personOf, refuseNoLead } from '../care/claims.js';
import { claimRoom } from '../custody/capacity.js';
import { holdCompany, refuseCompany, refuseCompanyOfContents } from '../custody/company.js';
import { recordContainer } from '../custody/containers.js';
import { endHandOver, endLine, lockLines, lockOpenHandOver } from '../custody/end-hand-over.js';
import { loadOf } from '../custody/move-container.js';
import { refuseClosed } from '../custody/open-incident.js';
import { recordCustody } from '../custody/record-custody.js';
import { agreementToRefer, openReferral, planAfterSending, saveReferred } from '../custody/refer-out.js';
import { aboutThing, thingsOfTags, type LockedThings } from '../custody/things.js';
import type { HandOverLine, HandOverRecord, LineException } from '../ports/hand-over-store.js';
import type { Stores } from '../ports/work.js';

export interface AcceptHandOverInput {
  handOverId: string;
  /** The receiver. */
  personId: string;
  /** Tags of what was taken; null: everything that is not named as an exception. */
  accepted: string[] | null;
  exceptions: { tag: string; kind: LineException; note: string }[];
}

/** The receiver takes what was offered, all of it or with named exceptions; what was not taken stays with the giver. */
export async function acceptHandOver(stores: Stores, call: UseCaseCall, input: AcceptHandOverInput): Promise<HandOverRecord> {
  const handOver = await lockOpenHandOver(stores, call, input.handOverId);
  await refuseClosed(stores, handOver);
  await refuseStranger(stores, handOver, input.personId);
  const { taken, exceptions } = await answered(stores, handOver, input);
  const locked = await lockLines(stores, handOver);
  const lines: HandOverLine[] = [];
  for (const line of handOver.lines) {
    const exception = exceptions.get(line.id);
    if (exception) await endLine(stores, call, handOver, line, locked, { outcome: 'declined', personId: input.personId, reason: exception.kind });
    else await takeLine(stores, call, handOver, line, locked, input.personId);
    lines.push(exception ? { ...line, state: 'excepted', exception: exception.kind, note: exception.note } : { ...line, state: 'accepted' });
  }
  // Nothing taken at all is a refusal by another name.
  const state = taken.length === 0 ? 'declined' : 'accepted';
  const ended: HandOverRecord = { ...handOver, state, endedAtMs: call.env.nowMs, endedBy: input.personId, endedNote: '', version: handOver.version + 1, lines };
  await stores.handOvers.end(ended);
  return ended;
}

/** The receiver takes nothing of it. */
export async function refuseHandOver(stores: Stores, call: UseCaseCall, input: { handOverId: string; personId: string; reason: string }): Promise<HandOverRecord> {
  const handOver = await lockOpenHandOver(stores, call, input.handOverId);
  await refuseStranger(stores, handOver, input.personId);
  return endHandOver(stores, call, handOver, { outcome: 'declined', personId: input.personId, note: input.reason });
}

/** The giver, or a lead, takes the offer back. */
export async function withdrawHandOver(stores: Stores, call: UseCaseCall, input: { handOverId: string; personId: string; reason: string }): Promise<HandOverRecord> {
  const handOver = await lockOpenHandOver(stores, call, input.handOverId, true);
  await personOf(stores, handOver.incidentId, input.personId);
  if (input.personId !== handOver.giverId) await refuseNoLead(stores, { incidentId: handOver.incidentId, personId: input.personId, may: 'withdraw what somebody else has offered. Let the giver do it.' });
  return endHandOver(stores, call, handOver, { outcome: 'withdrawn', personId: input.personId, note: input.reason });
}

/**
 * Only who was named may answer: the courier in person, for a place somebody of its site, and never the giver. For a specialist, who
 * has no entry among the people, the one who saw it received answers for that.
 */
async function refuseStranger(stores: Stores, { incidentId, to, giverId }: HandOverRecord, personId: string): Promise<void> {
  await personOf(stores, incidentId, personId);
  const refuse = (detail: string, text: string) => new Problem('hand_over_for_another', text, { errors: [{ detail, code: 'not_the_receiver', pointer: '#/personId' }], members: { state: 'open', to } });
  if (to.kind === 'courier' && to.id !== personId) throw refuse('is not the receiver', 'This was offered to somebody else, and only that person may accept or decline it. Let the giver withdraw it and offer it anew.');
  if (to.kind !== 'specialist' && personId === giverId) throw refuse('is the giver', 'Who gives cannot receive: a hand-over is answered by somebody else. To take the offer back, withdraw it.');
  const place = await stores.places.find(incidentId, to);
  const person = await stores.places.person(personId);
  if (to.kind !== 'courier' && place !== null && place.siteId !== null && person?.siteId !== place.siteId) throw refuse('is not of the receiving site', 'This was offered to another site, and somebody of that site accepts or declines it. If the person works there now, change their site first.');
}

interface Answered {
  taken: string[];
  exceptions: Map<string, { kind: LineException; note: string }>;
}

/** Every line is accepted or named as an exception, and nothing else is. @throws Problem tag_unknown, command_refused */
async function answered(stores: Stores, handOver: HandOverRecord, input: AcceptHandOverInput): Promise<Answered> {
  const { incidentId, lines } = handOver;
  const accepted = input.accepted === null ? null : await thingsOfTags(stores, incidentId, input.accepted.map((text, index) => ({ text, pointer: `#/accepted/${index}` })));
  const excepted = await thingsOfTags(stores, incidentId, input.exceptions.map(({ tag }, index) => ({ text: tag, pointer: `#/exceptions/${index}/tag` })));
  const difference = acceptanceDifference({ offered: lines.map(({ id }) => id), accepted: accepted?.map(({ id }) => id) ?? null, excepted: excepted.map(({ id }) => id) });
  const tagOf = (id: string) => formatTagCode(lines.find((line) => line.id === id)?.tagCode ?? '');
  const errors: ProblemError[] = [
    ...[...(accepted ?? []), ...excepted].filter(({ id }) => difference.notOffered.includes(id)).map(({ pointer }) => ({ detail: 'was not offered in this hand-over', code: 'not_offered', pointer })),
    ...excepted.filter(({ id }) => difference.both.includes(id)).map(({ pointer }) => ({ detail: 'is named as accepted, too', code: 'answered_twice', pointer })),
    ...(difference.unanswered.length === 0 ? [] : [{ detail: `does not answer for ${difference.unanswered.map(tagOf).join(', ')}`, code: 'unanswered', pointer: '#/accepted' }]),
  ];
  if (errors.length > 0) throw new Problem('command_refused', 'Each thing of the hand-over is either accepted or named as an exception, and nothing else is. What was not offered is taken by a hand-over of its own.', { errors, members: { unanswered: difference.unanswered.map(tagOf) } });
  return { taken: difference.taken, exceptions: new Map(excepted.map(({ id }, index) => [id, { kind: input.exceptions[index]?.kind ?? 'other', note: input.exceptions[index]?.note ?? '' }])) };
}

/** One thing changes hands, with room at the receiving place taken in the same breath. */
async function takeLine(stores: Stores, call: UseCaseCall, handOver: HandOverRecord, line: HandOverLine, locked: LockedThings, personId: string): Promise<void> {
  const { to } = handOver;
  const refs: Record<string, string> = { [REF.handOverId]: handOver.id, [REF.personId]: personId };
  const passing = { kind: 'hand-over-accepted', to, refs, occurredAtMs: call.env.nowMs } as const;
  const [item, container] = [locked.items.get(line.id), locked.containers.get(line.id)];
  await aboutThing({ kind: line.thing, id: line.id, tagCode: line.tagCode }, async () => {
    if (container) {
      await refuseCompanyOfContents(stores, container, to, await claimRoom(stores, await loadOf(stores, container), to));
      await recordContainer(stores, call, container, { ...passing, from: container.keeper });
    } else if (item) {
      await holdCompany(stores, item, to);
      const place = await claimRoom(stores, item, to);
      await refuseCompany(stores, item, to, place);
      if (to.kind !== 'specialist') return void (await recordCustody(stores, call, item, { ...passing, from: item.keeper }));
      const consentId = await agreementToRefer(stores, item);
      const referral = await openReferral(stores, call, item, { specialistId: to.id, consentId, reason: handOver.reason, personId: handOver.giverId, sentAtMs: call.env.nowMs });
      const { item: sent } = await recordCustody(stores, call, item, { ...passing, from: item.keeper, refs: { ...refs, consentId, referralId: referral.id } });
      await planAfterSending(stores, call, await saveReferred(stores, call, sent, call.env.nowMs), to.id);
    }
  });
}
