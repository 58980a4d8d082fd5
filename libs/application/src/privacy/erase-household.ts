import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { refuseNoLead } from '../care/claims.js';
import { refuseUnknownOwner } from '../claims/unknown-owner.js';
import { deleteFilesOf } from '../files/index.js';
import type { ErasureReason, ErasureRecord } from '../ports/erasure-store.js';
import type { HouseholdRecord } from '../ports/household-store.js';
import type { Stores } from '../ports/work.js';

export interface EraseHouseholdInput {
  householdId: string;
  personId: string;
  reason: Exclude<ErasureReason, 'retention-ended'>;
}

/** Things named in a refusal; the rest is counted. */
const NAMED = 10;

/**
 * Erases what is known of a household, once its things have left us: its key is destroyed, every word about it and its things is blanked, its files are
 * struck. What happened to the things stays provable: custody chains, roots and audit hold ids and hashes alone.
 */
export async function eraseHousehold(stores: Stores, call: UseCaseCall, input: EraseHouseholdInput): Promise<ErasureRecord> {
  const household = await lockedHousehold(stores, input.householdId);
  await refuseNoLead(stores, { incidentId: household.incidentId, personId: input.personId, may: 'erase a household. Ask a lead of the incident.' });
  await refuseHeldBack(stores, household);
  return erase(stores, call, household, { reason: input.reason, decidedBy: input.personId });
}

/** `orUnknown`: the record of unknown owners as well. @throws Problem not_found, household_erased, owner_unknown */
export async function lockedHousehold(stores: Stores, householdId: string, orUnknown = false): Promise<HouseholdRecord> {
  if (!(await stores.erasures.lockHousehold(householdId))) throw notFound('household');
  const household = await stores.households.find(householdId);
  if (!household) throw notFound('household');
  if (!orUnknown) refuseUnknownOwner(household);
  const erased = await stores.erasures.of(householdId);
  if (erased) throw new Problem('household_erased', 'What was known of this household has been erased already.', { members: { erasedAt: new Date(erased.erasedAtMs).toISOString() } });
  return household;
}

/** Nothing is taken in, agreed or written for a household that was erased. @throws Problem household_erased */
export async function refuseErased(stores: Stores, householdId: string): Promise<void> {
  if (await stores.erasures.of(householdId)) throw new Problem('household_erased', 'What was known of this household has been erased. Register the family anew if it brings something again.');
}

/** @throws Problem items_held, legal_hold, command_refused */
export async function refuseHeldBack(stores: Stores, household: HouseholdRecord): Promise<void> {
  const hold = await stores.erasures.openHold(household.id);
  if (hold) throw new Problem('legal_hold', 'The household is under a legal hold. Lift the hold first, if that may be done.', { members: { legalHoldId: hold.id } });
  const held = await stores.erasures.stillHeld(household.id, NAMED);
  if (held.count > 0) {
    throw new Problem('items_held', `Things of the household are still with us or on their way (${held.count}): ${held.tags.join(', ')}${held.count > held.tags.length ? ', ...' : ''}. Hand them back, release them, or correct their record first. Nothing was erased.`, { members: { items: held.count, tags: held.tags } });
  }
  if ((await stores.erasures.importsUnderWay(household.incidentId)) > 0) throw new Problem('command_refused', 'A file of the incident is still being read in and may say something of the household. Wait until it is done, then erase.');
}

/** What was checked before is done: all of it or nothing, in this transaction. */
export async function erase(stores: Stores, call: UseCaseCall, household: HouseholdRecord, why: Pick<ErasureRecord, 'reason' | 'decidedBy'>): Promise<ErasureRecord> {
  await stores.ownership.endClaimsOf(household.id, 'household-erased', call.env.nowMs);
  const files = await deleteFilesOf(stores, call, household.id);
  const { items, wordsInChain } = await stores.erasures.erase(household.id, call.env.nowMs);
  const record: ErasureRecord = { id: call.env.newId(), incidentId: household.incidentId, householdId: household.id, ...why, principalId: call.context.principalId, items, files, wordsInChain, erasedAtMs: call.env.nowMs };
  await stores.erasures.insert(record);
  return record;
}
