import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { reserveTestTags, startTestServer, takeInTestHousehold, takeInTestItem, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

test('blocks of all kinds, newest first, with what is used and free; a replaced tag stays used', async () => {
  const network = await server.network();
  const incident = await network.incident();
  const household = await takeInTestHousehold(network, incident);
  const item = await takeInTestItem(network, incident, household);
  const mine = await reserveTestTags(network, incident, 3, 'item');
  for (const kind of ['container', 'place', 'person'] as const) await reserveTestTags(network, incident, 2, kind);
  await network.post(`/v1/tags/${item.tag}/replacements`, { newTag: mine[0], reason: 'lost' }).expect(201);
  const first = await network.get(`/v1/incidents/${incident.id}/tag-blocks?limit=3`).expect(200);
  expect(first.body.items.map(({ kind, count, used, free }: Record<string, unknown>) => [kind, count, used, free])).toEqual([['person', 2, 0, 2], ['place', 2, 0, 2], ['container', 2, 0, 2]]);
  const rest = await network.get(`/v1/incidents/${incident.id}/tag-blocks?limit=3&cursor=${encodeURIComponent(first.body.nextCursor)}`).expect(200);
  expect(rest.body.items[0]).toMatchObject({ kind: 'item', count: 3, used: 1, free: 2 });
  expect(rest.body.items.at(-1)).toMatchObject({ used: 1 });
  expect(rest.body.nextCursor).toBeNull();
});
