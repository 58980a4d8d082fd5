import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { startTestServer, type TestServer } from '#testing';
import { request } from '../../unit/plan-problem/support/runs.js';

let server: TestServer;
beforeAll(async () => { server = await startTestServer(); });
afterAll(() => server.close());

test("another network's run, another incident's for a limited key, and one that never was answer the same 404", async () => {
  const [ours, theirs] = [await server.network(), await server.network()];
  const [incident, other] = [await ours.incident(), await ours.incident()];
  const { runId } = await request(server, ours, incident);
  const limited = ours.as(await ours.newKey({ incidentId: other.id }));
  const answers = [await theirs.get(`/v1/plan-runs/${runId}`), await limited.get(`/v1/plan-runs/${runId}`), await ours.get(`/v1/plan-runs/${newId()}`)];
  expect(answers.map(({ status }) => status)).toEqual([404, 404, 404]);
  expect(new Set(answers.map(({ body }) => body.detail)).size).toBe(1);
});
