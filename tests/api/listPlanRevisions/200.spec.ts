import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { planNow, withBenches } from '../../unit/plan-problem/support/runs.js';
import { testedQuilts } from '../support/plan-wishes.js';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident(withBenches);
  for (let i = 0; i < 3; i += 1) {
    await testedQuilts(network, incident, 1);
    await planNow(server, network, incident);
  }
});
afterAll(() => server.close());

const list = async (query = '') => (await network.get(`/v1/incidents/${incident.id}/plan-revisions${query}`).expect(200)).body;

test('every plan is there, newest first, with what it had in time and whether work follows it', async () => {
  const { items } = await list();
  expect(items).toMatchObject([
    { number: 3, state: 'in-force', plannedItems: 3, inTime: { items: 3 }, publishedAt: '2026-05-09T07:00:00.000Z', publishedBy: null, detailKept: true, seed: 1 },
    { number: 2, state: 'past', plannedItems: 2, inTime: { items: 2 } },
    { number: 1, state: 'past', plannedItems: 1, inTime: { items: 1 } },
  ]);
});

test('pages go on where the one before ended', async () => {
  const first = await list('?limit=2');
  const second = await list(`?limit=2&cursor=${encodeURIComponent(first.nextCursor)}`);
  expect([...first.items, ...second.items].map(({ number }: { number: number }) => number)).toEqual([3, 2, 1]);
});

test('an incident of another network answers 404', async () => {
  await (await server.network()).get(`/v1/incidents/${incident.id}/plan-revisions`).expect(404);
});
