import { ofIncident, type Table } from '../row.js';

export const planRows: Table = {
  requestPlanRun: ofIncident({ body: (incident) => ({ reason: incident.text('Two testers went home') }) }),
  getPlanRun: { request: (incident) => ({ params: { planRunId: incident.the('planRun') } }) },
  getPlan: ofIncident(),
  listPlanAssignments: ofIncident({
    references: {
      '?stationId': { values: (incident) => [incident.places.station('TEST')], answers: ['nothing found'] },
      '?itemId': { values: (incident) => [incident.the('item')], answers: ['nothing found'] },
    },
  }),
  listUnplannedItems: ofIncident(),
  getWorkList: { request: (incident) => ({ params: { stationId: incident.places.station('TEST') } }) },
  getDryingList: { request: (incident) => ({ params: { siteId: incident.places.site() } }) },
};
