import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';

let server: TestServer;
beforeAll(async () => { server = await startTestServer(); });
afterAll(() => server.close());

test('a run waits, with where to read it, and its bell is in the outbox', async () => {
  const network = await server.network();
  const incident = await network.incident();
  const answer = await network.post(`/v1/incidents/${incident.id}/plan-runs`, { reason: 'Two testers went home.' }).expect(202);
  expect(answer.headers['location']).toBe(`/v1/plan-runs/${answer.body.id}`);
  expect(answer.body).toEqual({ id: answer.body.id, incidentId: incident.id, state: 'queued', reason: 'Two testers went home.', requestedAt: '2026-05-09T07:00:00.000Z', startedAt: null, finishedAt: null, revisionId: null, failure: null, rounds: null });
  const { rows } = await server.admin.query('select kind, subject_id, incident_id from outbox where network_id = $1', [network.networkId]);
  expect(rows).toEqual([{ kind: 'plan.requested', subject_id: answer.body.id, incident_id: incident.id }]);
});

test('while one waits, it is answered instead of a second', async () => {
  const network = await server.network();
  const [incident, other] = [await network.incident(), await network.incident()];
  const first = await network.post(`/v1/incidents/${incident.id}/plan-runs`, {}).expect(202);
  const second = await network.post(`/v1/incidents/${incident.id}/plan-runs`, { reason: 'again' }).expect(202);
  expect(second.body).toEqual(first.body);
  const elsewhere = await network.post(`/v1/incidents/${other.id}/plan-runs`, {}).expect(202);
  expect(elsewhere.body.id).not.toBe(first.body.id);
  const { rows } = await server.admin.query('select count(*)::int as n from outbox where network_id = $1', [network.networkId]);
  expect(rows).toEqual([{ n: 2 }]);
});

test('ten requests at the same moment make one run', async () => {
  const network = await server.network();
  const incident = await network.incident();
  const answers = await Promise.all(Array.from({ length: 10 }, () => network.post(`/v1/incidents/${incident.id}/plan-runs`, {})));
  expect(new Set(answers.map(({ status, body }) => `${status} ${body.id}`)).size).toBe(1);
  const { rows } = await server.admin.query('select count(*)::int as n from plan_run where network_id = $1', [network.networkId]);
  expect(rows).toEqual([{ n: 1 }]);
});
