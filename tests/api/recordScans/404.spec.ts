import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { scanWorld, sendScans } from '../support/scans.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

test("nobody scans into another network's incident", async () => {
  const [ours, theirs] = [await scanWorld(server), await server.network()];
  const item = await ours.item();
  await theirs.post(`/v1/incidents/${ours.incident.id}/scans`, { scans: [ours.scan(item.tag, ours.a)] }).expect(404);
  expect(await ours.chain(item.id)).toHaveLength(1);
});

test('things, places and people of another network or incident are unknown here, and nothing is told of them', async () => {
  const [ours, theirs] = [await scanWorld(server), await scanWorld(server)];
  const second = await ours.network.incident();
  const item = await ours.item();
  const results = await sendScans(ours.network, ours.incident, [
    ours.scan(item.tag, theirs.a), ours.scan(item.tag, { kind: 'holding', id: second.holding('dirty') }), ours.scan(item.tag, ours.a, { personId: theirs.incident.person('P1') }), ours.scan(item.tag, ours.a, { personId: second.person('P1') }),
  ]);
  for (const result of results) expect(result).toMatchObject({ verdict: 'refused', place: null, problem: { code: 'reference_unknown' } });
  expect(await ours.chain(item.id)).toHaveLength(1);
});
