import type { UseCaseCall } from '../call.js';
import type { ConfigStores } from '../ports/config-work.js';
import type { IncidentRecord, LayoutRecords } from '../ports/layout-store.js';
import { getIncident } from './incidents.js';

export interface LayoutView {
  incident: IncidentRecord;
  records: LayoutRecords;
}

/** The whole layout of an incident, all as of one moment. */
export async function getLayout(stores: ConfigStores, call: UseCaseCall, input: { incidentId: string }): Promise<LayoutView> {
  const incident = await getIncident(stores, call, input);
  return { incident, records: await stores.layout.layout(input.incidentId) };
}
