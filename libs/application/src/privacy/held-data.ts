import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { refuseUnknownOwner } from '../claims/unknown-owner.js';
import type { ErasureRecord, HeldRows } from '../ports/erasure-store.js';
import type { Stores } from '../ports/work.js';

export interface HeldData {
  householdId: string;
  incidentId: string;
  madeAtMs: number;
  erasure: ErasureRecord | null;
  held: HeldRows;
}

/** Everything that is held about a household, for the people it is about. The caller's look is put down in the audit. */
export async function heldData(stores: Stores, call: UseCaseCall, input: { householdId: string }): Promise<HeldData> {
  const household = await stores.households.find(input.householdId);
  if (!household) throw notFound('household');
  refuseUnknownOwner(household);
  return { householdId: household.id, incidentId: household.incidentId, madeAtMs: call.env.nowMs, erasure: await stores.erasures.of(household.id), held: await stores.erasures.everything(household.id) };
}
