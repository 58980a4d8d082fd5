import type { z } from 'zod';
import type { ConsentRecord, HouseholdRecord, HouseholdView } from '#application';
import type { ConsentBody, HouseholdBody, HouseholdSummary } from '#contracts';
import { iso } from '../../presenters/time.js';

export function presentConsent(consent: ConsentRecord): z.output<typeof ConsentBody> {
  return { id: consent.id, householdId: consent.householdId, itemId: consent.itemId, scope: consent.scope, given: consent.given, manner: consent.manner, note: consent.note, limit: consent.limit ?? null, recordedAt: iso(consent.recordedAtMs) };
}

export function presentHousehold(view: HouseholdView): z.output<typeof HouseholdBody> {
  const { household } = view;
  return { id: household.id, incidentId: household.incidentId, code: household.code, language: household.language, contact: view.contact, consents: view.consents.map(presentConsent), version: household.version };
}

export function presentHouseholdSummary(household: HouseholdRecord): z.output<typeof HouseholdSummary> {
  return { id: household.id, incidentId: household.incidentId, code: household.code, language: household.language };
}
