import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { reserveTestTags, startTestServer, type TestServer } from '#testing';
import { scanWorld } from '../support/scans.js';

let server: TestServer;
let world: Awaited<ReturnType<typeof scanWorld>>;
beforeAll(async () => {
  server = await startTestServer();
  world = await scanWorld(server);
});
afterAll(() => server.close());

test('a container that is scanned where it is on record was seen there', async () => {
  const [boxTag] = await reserveTestTags(world.network, world.incident, 1, 'container');
  const box = (await world.network.post(`/v1/incidents/${world.incident.id}/containers`, { siteId: world.incident.site(), tag: boxTag, kind: 'box', description: 'Box' }).expect(201)).body;
  const scan = (place: { kind: string; id: string }) => world.send({ ...world.scan('', place), itemTag: null, containerTag: boxTag });
  await scan(world.b);
  expect((await world.network.get(`/v1/containers/${box.id}/sightings`).expect(200)).body).toEqual({ items: [], nextCursor: null });
  server.clock.set(server.clock.nowMs() + 60_000);
  await scan(world.b);
  expect((await world.network.get(`/v1/containers/${box.id}/sightings`).expect(200)).body).toMatchObject({ items: [{ place: world.b, verdict: 'seen-again', seenAt: new Date(server.clock.nowMs()).toISOString() }], nextCursor: null });
});
