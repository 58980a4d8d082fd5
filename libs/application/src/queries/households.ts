import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { ConsentRecord } from '../ports/consent-store.js';
import type { HouseholdContact, HouseholdRecord } from '../ports/household-store.js';
import type { Stores } from '../ports/work.js';

export interface HouseholdView {
  household: HouseholdRecord;
  contact: HouseholdContact | null;
  consents: ConsentRecord[];
}

export async function getHousehold(stores: Stores, _call: UseCaseCall, input: { householdId: string }): Promise<HouseholdView> {
  const household = await stores.households.find(input.householdId);
  if (!household) throw notFound('household');
  return { household, contact: await stores.households.contact(household.id), consents: await stores.consents.ofHousehold(household.id) };
}

export async function listHouseholds(stores: Stores, _call: UseCaseCall, input: { incidentId: string; limit: number; after: string | null }): Promise<HouseholdRecord[]> {
  if (!(await stores.places.incident(input.incidentId))) throw notFound('incident');
  return stores.households.page(input.incidentId, input.limit, input.after);
}
