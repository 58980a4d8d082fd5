import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { startTestServer, type TestServer } from '#testing';
import { planNow } from '../../unit/plan-problem/support/runs.js';

let server: TestServer;
beforeAll(async () => { server = await startTestServer(); });
afterAll(() => server.close());

test("another network's incident and one that never was answer the same 404; without a plan 404 says so", async () => {
  const [ours, theirs] = [await server.network(), await server.network()];
  const incident = await ours.incident();
  const path = `/v1/incidents/${incident.id}/plan-progress`;
  expect((await ours.get(path).expect(404)).body.detail).toMatch(/plan/);
  await planNow(server, ours, incident);
  await ours.get(path).expect(200);
  const [strange, none] = [await theirs.get(path).expect(404), await ours.get(`/v1/incidents/${newId()}/plan-progress`).expect(404)];
  expect(strange.body.detail).toBe(none.body.detail);
  const other = ours.as(await ours.newKey({ scopes: ['item:read'], incidentId: (await ours.incident()).id }));
  expect((await other.get(path).expect(404)).body.detail).toBe(none.body.detail);
});

test.each(['toleranceMinutes=-1', 'toleranceMinutes=241', 'toleranceMinutes=x', 'since=2026-05-09T00:00:00Z'])('a question that cannot be answered is refused: %s', async (query) => {
  const ours = await server.network();
  const incident = await ours.incident();
  expect((await ours.get(`/v1/incidents/${incident.id}/plan-progress?${query}`).expect(400)).body).toMatchObject({ code: 'validation_failed' });
});
