import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { personOf } from '../care/claims.js';
import { answerField, lockUnowned, questionField } from '../claims/views.js';
import type { FoundItemRecord, OwnerMarkRecord } from '../ports/ownership-store.js';
import type { Stores } from '../ports/work.js';

/** A question, such as what is written on the back, with the answer that is to be seen on the thing. */
export interface MarkInput {
  question: string;
  answer: string;
}

/** Questions about one thing; more would wear out a family before it has its thing. Our own calibration. */
export const MARKS_MOST = 10;

/** Writes down what only the owner of a found thing can know. It is shown to nobody before a claim's answers are in. */
export async function recordOwnerMark(stores: Stores, call: UseCaseCall, input: MarkInput & { itemId: string; personId: string }): Promise<OwnerMarkRecord> {
  const found = await lockUnowned(stores, input.itemId);
  await personOf(stores, found.incidentId, input.personId);
  if ((await stores.ownership.claims(found.id)).some(({ state }) => state === 'open')) throw new Problem('command_refused', 'A claim on this thing is open, and its answers were given to the questions as they were. Write more down when it is decided.');
  if ((await stores.ownership.marks(found.id)).length >= MARKS_MOST) throw new Problem('command_refused', `There are ${MARKS_MOST} questions about this thing already, which is enough to decide by.`, { members: { marks: MARKS_MOST } });
  return writeMark(stores, call, found, input, input.personId);
}

export async function writeMark(stores: Stores, call: UseCaseCall, found: FoundItemRecord, { question, answer }: MarkInput, personId: string): Promise<OwnerMarkRecord> {
  const id = call.env.newId();
  const mark: OwnerMarkRecord = {
    id, incidentId: found.incidentId, foundItemId: found.id, itemId: found.itemId, questionSealed: await stores.personal.seal(null, questionField(id), question), answerSealed: await stores.personal.seal(null, answerField(id), answer),
    recordedBy: personId, recordedWith: call.context.principalId, recordedAtMs: call.env.nowMs,
  };
  await stores.ownership.insertMark(mark);
  return mark;
}
