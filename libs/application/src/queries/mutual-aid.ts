import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { AidAgreementRecord, AidOfferRecord } from '../ports/aid-store.js';
import type { Stores } from '../ports/work.js';

interface PageInput {
  incidentId: string;
  limit: number;
  after: string | null;
}

/** The agreements of an incident, oldest first. */
export async function listAidAgreements(stores: Stores, _call: UseCaseCall, { incidentId, limit, after }: PageInput): Promise<AidAgreementRecord[]> {
  if (!(await stores.places.incident(incidentId))) throw notFound('incident');
  return stores.aid.agreements(incidentId, limit, after);
}

/** The offers of an incident in both directions, oldest first. */
export async function listAidOffers(stores: Stores, _call: UseCaseCall, { incidentId, limit, after, open }: PageInput & { open: boolean | undefined }): Promise<AidOfferRecord[]> {
  if (!(await stores.places.incident(incidentId))) throw notFound('incident');
  return stores.aid.offers(incidentId, open === undefined ? {} : { open }, limit, after);
}
