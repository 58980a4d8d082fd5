import type { PreparedIncident, TestServer } from '#testing';
import { carryOut, request } from '../../../unit/plan-problem/support/runs.js';
import { ofIncident, type Table } from '../row.js';

/** A wish that stands only once for its item. */
export const wishOf = (incident: PreparedIncident, itemId: string) => ({ itemId, kind: 'first', reason: incident.text('It is needed on Sunday'), personId: incident.places.person('P1') });

const servers = new WeakMap<PreparedIncident, TestServer>();

/** From now on its plans are proposals. */
export async function publishByHand(incident: PreparedIncident, server: TestServer): Promise<void> {
  servers.set(incident, server);
  // Past the API, so that the incident keeps the version that others reckon with.
  await server.admin.query("update incident set plan_publishing = 'by-hand' where id = $1", [incident.id]);
}

/** A plan that nobody has published; only the newest can be. */
async function proposalOf(incident: PreparedIncident): Promise<string> {
  const server = servers.get(incident);
  if (server === undefined) throw new Error('its plans are not published by hand');
  const run = await request(server, incident.network, incident.places, incident.text('Another plan'));
  await carryOut(server, incident.network, run, undefined, { iterations: 0 });
  return (await incident.network.get(`/v1/plan-runs/${run.runId}`).expect(200)).body.revisionId as string;
}

const items = { values: (incident: PreparedIncident) => [incident.the('item')] };
const people = { values: (incident: PreparedIncident) => [incident.places.person('P1')] };
const stations = { values: (incident: PreparedIncident) => [incident.places.station('TEST')] };
const revisions = { values: (incident: PreparedIncident) => [incident.the('planRevision')] };

const newWish = async (incident: PreparedIncident) => (await incident.create(`/v1/incidents/${incident.id}/plan-wishes`, wishOf(incident, (await incident.newItem()).id))).id;

const dehumidifierOf = (incident: PreparedIncident): string => incident.places.dehumidifier('D1');
/** One of each kind that names something else. */
export const changesOf = (incident: PreparedIncident): object[] => [
  { kind: 'freezer', siteId: incident.places.site(), volumeL: 500 }, { kind: 'station-units', stationId: incident.places.station('TEST'), units: 1 }, { kind: 'drying-area', dryingRoomId: incident.places.room('ROOM'), areaM2: 10 },
  { kind: 'person-leaves', personId: incident.places.person('P1'), at: '2026-05-09T09:00:00Z' }, { kind: 'dehumidifier-fails', dehumidifierId: dehumidifierOf(incident) }, { kind: 'freezer-fails', freezerId: incident.places.freezer('F1') },
];

/** One whose time is known, which a what-if can ask about. */
async function knownSpecialist(incident: PreparedIncident): Promise<string> {
  const { id, version, piecesAtOnce } = (await incident.network.get(`/v1/incidents/${incident.id}/layout`).expect(200)).body.specialists[0] as { id: string; version: number; piecesAtOnce: number | null };
  if (piecesAtOnce === null) await incident.network.patch(`/v1/incidents/${incident.id}/specialists/${id}`, { piecesAtOnce: 1, hoursPerPiece: 6 }, { 'if-match': `"${version}"` }).expect(200);
  return id;
}

/** At most two of an incident wait at a time: those of the requests before are ended. */
async function endWhatIfs(incident: PreparedIncident): Promise<void> {
  await servers.get(incident)?.admin.query("update plan_what_if set state = 'failed', failure = 'ended for the next' where incident_id = $1 and state in ('queued', 'running')", [incident.id]);
}

export const planRows: Table = {
  requestPlanRun: ofIncident({ body: (incident) => ({ reason: incident.text('Two testers went home') }) }),
  getPlanRun: { request: (incident) => ({ params: { planRunId: incident.the('planRun') } }) },
  requestPlanWhatIf: {
    request: async (incident) => {
      await endWhatIfs(incident);
      return { params: { incidentId: incident.id }, body: { itemId: incident.the('item'), changes: [...changesOf(incident), { kind: 'specialist-units', specialistId: await knownSpecialist(incident), units: 1 }] } };
    },
    references: {
      '#/itemId': items,
      '#/changes/0/siteId': { values: (incident) => [incident.places.site()] },
      '#/changes/1/stationId': stations,
      '#/changes/2/dryingRoomId': { values: (incident) => [incident.places.room('ROOM')] },
      '#/changes/3/personId': people,
      '#/changes/4/dehumidifierId': { values: (incident) => [dehumidifierOf(incident)] },
      '#/changes/5/freezerId': { values: (incident) => [incident.places.freezer('F1')] },
      '#/changes/6/specialistId': { values: (incident) => [incident.places.specialist('SP1')] },
    },
  },
  getPlanWhatIf: { request: (incident) => ({ params: { planWhatIfId: incident.the('planWhatIf') } }) },
  getPlanExplanation: { request: (incident) => ({ params: { itemId: incident.the('item') }, query: { before: incident.the('worked') } }), references: { '?before': items } },
  getPlan: ofIncident(),
  listPlanAssignments: ofIncident({
    references: {
      '?stationId': { values: (incident) => [incident.places.station('TEST')], answers: ['nothing found'] },
      '?itemId': { values: (incident) => [incident.the('item')], answers: ['nothing found'] },
    },
  }),
  listUnplannedItems: ofIncident(),
  listPlanRevisions: ofIncident(),
  getPlanRevision: { request: (incident) => ({ params: { planRevisionId: incident.the('planRevision') } }) },
  listPlanChanges: { request: (incident) => ({ params: { planRevisionId: incident.the('planRevision') } }), references: { '?since': revisions } },
  publishPlanRevision: { request: async (incident) => ({ params: { planRevisionId: await proposalOf(incident) }, body: { personId: incident.places.person('P1') } }), references: { '#/personId': people } },
  recordPlanWish: {
    request: async (incident) => ({ params: { incidentId: incident.id }, body: { itemId: (await incident.newItem()).id, kind: 'bar-station', stationId: incident.places.station('TEST'), reason: incident.text('Too small for it'), personId: incident.places.person('P1') } }),
    references: { '#/itemId': items, '#/stationId': stations, '#/personId': people },
  },
  recordStationWish: {
    request: async (incident) => ({ params: { stationId: incident.places.station('TEST') }, body: wishOf(incident, (await incident.newItem()).id) }),
    references: { '#/itemId': items, '#/personId': people },
  },
  listPlanWishes: ofIncident({ references: { '?itemId': { values: (incident) => [incident.the('item')], answers: ['nothing found'] } } }),
  withdrawPlanWish: { request: async (incident) => ({ params: { planWishId: await newWish(incident) }, body: { personId: incident.places.person('P1'), reason: incident.text('Not wanted any more') } }), references: { '#/personId': people } },
  getWorkList: { request: (incident) => ({ params: { stationId: incident.places.station('TEST') } }) },
  getDryingList: { request: (incident) => ({ params: { siteId: incident.places.site() } }) },
  getCarryList: ofIncident(),
  getReferralList: ofIncident({ references: { '?specialistId': { values: (incident) => [incident.places.specialist('SP1')], answers: ['nothing found'] } } }),
};
