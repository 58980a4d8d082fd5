import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { assignmentsOf, planNow, withBenches } from '../../unit/plan-problem/support/runs.js';
import { newestPlan, publish, testedQuilts } from '../support/plan-wishes.js';
import { waitingRuns } from '../support/plan-requests.js';

let server: TestServer;
let network: TestNetwork;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
});
afterAll(() => server.close());

const read = async (path: string) => (await network.get(path).expect(200)).body;
const worked = async (incident: IncidentOnTest) => (await read(`/v1/stations/${incident.station('RINSE')}/work-list`)) as { revision: { number: number }; next: { itemId: string }[] };
const planOf = (incident: IncidentOnTest) => read(`/v1/incidents/${incident.id}/plan`);

test('by hand, work lists and the plan stay with what is published until a lead publishes the proposal', async () => {
  const incident = await network.incident(withBenches);
  const [first] = await testedQuilts(network, incident, 1);
  await planNow(server, network, incident);
  await publish(network, incident, 'by-hand');
  const [second] = await testedQuilts(network, incident, 1);
  await planNow(server, network, incident);
  const proposal = await newestPlan(network, incident);
  expect(proposal).toMatchObject({ number: 2, state: 'proposal' });
  expect(await worked(incident)).toMatchObject({ revision: { number: 1 }, next: [{ itemId: first }] });
  expect((await worked(incident)).next).toHaveLength(1);
  expect(await planOf(incident)).toMatchObject({ number: 1, plannedItems: 1, proposal: { revisionId: proposal.id, number: 2 } });
  expect(new Set((await assignmentsOf(network, incident)).map(({ itemId }) => itemId))).toEqual(new Set([first]));
  expect(new Set((await assignmentsOf(network, incident, '&revision=2')).map(({ itemId }) => itemId))).toEqual(new Set([first, second]));
  expect((await read(`/v1/incidents/${incident.id}/situation-report`)).plan.number).toBe(1);
  expect((await read(`/v1/sites/${incident.site()}/drying-list`)).revision.number).toBe(1);

  server.clock.set(server.clock.nowMs() + 60_000);
  const { body, headers } = await network.post(`/v1/plan-revisions/${proposal.id}/publications`, { personId: incident.person('P1') }).expect(201);
  expect(body).toMatchObject({ id: proposal.id, number: 2, state: 'in-force', publishedAt: '2026-05-09T07:01:00.000Z', publishedBy: { id: incident.person('P1'), name: 'Lead one' } });
  expect(headers['location']).toBe(`/v1/plan-revisions/${proposal.id}`);
  expect(new Set((await worked(incident)).next.map(({ itemId }) => itemId))).toEqual(new Set([first, second]));
  expect(await planOf(incident)).toMatchObject({ number: 2, plannedItems: 2, proposal: null });
});

test('the plan in force keeps its assignments, however many proposals come after it', async () => {
  const incident = await network.incident(withBenches);
  await testedQuilts(network, incident, 1);
  await planNow(server, network, incident);
  await publish(network, incident, 'by-hand');
  for (let i = 0; i < 7; i += 1) await planNow(server, network, incident);
  expect(await worked(incident)).toMatchObject({ revision: { number: 1 }, next: [{}] });
  const { items } = await read(`/v1/incidents/${incident.id}/plan-revisions`);
  expect(items.map(({ number, state, detailKept }: { number: number; state: string; detailKept: boolean }) => [number, state, detailKept])).toEqual([
    [8, 'proposal', true], [7, 'past', true], [6, 'past', true], [5, 'past', true], [4, 'past', true], [3, 'past', false], [2, 'past', false], [1, 'in-force', true],
  ]);
  const { rows } = await server.admin.query('select distinct v.number from plan_assignment a join plan_revision v on v.network_id = a.network_id and v.id = a.revision_id where a.incident_id = $1 order by 1', [incident.id]);
  expect(rows.map(({ number }) => number)).toEqual([1, 4, 5, 6, 7, 8]);
});

test('without any published plan there is none to read, and the answer names the proposal', async () => {
  const incident = await network.incident(withBenches);
  await publish(network, incident, 'by-hand');
  await planNow(server, network, incident);
  const proposal = await newestPlan(network, incident);
  const { body } = await network.get(`/v1/incidents/${incident.id}/plan`).expect(404);
  expect(body).toMatchObject({ code: 'not_found', proposalId: proposal.id });
  expect(await worked(incident)).toMatchObject({ revision: null, next: [] });
});

test('publishing by itself again asks for a plan, which comes into force by itself', async () => {
  const incident = await network.incident(withBenches);
  await publish(network, incident, 'by-hand');
  expect(await waitingRuns(server, incident.id)).toEqual([]);
  await publish(network, incident, 'automatic');
  expect(await waitingRuns(server, incident.id)).toMatchObject([{ reason: 'plans come into force by themselves again' }]);
  await planNow(server, network, incident);
  expect(await newestPlan(network, incident)).toMatchObject({ state: 'in-force' });
});
