import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { carryOut, request } from '../../unit/plan-problem/support/runs.js';

let server: TestServer;
beforeAll(async () => { server = await startTestServer(); });
afterAll(() => server.close());

test('a run is shown from waiting to done, with the revision that came of it', async () => {
  const network = await server.network();
  const incident = await network.incident();
  const requested = await request(server, network, incident, 'first light');
  const read = async () => (await network.get(`/v1/plan-runs/${requested.runId}`).expect(200)).body;
  expect(await read()).toMatchObject({ state: 'queued', startedAt: null, reason: 'first light' });
  server.clock.set(server.clock.nowMs() + 60_000);
  await carryOut(server, network, requested);
  const { body: plan } = await network.get(`/v1/incidents/${incident.id}/plan`).expect(200);
  expect(await read()).toMatchObject({ state: 'done', requestedAt: '2026-05-09T07:00:00.000Z', startedAt: '2026-05-09T07:01:00.000Z', finishedAt: '2026-05-09T07:01:00.000Z', revisionId: plan.revisionId });
});
