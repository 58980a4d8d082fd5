import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, takeInTestHousehold, takeInTestItem, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { type Assignment, assignmentsOf, planNow, withBenches } from '../../unit/plan-problem/support/runs.js';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
const items: string[] = [];
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident(withBenches);
  const household = await takeInTestHousehold(network, incident);
  for (let i = 0; i < 6; i += 1) items.push((await takeInTestItem(network, incident, household, { materialClass: 'textile-garment-3d', sizeClass: 'garment' })).id);
  await planNow(server, network, incident);
});
afterAll(() => server.close());

const keyOf = ({ startsAt, itemId, position }: Assignment) => `${startsAt} ${itemId} ${position}`;

test('pages hold every assignment once, by start, item and position', async () => {
  const all = await assignmentsOf(network, incident);
  const { rows } = await server.admin.query('select count(*)::int as n from plan_assignment where network_id = $1', [network.networkId]);
  expect(all.length).toBe(rows[0].n);
  expect(all.length).toBeGreaterThan(20);
  const keys = all.map(keyOf);
  expect(keys).toEqual([...new Set(keys)].sort());
});

test('one station and one item can be asked for', async () => {
  const all = await assignmentsOf(network, incident);
  const atTest = await assignmentsOf(network, incident, `&stationId=${incident.station('TEST')}`);
  expect(atTest).toEqual(all.filter(({ stationId }) => stationId === incident.station('TEST')));
  expect(atTest.length).toBeGreaterThan(3);
  const ofItem = await assignmentsOf(network, incident, `&itemId=${items[2]}`);
  expect(ofItem.map(({ position }) => position)).toEqual(ofItem.map((_, i) => i));
  expect(ofItem.map(({ itemId }) => itemId)).toEqual(ofItem.map(() => items[2]));
});

test('a new plan between two pages neither repeats nor skips a row', async () => {
  const path = `/v1/incidents/${incident.id}/plan/assignments?limit=5`;
  const before = (await assignmentsOf(network, incident)).map(keyOf);
  const first = (await network.get(path).expect(200)).body;
  server.clock.set(server.clock.nowMs() + 3_600_000);
  await planNow(server, network, incident);
  const second = (await network.get(`${path}&cursor=${encodeURIComponent(first.nextCursor)}`).expect(200)).body;
  expect([...first.items, ...second.items].map(keyOf)).toEqual(before.slice(0, 10));
});
