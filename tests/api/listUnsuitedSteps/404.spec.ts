import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

test("another network's incident has no list here", async () => {
  const [ours, theirs] = [await server.network(), await server.network()];
  const incident = await ours.incident();
  expect((await theirs.get(`/v1/incidents/${incident.id}/unsuited-steps`).expect(404)).body.code).toBe('not_found');
});
