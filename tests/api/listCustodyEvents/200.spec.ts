import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { type IncidentOnTest, reserveTestTags, startTestServer, takeInTestHousehold, takeInTestItem, type TestNetwork, type TestServer } from '#testing';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
  network = await server.network();
  incident = await network.incident();
});
afterAll(() => server.close());

test('the chain of an item is answered gapless, and each event links to the one before', async () => {
  const household = await takeInTestHousehold(network, incident);
  await reserveTestTags(network, incident, 1);
  const item = await takeInTestItem(network, incident, household);
  const clean = { kind: 'holding', id: incident.holding('clean') };
  await network.post(`/v1/items/${item.id}/custody-events`, { kind: 'moved', from: item.keeper, to: clean }).expect(201);
  await network.post(`/v1/items/${item.id}/custody-events`, { kind: 'moved', from: clean, to: item.keeper }).expect(201);
  const first = await network.get(`/v1/items/${item.id}/custody-events?limit=2`).expect(200);
  const rest = await network.get(`/v1/items/${item.id}/custody-events?limit=2&cursor=${first.body.nextCursor}`).expect(200);
  const chain = [...first.body.items, ...rest.body.items] as { seq: number; prevHash: string; hash: string }[];
  expect(chain.map((event) => event.seq)).toEqual([1, 2, 3]);
  for (const [index, event] of chain.entries()) expect(event.prevHash).toBe(index === 0 ? '0'.repeat(64) : chain[index - 1]?.hash);
});
