import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { ConsentRecord, ConsentScope } from '../ports/consent-store.js';
import type { HouseholdContact, HouseholdRecord } from '../ports/household-store.js';
import type { Stores } from '../ports/work.js';

export interface ConsentInput {
  scope: ConsentScope;
  given: boolean;
  manner: ConsentRecord['manner'];
  note: string;
  /** Only with a yes to `refer`. */
  limit?: ConsentRecord['limit'];
}

export interface TakeInHouseholdInput {
  incidentId: string;
  code: string;
  language: string;
  contact: HouseholdContact;
  consents: ConsentInput[];
}

/** Registers a household with its contact and what it agreed to at the doorway. */
export async function takeInHousehold(stores: Stores, call: UseCaseCall, input: TakeInHouseholdInput): Promise<{ household: HouseholdRecord; consents: ConsentRecord[] }> {
  const incident = await stores.places.incident(input.incidentId);
  if (!incident) throw notFound('incident');
  if (incident.state === 'closed') throw new Problem('incident_closed', 'The incident takes in nothing more.');
  const earlier = await stores.households.findByCode(input.incidentId, input.code);
  if (earlier) throw new Problem('already_exists', `Household ${input.code} is registered already. Use it, or choose another code.`, { members: { householdId: earlier.id } });
  const household: HouseholdRecord = {
    networkId: call.context.networkId, incidentId: input.incidentId, id: call.env.newId(), code: input.code, language: input.language, unknownOwner: false,
    version: 1, createdAtMs: call.env.nowMs, updatedAtMs: call.env.nowMs,
  };
  await stores.households.insert(household, input.contact);
  const consents = input.consents.map((consent) => toRecord(call, household, null, consent));
  await stores.consents.insert(consents);
  return { household, consents };
}

/** A consent as it is stored: who recorded it and when, never edited; a change of mind is a new one. */
export function toRecord(call: UseCaseCall, household: HouseholdRecord, itemId: string | null, consent: ConsentInput): ConsentRecord {
  return { ...consent, id: call.env.newId(), incidentId: household.incidentId, householdId: household.id, itemId, recordedBy: call.context.principalId, recordedAtMs: call.env.nowMs };
}
