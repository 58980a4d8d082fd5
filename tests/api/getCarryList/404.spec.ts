import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

test('another network’s incident answers 404 as one that never was', async () => {
  const [network, other] = [await server.network(), await server.network()];
  const incident = await other.incident();
  const theirs = await network.get(`/v1/incidents/${incident.id}/carry-list`).expect(404);
  const none = await network.get('/v1/incidents/0198b7a0-0000-7000-8000-00000000dead/carry-list').expect(404);
  expect({ ...theirs.body, instance: '', traceId: '' }).toEqual({ ...none.body, instance: '', traceId: '' });
});
