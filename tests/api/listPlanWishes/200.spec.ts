import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { testedQuilts, wishOf } from '../support/plan-wishes.js';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
let items: string[];
const ids: string[] = [];
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
  items = await testedQuilts(network, incident, 3);
  for (const item of items) ids.push((await network.post(`/v1/incidents/${incident.id}/plan-wishes`, wishOf(incident, item, 'first')).expect(201)).body.id);
  await network.post(`/v1/plan-wishes/${ids[1]}/withdrawals`, { personId: incident.person('P1'), reason: 'Not needed any more.' }).expect(201);
});
afterAll(() => server.close());

const list = async (query = '') => (await network.get(`/v1/incidents/${incident.id}/plan-wishes${query}`).expect(200)).body;
const idsOf = async (query?: string) => (await list(query)).items.map(({ id }: { id: string }) => id);

test('those that stand, newest first; those that ended, and all, where they are asked for', async () => {
  expect(await idsOf()).toEqual([ids[2], ids[0]]);
  expect(await idsOf('?state=ended')).toEqual([ids[1]]);
  expect(await idsOf('?state=all')).toEqual([...ids].reverse());
});

test('one item can be asked for, and its wish says who withdrew it, when and why', async () => {
  expect((await list(`?state=all&itemId=${items[1]}`)).items).toMatchObject([{ itemId: items[1], state: 'withdrawn', withdrawn: { at: '2026-05-09T07:00:00.000Z', by: { id: incident.person('P1'), name: 'Lead one' }, reason: 'Not needed any more.' } }]);
});

test('pages hold each wish once', async () => {
  const first = await list('?state=all&limit=2');
  const second = await list(`?state=all&limit=2&cursor=${encodeURIComponent(first.nextCursor)}`);
  expect([...first.items, ...second.items].map(({ id }: { id: string }) => id)).toEqual([...ids].reverse());
  expect(second.nextCursor).toBeNull();
});

test('an incident of another network answers 404', async () => {
  const stranger = await server.network();
  await stranger.get(`/v1/incidents/${incident.id}/plan-wishes`).expect(404);
});
