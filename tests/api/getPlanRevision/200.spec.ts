import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { planNow, withBenches } from '../../unit/plan-problem/support/runs.js';
import { newestPlan, publish, testedQuilts } from '../support/plan-wishes.js';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident(withBenches);
  await publish(network, incident, 'by-hand');
  await testedQuilts(network, incident, 2);
  await planNow(server, network, incident);
});
afterAll(() => server.close());

test('a proposal can be read before it is published, with its figures as the plan has them afterwards', async () => {
  const { id } = await newestPlan(network, incident);
  const { body: proposal } = await network.get(`/v1/plan-revisions/${id}`, { 'accept-language': 'es' }).expect(200);
  expect(proposal).toMatchObject({ id, state: 'proposal', inTime: { items: 2 }, from: '2026-05-09T07:00:00.000Z', publishedAt: null });
  expect(proposal.standing).toMatch(/^Consejos para quien coordina/);
  await network.post(`/v1/plan-revisions/${id}/publications`, { personId: incident.person('P1') }).expect(201);
  const { body: plan } = await network.get(`/v1/incidents/${incident.id}/plan`, { 'accept-language': 'es' }).expect(200);
  for (const member of ['inTime', 'inTimeBy', 'notInTime', 'late', 'lookOnly', 'followUp', 'blocked', 'tight', 'from', 'to', 'standing'] as const) expect(plan[member]).toEqual(proposal[member]);
});

test('a plan of another network answers 404, as one that never was', async () => {
  const { id } = await newestPlan(network, incident);
  const stranger = await server.network();
  for (const one of [id, incident.id]) expect((await stranger.get(`/v1/plan-revisions/${one}`).expect(404)).body.detail).toBe('No plan revision with this id is visible to your key.');
});
