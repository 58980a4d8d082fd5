import { notFound, Problem } from '#contracts';
import { TERMINAL_STAGES } from '#custody';
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
import type { Stores } from '../ports/work.js';
import { toRecord, type ConsentInput } from './take-in-household.js';

export interface RecordConsentInput extends ConsentInput {
  householdId: string;
  itemId: string | null;
}

/** Items locked and triaged at a time; bounds the memory of one command, not what it reaches. Our own calibration. */
const ITEMS_PER_CHUNK = 200;

/** Records what the owner decided, for one item or for all of the household, and triages the items it touches anew, all or none. */
export async function recordConsent(stores: Stores, call: UseCaseCall, input: RecordConsentInput): Promise<ConsentRecord> {
  const household = await stores.households.find(input.householdId);
  if (!household) throw notFound('household');
  if (input.itemId !== null) {
    const item = await stores.items.find(input.itemId);
    if (!item || item.householdId !== household.id) throw new Problem('reference_unknown', 'The item is not one of this household.', { errors: [{ detail: 'is not an item of this household', code: 'reference_unknown', pointer: '#/itemId' }] });
  }
  const consent = toRecord(call, household, input.itemId, input);
  await stores.consents.insert([consent]);
  if (input.scope === 'photograph') return consent;
  const goesOtherwise = input.itemId === null ? await retriageHousehold(stores, call, household) : await retriageTouched(stores, call, [input.itemId]);
  // What now takes another way stands on no work list until a plan has it there.
  if (goesOtherwise) await requestPlan(stores, call, household.incidentId, ownerReason(input.scope));
  return consent;
}

/** In the transaction of the word itself: once it is acknowledged, no list names what the owner has just refused. True when something now goes otherwise. */
async function retriageHousehold(stores: Stores, call: UseCaseCall, household: HouseholdRecord): Promise<boolean> {
  let goesOtherwise = false;
  for (let afterId: string | null = null; ; ) {
    // In id order over all chunks, so that two words about one household wait for each other and never block each other.
    const chunk: ItemRecord[] = await stores.items.page(household.incidentId, { householdId: household.id }, ITEMS_PER_CHUNK, afterId);
    if (await retriageTouched(stores, call, chunk.map((item) => item.id))) goesOtherwise = true;
    afterId = chunk.at(-1)?.id ?? null;
    if (chunk.length < ITEMS_PER_CHUNK || afterId === null) return goesOtherwise;
  }
}

async function retriageTouched(stores: Stores, call: UseCaseCall, itemIds: readonly string[]): Promise<boolean> {
  let goesOtherwise = false;
  for (const item of await stores.items.lockMany(itemIds)) {
    if (TERMINAL_STAGES.includes(item.stage)) continue;
    const standing = await standingOf(stores, item);
    const consents = await consentsNow(stores, item, standing);
    const chosen = chosenBy(standing) ?? wayBegun(item, standing.done, consents);
    const now = await retriage(stores, call, item, { ...standing.assessment.observed, consents }, { origin: 'consent', assessedAtMs: call.env.nowMs, ...workSoFar(standing), chosen });
    if (now.disposition !== item.disposition || now.nextStep !== item.nextStep || now.waitingForOwner !== item.waitingForOwner) goesOtherwise = true;
  }
  return goesOtherwise;
}
