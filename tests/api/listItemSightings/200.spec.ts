import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { scanWorld } from '../support/scans.js';

let server: TestServer;
let world: Awaited<ReturnType<typeof scanWorld>>;
beforeAll(async () => {
  server = await startTestServer();
  world = await scanWorld(server);
});
afterAll(() => server.close());

const read = async (itemId: string, query = '') => (await world.network.get(`/v1/items/${itemId}/sightings${query}`).expect(200)).body;

test('what moved nothing is there in the order in which it came, page by page; what moved it is not', async () => {
  const item = await world.item();
  const personId = world.incident.person('P2');
  await world.send(world.scan(item.tag, world.a, { baseSeq: 1 }));
  expect(await read(item.id)).toEqual({ items: [], nextCursor: null });

  server.clock.set(server.clock.nowMs() + 600_000);
  const again = new Date(server.clock.nowMs()).toISOString();
  await world.send(world.scan(item.tag, world.a, { baseSeq: 2, personId }));
  server.clock.set(server.clock.nowMs() + 600_000);
  const [claim] = await world.send(world.scan(item.tag, world.b, { baseSeq: 1 }));
  expect(claim?.verdict).toBe('disputed');

  const first = await read(item.id, '?limit=1');
  const second = await read(item.id, `?limit=1&cursor=${encodeURIComponent(first.nextCursor)}`);
  expect(first.items).toEqual([{ id: expect.any(String), place: world.a, seenAt: again, recordedAt: again, personId, actorId: expect.any(String), verdict: 'seen-again', atSeq: 2, note: '' }]);
  expect(second).toMatchObject({ items: [{ place: world.b, verdict: 'claims-elsewhere', atSeq: 2 }], nextCursor: null });
});

test('of an item that is not there or of another network the answer is the same 404', async () => {
  const theirs = await server.network();
  const item = await world.item();
  const [known, never] = [await theirs.get(`/v1/items/${item.id}/sightings`), await theirs.get('/v1/items/01970c1e-5a41-7100-8a11-1f2e3d4c5c02/sightings')];
  expect([known.status, known.body.detail]).toEqual([404, never.body.detail]);
});
