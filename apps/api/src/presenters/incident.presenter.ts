import type { IncidentRecord } from '#application';
import type { IncidentBody } from '#contracts';
import { iso } from './time.js';

export function presentIncident(incident: IncidentRecord): IncidentBody {
  return {
    id: incident.id,
    name: incident.name,
    place: incident.place,
    floodAt: iso(incident.floodAtMs),
    defaultWater: incident.defaultWater,
    outdoorAirTempC: incident.outdoorAirTempC,
    outdoorRelativeHumidityPct: incident.outdoorRelativeHumidityPct,
    state: incident.state,
    planPublishing: incident.planPublishing,
    version: incident.version,
    createdAt: iso(incident.createdAtMs),
    updatedAt: iso(incident.updatedAtMs),
  };
}
