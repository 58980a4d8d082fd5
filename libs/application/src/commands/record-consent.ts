import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { refuseUnknownOwner } from '../claims/unknown-owner.js';
import { putWord } from '../families/put-word.js';
import type { ConsentRecord } from '../ports/consent-store.js';
import type { Stores } from '../ports/work.js';
import { refuseErased } from '../privacy/erase-household.js';
import { toRecord, type ConsentInput } from './take-in-household.js';

export interface RecordConsentInput extends ConsentInput {
  householdId: string;
  itemId: string | null;
}

/** Records what the owner decided, for one item or for all of the household, and triages the items it touches anew, all or none. */
export async function recordConsent(stores: Stores, call: UseCaseCall, input: RecordConsentInput): Promise<ConsentRecord> {
  const household = await stores.households.find(input.householdId);
  if (!household) throw notFound('household');
  refuseUnknownOwner(household);
  await refuseErased(stores, household.id);
  if (input.itemId !== null) {
    const item = await stores.items.find(input.itemId);
    if (!item || item.householdId !== household.id) throw new Problem('reference_unknown', 'The item is not one of this household.', { errors: [{ detail: 'is not an item of this household', code: 'reference_unknown', pointer: '#/itemId' }] });
  }
  const consent = toRecord(call, household, input.itemId, input);
  await putWord(stores, call, household, consent);
  return consent;
}
