import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { planNow } from '../../unit/plan-problem/support/runs.js';
import { newestPlan, publish } from '../support/plan-wishes.js';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
  await planNow(server, network, incident);
});
afterAll(() => server.close());

const put = (id: string, personId = incident.person('P1'), by: Pick<TestNetwork, 'post'> = network) => by.post(`/v1/plan-revisions/${id}/publications`, { personId });

test('a plan that came into force by itself is not published again', async () => {
  const { id } = await newestPlan(network, incident);
  expect((await put(id).expect(409)).body).toMatchObject({ code: 'already_exists', publishedBy: null });
});

test('of two proposals only the newer is published, and by a lead', async () => {
  await publish(network, incident, 'by-hand');
  await planNow(server, network, incident);
  const older = await newestPlan(network, incident);
  await planNow(server, network, incident);
  const newer = await newestPlan(network, incident);
  expect((await put(older.id).expect(422)).body).toMatchObject({ code: 'command_refused', newestRevisionId: newer.id, newestNumber: newer.number });
  expect((await put(newer.id, incident.person('P2')).expect(422)).body.errors[0].code).toBe('not_a_lead');
  expect((await put(newer.id, incident.id).expect(422)).body.code).toBe('reference_unknown');
  await put(newer.id).expect(201);
  expect((await put(newer.id).expect(409)).body).toMatchObject({ code: 'already_exists', publishedBy: incident.person('P1') });
});

test('two leads at one moment publish it once', async () => {
  await planNow(server, network, incident);
  const { id } = await newestPlan(network, incident);
  const answers = await Promise.all([put(id), put(id), put(id)]);
  expect(answers.map(({ status }) => status).sort()).toEqual([201, 409, 409]);
});

test('a plan of another network answers 404, and a key without the scope is refused', async () => {
  await planNow(server, network, incident);
  const { id } = await newestPlan(network, incident);
  const stranger = await server.network();
  const theirs = await stranger.incident();
  await put(id, theirs.person('P1'), stranger).expect(404);
  const key = await network.newKey({ scopes: ['station:work', 'item:read'] });
  expect((await put(id, undefined, network.as(key)).expect(403)).body.code).toBe('scope_missing');
});
