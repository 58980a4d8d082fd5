import type { PreparedIncident } from '#testing';
import { ofIncident, type Row, type Table } from '../row.js';

/** What the plan uses of something, asked in the words that each kind of resource takes. */
const load: Row = {
  request: (incident) => ({ params: { incidentId: incident.id }, query: { resource: 'station', what: 'rinse', siteId: incident.places.site() } }),
  references: { '?siteId': { values: (incident) => [incident.places.site()] } },
};
const station = { request: (incident: PreparedIncident) => ({ params: { stationId: incident.places.station('TEST') }, query: { hours: '24' } }) };

/** Charts of the plan in force, and what was planned against what was done. */
export const planChartRows: Table = { getStationPlan: station, plotStationPlan: station, getPlanLoad: load, plotPlanLoad: load, getPlanProgress: ofIncident() };
