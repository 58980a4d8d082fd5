import { Problem, type RegisterIncident } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { ConfigStores } from '../ports/config-work.js';
import type { IncidentRecord } from '../ports/layout-store.js';
import { layoutOf } from './register-incident.layout.js';

/** Registers an incident with its whole layout from one document whose references were checked with its form. */
export async function registerIncident(stores: ConfigStores, call: UseCaseCall, document: RegisterIncident): Promise<IncidentRecord> {
  if (call.context.incidentLimit !== null) throw new Problem('scope_missing', 'Your key is limited to one incident. Registering another one needs a key of the whole network.');
  const incident = incidentOf(call, document);
  await stores.layout.insertIncident(incident);
  await stores.layout.insertLayout(layoutOf(document, incident.id, call.env.newId));
  return incident;
}

function incidentOf(call: UseCaseCall, document: RegisterIncident): IncidentRecord {
  return {
    id: call.env.newId(),
    name: document.name,
    place: document.place,
    floodAtMs: Date.parse(document.floodAt),
    defaultWater: document.defaultWater,
    outdoorAirTempC: document.outdoorAirTempC,
    outdoorRelativeHumidityPct: document.outdoorRelativeHumidityPct,
    outdoorAirAtMs: document.outdoorAirTempC === null ? null : call.env.nowMs,
    state: 'open',
    planPublishing: 'automatic',
    version: 1,
    createdAtMs: call.env.nowMs,
    updatedAtMs: call.env.nowMs,
  };
}
