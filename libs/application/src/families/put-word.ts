import { TERMINAL_STAGES } from '#custody';
import { carryWord } from '../aid/carry-word.js';
import type { UseCaseCall } from '../call.js';
import { consentsNow } from '../care/owner-word.js';
import { retriage } from '../care/retriage.js';
import { chosenBy, standingOf, workSoFar } from '../care/standing.js';
import { wayBegun } from '../care/way-begun.js';
import { ownerReason } from '../planning/plan-reasons.js';
import { requestPlan } from '../planning/request-plan.js';
import type { ConsentRecord } from '../ports/consent-store.js';
import type { HouseholdRecord } from '../ports/household-store.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { OwnerQuestionRecord } from '../ports/owner-question-store.js';
import type { Stores } from '../ports/work.js';
import { openMatter } from './matters.js';
import { safeStop } from './safe-stop.js';

/** Items locked and triaged at a time; bounds the memory of one command, not what it reaches. Our own calibration. */
const ITEMS_PER_CHUNK = 200;

/**
 * Stores an owner's word with all that follows in the same transaction: open questions that it answers are closed, what was under way stops at a safe
 * point and a person is told, the things it touches are triaged anew, a plan is asked for where one now goes otherwise, and a partner network that
 * holds one of them is told.
 */
export async function putWord(stores: Stores, call: UseCaseCall, household: HouseholdRecord, consent: ConsentRecord): Promise<void> {
  await putWordHere(stores, call, household, consent, (item) => carryWord(stores, call, item, consent, putToldWord));
}

/** A word that a partner network has told goes no further by itself: what was lent on is for a person to see to, and the matter says so. */
function putToldWord(there: Stores, call: UseCaseCall, household: HouseholdRecord, word: ConsentRecord): Promise<void> {
  return putWordHere(there, call, household, word, () => Promise.resolve());
}

async function putWordHere(stores: Stores, call: UseCaseCall, household: HouseholdRecord, consent: ConsentRecord, carry: (item: ItemRecord) => Promise<void>): Promise<void> {
  await stores.consents.insert([consent]);
  await closeAnswered(stores, call, consent);
  if (consent.scope === 'photograph') return;
  const goesOtherwise = consent.itemId === null ? await retriageHousehold(stores, call, household, consent, carry) : await retriageTouched(stores, call, [consent.itemId], consent, carry);
  // What now takes another way stands on no work list until a plan has it there.
  if (goesOtherwise) await requestPlan(stores, call, household.incidentId, ownerReason(consent.scope));
}

/** What the family has said needs no answer any more. Letting go is agreed thing by thing, so that a general yes answers no question about it. */
async function closeAnswered(stores: Stores, call: UseCaseCall, consent: ConsentRecord): Promise<void> {
  if (consent.itemId === null && consent.given && consent.scope === 'release') return;
  const answered = (question: OwnerQuestionRecord): boolean => question.state === 'open' && question.kind === consent.scope && (consent.itemId === null || consent.itemId === question.itemId);
  for (const { id } of (await stores.ownerQuestions.ofHousehold(consent.householdId)).filter(answered)) {
    const question = await stores.ownerQuestions.lock(id);
    if (!question || !answered(question)) continue;
    await stores.ownerQuestions.save({ ...question, state: 'answered', endedAtMs: call.env.nowMs, answer: consent.given ? 'yes' : 'no', answeredBy: consent.manner === 'link' ? 'link' : 'person', answererId: consent.recordedBy, consentId: consent.id });
  }
}

/** In the transaction of the word itself: once it is acknowledged, no list names what the owner has just refused. True when something now goes otherwise. */
async function retriageHousehold(stores: Stores, call: UseCaseCall, household: HouseholdRecord, consent: ConsentRecord, carry: (item: ItemRecord) => Promise<void>): Promise<boolean> {
  let goesOtherwise = false;
  for (let afterId: string | null = null; ; ) {
    // In id order over all chunks, so that two words about one household wait for each other and never block each other.
    const chunk: ItemRecord[] = await stores.items.page(household.incidentId, { householdId: household.id }, ITEMS_PER_CHUNK, afterId);
    if (await retriageTouched(stores, call, chunk.map((item) => item.id), consent, carry)) goesOtherwise = true;
    afterId = chunk.at(-1)?.id ?? null;
    if (chunk.length < ITEMS_PER_CHUNK || afterId === null) return goesOtherwise;
  }
}

async function retriageTouched(stores: Stores, call: UseCaseCall, itemIds: readonly string[], consent: ConsentRecord, carry: (item: ItemRecord) => Promise<void>): Promise<boolean> {
  let goesOtherwise = false;
  for (const item of await stores.items.lockMany(itemIds)) {
    if (TERMINAL_STAGES.includes(item.stage)) continue;
    await stopSafely(stores, call, item, consent);
    await carry(item);
    const now = await retriageItem(stores, call, item);
    if (now.disposition !== item.disposition || now.nextStep !== item.nextStep || now.waitingForOwner !== item.waitingForOwner) goesOtherwise = true;
  }
  return goesOtherwise;
}

/** Triages a locked item by the owner's words as they now stand; `anew` where it need not stay on the way that it was put on meanwhile. */
export async function retriageItem(stores: Stores, call: UseCaseCall, item: ItemRecord, anew = false): Promise<ItemRecord> {
  const standing = await standingOf(stores, item);
  const consents = await consentsNow(stores, item, standing);
  const chosen = chosenBy(standing) ?? (anew ? null : wayBegun(item, standing.done, consents));
  return retriage(stores, call, item, { ...standing.assessment.observed, consents }, { origin: 'consent', assessedAtMs: call.env.nowMs, ...workSoFar(standing), chosen });
}

/** A no while something is under way: it is not undone, but nothing follows until a person has seen to it. */
export async function stopSafely(stores: Stores, call: UseCaseCall, item: ItemRecord, consent: ConsentRecord): Promise<void> {
  if (consent.given) return;
  // The item's own word stands before the household's, which then stops nothing.
  const { ids } = await stores.consents.inForce(item.householdId, item.id);
  const stop = ids[consent.scope] === consent.id ? safeStop(item, consent.scope) : null;
  if (stop === null || (await stores.familyMatters.stopOf(item.id)) !== null) return;
  await openMatter(stores, call, { incidentId: item.incidentId, householdId: item.householdId, kind: 'consent-withdrawn', itemId: item.id, consentId: consent.id, step: stop.step, advice: stop.advice });
}
