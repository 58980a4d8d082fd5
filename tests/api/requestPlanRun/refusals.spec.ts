import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { newId } from '#platform';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => { server = await startTestServer(); });
afterAll(() => server.close());

test('an incident of another network, or none, answers 404 and rings for nothing', async () => {
  const [ours, theirs] = [await server.network(), await server.network()];
  const incident = await ours.incident();
  await theirs.post(`/v1/incidents/${incident.id}/plan-runs`, {}).expect(404);
  await ours.post(`/v1/incidents/${newId()}/plan-runs`, {}).expect(404);
  expect((await server.admin.query('select 1 from plan_run')).rowCount).toBe(0);
});

test('a closed incident answers 409', async () => {
  const network = await server.network();
  const incident = await network.incident();
  await network.patch(`/v1/incidents/${incident.id}`, { state: 'closed' }, { 'if-match': '"1"' }).expect(200);
  expect((await network.post(`/v1/incidents/${incident.id}/plan-runs`, {}).expect(409)).body.code).toBe('incident_closed');
});

test('a key without plan:write answers 403, a reason that is too long 400', async () => {
  const network = await server.network();
  const incident = await network.incident();
  const reader = network.as(await network.newKey({ scopes: ['item:read'] }));
  expect((await reader.post(`/v1/incidents/${incident.id}/plan-runs`, {}).expect(403)).body.code).toBe('scope_missing');
  const answer = await network.post(`/v1/incidents/${incident.id}/plan-runs`, { reason: 'x'.repeat(201) }).expect(400);
  expect(answer.body.errors).toMatchObject([{ pointer: '#/reason' }]);
});
