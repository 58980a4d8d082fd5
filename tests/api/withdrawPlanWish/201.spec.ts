import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { assignmentsOf, planNow, withBenches } from '../../unit/plan-problem/support/runs.js';
import { waitingRuns } from '../support/plan-requests.js';
import { testedQuilts, wishOf } from '../support/plan-wishes.js';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident(withBenches);
});
afterAll(() => server.close());

const withdraw = (id: string, change: object = {}) => network.post(`/v1/plan-wishes/${id}/withdrawals`, { personId: incident.person('P1'), reason: 'The owner has been and gone.', ...change });
const wish = async (itemId: string, kind: string, change: object = {}) => (await network.post(`/v1/incidents/${incident.id}/plan-wishes`, wishOf(incident, itemId, kind, change)).expect(201)).body.id as string;

test('the next plan heeds it no more, and it stays on record', async () => {
  const [item] = await testedQuilts(network, incident, 1);
  const id = await wish(item!, 'bar-way', { disposition: 'treat' });
  await planNow(server, network, incident);
  expect((await assignmentsOf(network, incident))[0]!.disposition).toBe('hold-frozen');
  const { body } = await withdraw(id).expect(201);
  expect(body).toMatchObject({ id, state: 'withdrawn', reason: 'The owner asked for it.', withdrawn: { by: { name: 'Lead one' }, reason: 'The owner has been and gone.' } });
  expect(await waitingRuns(server, incident.id)).toMatchObject([{ reason: expect.stringMatching(/^a wish about \S+ was withdrawn$/) }]);
  await network.put('/v1/calibration/planning/holdMin', { value: 0, reason: 'Nobody has got ready yet.', personId: incident.person('P1') }, { 'if-match': (await network.get('/v1/calibration').expect(200)).headers['etag'] as string }).expect(200);
  await planNow(server, network, incident);
  expect((await network.get(`/v1/incidents/${incident.id}/plan`).expect(200)).body.number).toBe(2);
  const { rows } = await server.admin.query('select options from (select jsonb_path_query_array(result, \'$.options[*].disposition\') as options from triage_result where item_id = $1 order by created_at desc, id desc limit 1) t', [item]);
  expect(rows[0].options[0]).toBe('treat');
  const input = await server.unitOfWork.read({ networkId: network.networkId, incidentLimit: null, principalId: '00000000-0000-0000-0000-000000000000', requestId: 'test', traceparent: '' }, (stores) => stores.plans.loadInput(incident.id));
  expect(input!.wishes).toEqual([]);
});

test('it is withdrawn once, by a lead, and another may be wished then', async () => {
  const [item] = await testedQuilts(network, incident, 1);
  const id = await wish(item!, 'first');
  expect((await withdraw(id, { personId: incident.person('P2') }).expect(422)).body.errors[0].code).toBe('not_a_lead');
  await withdraw(id).expect(201);
  expect((await withdraw(id).expect(409)).body).toMatchObject({ code: 'already_exists', withdrawnAt: '2026-05-09T07:00:00.000Z' });
  await wish(item!, 'first');
});

test('a wish of another network answers 404, as one that never was', async () => {
  const [item] = await testedQuilts(network, incident, 1);
  const id = await wish(item!, 'first');
  const stranger = await server.network();
  const theirs = await stranger.incident();
  for (const path of [id, theirs.id]) await stranger.post(`/v1/plan-wishes/${path}/withdrawals`, { personId: theirs.person('P1'), reason: 'Not ours.' }).expect(404);
});

test('nothing of it can be deleted or altered, and how it ended as little', async () => {
  const [item] = await testedQuilts(network, incident, 1);
  const id = await wish(item!, 'first');
  const { rows } = await server.admin.query(`select has_table_privilege('wl_app', 'plan_wish', 'delete') as gone`);
  expect(rows).toEqual([{ gone: false }]);
  const altered = (what: string) => server.admin.query(`update plan_wish set ${what} where id = $1`, [id]);
  await expect(altered("reason = 'something else'")).rejects.toThrow('only the end of a wish is written later');
  await withdraw(id).expect(201);
  await expect(altered("withdrawn_reason = 'something else'")).rejects.toThrow('only the end of a wish is written later');
});
