import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { ConfigStores } from '../ports/config-work.js';
import type { IncidentRecord } from '../ports/layout-store.js';

/** A page of the incidents that the key sees, newest first. */
export function listIncidents(stores: ConfigStores, _call: UseCaseCall, input: { limit: number; before: string | null }): Promise<IncidentRecord[]> {
  return stores.layout.incidentPage(input.limit, input.before);
}

/** One incident; 404 when the key does not see it. */
export async function getIncident(stores: ConfigStores, _call: UseCaseCall, input: { incidentId: string }): Promise<IncidentRecord> {
  const incident = await stores.layout.incident(input.incidentId);
  if (!incident) throw notFound('incident');
  return incident;
}
