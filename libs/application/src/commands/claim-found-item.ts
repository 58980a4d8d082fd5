import { notFound, Problem, type ProblemError } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { personOf } from '../care/claims.js';
import { faultOfTaker } from '../claims/judge-claim.js';
import { CLAIM_LIMITS, DAY_OF_TRIES_MS } from '../claims/limits.js';
import { answersField, claimView, lockUnowned, refuseActor, type ClaimAnswers, type ClaimView } from '../claims/views.js';
import { lockOpenItem } from '../care/standing.js';
import type { FoundItemRecord, OwnerMarkRecord, OwnershipClaimRecord } from '../ports/ownership-store.js';
import type { Stores } from '../ports/work.js';
import { lockedHousehold } from '../privacy/erase-household.js';

export interface ClaimFoundItemInput extends ClaimAnswers {
  itemId: string;
  householdId: string;
  /** The person at the desk. */
  takenBy: string;
}

/**
 * Takes down that a household says that a found thing is theirs, with its answers to the questions. They are sealed before anybody compares them, and are
 * never changed: another answer is another claim, and there are few of them.
 */
export async function claimFoundItem(stores: Stores, call: UseCaseCall, input: ClaimFoundItemInput): Promise<ClaimView> {
  const item = await stores.items.find(input.itemId);
  if (!item) throw notFound('item');
  const claimant = await stores.households.find(input.householdId);
  if (claimant?.incidentId !== item.incidentId) throw new Problem('reference_unknown', 'There is no such household in the incident of this item. Register the family first.', { errors: [{ detail: 'names nothing of this incident', code: 'reference_unknown', pointer: '#/householdId' }] });
  const household = await lockedHousehold(stores, claimant.id);
  const found = await lockUnowned(stores, input.itemId);
  await lockOpenItem(stores, input.itemId);
  await personOf(stores, found.incidentId, input.takenBy, '#/takenBy');
  const marks = await stores.ownership.marks(found.id);
  refuseActor(faultOfTaker({ personId: input.takenBy, principalId: call.context.principalId }, marks, await stores.ownership.looks(found.id)), '#/takenBy');
  refuseStrangeAnswers(marks, input.answers);
  await refuseTriesUsed(stores, call, household.id, found);
  const { statement, answers } = input;
  const id = call.env.newId();
  const claim: OwnershipClaimRecord = {
    id, incidentId: found.incidentId, foundItemId: found.id, householdId: household.id, state: 'open', reason: null, answersSealed: await stores.personal.seal(household.id, answersField(id), JSON.stringify({ statement, answers })),
    takenBy: input.takenBy, takenWith: call.context.principalId, takenAtMs: call.env.nowMs, endedAtMs: null, version: 1,
  };
  if (!(await stores.ownership.insertClaim(claim))) throw new Problem('already_exists', 'This household has an open claim on this item. It is decided first, or taken back.');
  return claimView(stores, claim, found.itemId);
}

/** Every answer belongs to a question about this very thing, one to each. What a family does not know is left out. */
function refuseStrangeAnswers(marks: readonly OwnerMarkRecord[], answers: ClaimAnswers['answers']): void {
  if (marks.length === 0) throw new Problem('command_refused', 'Nothing is written down yet that only the owner can know, so a claim could be compared with nothing. Look at the thing, and record questions with POST /v1/items/{itemId}/owner-marks first.', { members: { reason: 'no_marks' } });
  const known = new Set(marks.map(({ id }) => id));
  const faults = answers.flatMap(({ markId }, index): ProblemError[] => {
    const pointer = `#/answers/${index}/markId`;
    if (!known.has(markId)) return [{ detail: 'names no question about this item', code: 'reference_unknown', pointer }];
    return answers.findIndex((other) => other.markId === markId) < index ? [{ detail: 'answers the same question again', code: 'answered_twice', pointer }] : [];
  });
  if (faults.length > 0) throw new Problem('reference_unknown', 'Some answers belong to no question about this item, or to one that is answered already; see errors.', { errors: faults });
}

/** @throws Problem claim_tries_used */
async function refuseTriesUsed(stores: Stores, call: UseCaseCall, householdId: string, found: FoundItemRecord): Promise<void> {
  const { perThing, perDay } = { ...CLAIM_LIMITS, ...call.env.claims };
  const { here, lately } = await stores.ownership.tries(householdId, found.id, call.env.nowMs - DAY_OF_TRIES_MS);
  if (here >= perThing) throw new Problem('claim_tries_used', `This household has claimed this item ${here} times, which is as often as we ask (our own limit). Let a lead speak with the family; the item stays safe meanwhile.`, { members: { claims: here, most: perThing } });
  if (lately >= perDay) throw new Problem('claim_tries_used', `This household has made ${lately} claims within 24 hours, which is as many as we take (our own limit). Go on tomorrow; the things stay safe meanwhile.`, { members: { claims: lately, most: perDay } });
}
