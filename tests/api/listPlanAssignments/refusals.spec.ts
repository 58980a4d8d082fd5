import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { planNow } from '../../unit/plan-problem/support/runs.js';

let server: TestServer;
beforeAll(async () => { server = await startTestServer(); });
afterAll(() => server.close());

test('another network, an incident without a plan, and a made-up cursor are refused', async () => {
  const [ours, theirs] = [await server.network(), await server.network()];
  const incident = await ours.incident();
  const path = `/v1/incidents/${incident.id}/plan/assignments`;
  await ours.get(path).expect(404);
  await planNow(server, ours, incident);
  expect((await ours.get(path).expect(200)).body).toEqual({ items: [], nextCursor: null });
  await theirs.get(path).expect(404);
  expect((await ours.get(`${path}?cursor=abc.def`).expect(400)).body.code).toBe('cursor_invalid');
  expect((await ours.get(`${path}?stationId=bath`).expect(400)).body.code).toBe('validation_failed');
});
