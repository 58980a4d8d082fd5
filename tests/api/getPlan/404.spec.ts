import { afterAll, beforeAll, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { planNow } from '../../unit/plan-problem/support/runs.js';

let server: TestServer;
beforeAll(async () => { server = await startTestServer(); });
afterAll(() => server.close());

test('before the first plan, and for another network, there is none', async () => {
  const [ours, theirs] = [await server.network(), await server.network()];
  const incident = await ours.incident();
  await ours.get(`/v1/incidents/${incident.id}/plan`).expect(404);
  await planNow(server, ours, incident);
  await ours.get(`/v1/incidents/${incident.id}/plan`).expect(200);
  await theirs.get(`/v1/incidents/${incident.id}/plan`).expect(404);
});
