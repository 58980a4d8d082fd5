/** Found things: what is on record of them, what may be told in public, and both sides of a claim for those who decide. */
import type { Message } from '#care';
import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { noticeWords } from '../claims/claim-words.js';
import { faultOfLooker } from '../claims/judge-claim.js';
import { answerField, answersField, claimView, finderField, placeField, questionField, refuseActor, type ClaimAnswers, type ClaimView } from '../claims/views.js';
import type { FoundItemRecord, FoundListRecord, FoundState, OwnershipClaimRecord } from '../ports/ownership-store.js';
import type { Stores } from '../ports/work.js';
import { refuseErased } from '../privacy/erase-household.js';

/** What was found in an incident, the oldest record first. Where, by whom and what is asked stands in the record of each alone, where every look is audited. @throws Problem not_found */
export async function listFoundItems(stores: Stores, _call: UseCaseCall, input: { incidentId: string; state: FoundState | null; limit: number; after: string | null }): Promise<FoundListRecord[]> {
  if (!(await stores.places.incident(input.incidentId))) throw notFound('incident');
  return stores.ownership.page(input.incidentId, input.state, input.limit, input.after);
}

export interface FoundRecordView {
  found: FoundItemRecord;
  place: string;
  finder: string;
  /** The questions alone. */
  questions: { markId: string; question: string }[];
  claims: ClaimView[];
}

/** Where and by whom it was found, what is asked, and how claims stand. Never an answer, on record or given. */
export async function getFoundRecord(stores: Stores, _call: UseCaseCall, input: { itemId: string }): Promise<FoundRecordView> {
  const found = await stores.ownership.findByItem(input.itemId);
  if (!found) throw notFound('found item');
  const marks = await stores.ownership.marks(found.id);
  const [place, finder, ...questions] = await stores.personal.openAll([
    { householdId: null, field: placeField(found.id), sealed: found.placeSealed }, { householdId: null, field: finderField(found.id), sealed: found.finderSealed },
    ...marks.map(({ id, questionSealed }) => ({ householdId: null, field: questionField(id), sealed: questionSealed })),
  ]);
  const claims: ClaimView[] = [];
  for (const claim of await stores.ownership.claims(found.id)) claims.push(await claimView(stores, claim, found.itemId));
  return { found, place: place ?? '', finder: finder ?? '', questions: marks.map(({ id }, index) => ({ markId: id, question: questions[index] ?? '' })), claims };
}

/** What may be told in public; see `noticeWords`. Nothing is told of what has an owner. */
export async function getFoundNotice(stores: Stores, _call: UseCaseCall, input: { itemId: string }): Promise<Message[]> {
  const [item, found] = [await stores.items.find(input.itemId), await stores.ownership.findByItem(input.itemId)];
  if (!item || !found) throw notFound('found item');
  if (found.grantedClaimId !== null) throw new Problem('owner_known', 'Its owner is known, so nothing is told in public any more. Take the notice down.');
  return noticeWords({ materialClass: item.materialClass, count: item.count, foundOn: found.foundOn, area: await stores.ownership.areaOf(found.incidentId) });
}

export interface ComparisonView {
  claim: OwnershipClaimRecord;
  itemId: string;
  statement: string;
  rows: { markId: string; question: string; onRecord: string; said: string }[];
}

/** Both sides of an open claim for one who will decide it. Who looked is kept: they take no answers about this thing any more. @throws Problem claim_closed, claim_person */
export async function compareOwnershipClaim(stores: Stores, call: UseCaseCall, input: { ownershipClaimId: string; personId: string }): Promise<ComparisonView> {
  const claim = await stores.ownership.findClaim(input.ownershipClaimId);
  if (!claim) throw notFound('claim');
  const person = await stores.places.person(input.personId);
  if (person?.incidentId !== claim.incidentId) throw new Problem('reference_unknown', 'There is no person with this id in the incident. Take the id from the layout of the incident.', { errors: [{ detail: 'names nothing of this incident', code: 'reference_unknown', parameter: 'personId' }] });
  if (claim.state !== 'open') throw new Problem('claim_closed', 'This claim is not open any more, so there is nothing to compare.', { members: { state: claim.state } });
  await refuseErased(stores, claim.householdId);
  refuseActor(faultOfLooker({ personId: person.id, principalId: call.context.principalId }, claim), 'personId');
  await stores.ownership.insertLook({ id: call.env.newId(), incidentId: claim.incidentId, foundItemId: claim.foundItemId, claimId: claim.id, personId: person.id, principalId: call.context.principalId, lookedAtMs: call.env.nowMs });
  return bothSides(stores, claim);
}

async function bothSides(stores: Stores, claim: OwnershipClaimRecord): Promise<ComparisonView> {
  const marks = await stores.ownership.marks(claim.foundItemId);
  const given = await stores.personal.open(claim.householdId, answersField(claim.id), claim.answersSealed);
  const { statement, answers } = JSON.parse(given ?? '{"statement":"","answers":[]}') as ClaimAnswers;
  const texts = await stores.personal.openAll(marks.flatMap(({ id, questionSealed, answerSealed }) => [{ householdId: null, field: questionField(id), sealed: questionSealed }, { householdId: null, field: answerField(id), sealed: answerSealed }]));
  const rows = marks.map(({ id }, index) => ({ markId: id, question: texts[2 * index] ?? '', onRecord: texts[2 * index + 1] ?? '', said: answers.find(({ markId }) => markId === id)?.answer ?? '' }));
  return { claim, itemId: marks[0]?.itemId ?? '', statement, rows };
}
