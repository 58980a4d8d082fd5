import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

test("another network's run is not there", async () => {
  const [ours, theirs] = [await server.network(), await server.network()];
  const incident = await ours.incident();
  const run = await ours.post(`/v1/incidents/${incident.id}/retention-runs`, { personId: incident.person('P1'), policyRevision: 0 }).expect(201);
  const path = `/v1/retention-runs/${run.body.id}`;
  await ours.get(path).expect(200);
  expect((await theirs.get(path).expect(404)).body.code).toBe('not_found');
});
