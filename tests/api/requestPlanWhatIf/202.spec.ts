import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { startTestServer, type TestServer } from '#testing';
import { ask, livePlan, reckon, shortOfFreezer } from '../support/what-ifs.js';

let server: TestServer;
beforeAll(async () => { server = await startTestServer(); });
afterAll(() => server.close());

test('a what-if waits, with where to read it, and its bell is in the outbox; the plan is as it was', async () => {
  const { network, incident } = await shortOfFreezer(server);
  const before = await livePlan(server, incident.id);
  const answer = await network.post(`/v1/incidents/${incident.id}/plan-what-ifs`, { changes: [{ kind: 'freezer', siteId: incident.site(), volumeL: 500 }] }).expect(202);
  expect(answer.headers['location']).toBe(`/v1/plan-what-ifs/${answer.body.id}`);
  expect(answer.body).toEqual({
    id: answer.body.id, incidentId: incident.id, state: 'queued', requestedAt: '2026-05-09T07:00:00.000Z', startedAt: null, finishedAt: null, plansDone: 0, plansInAll: null, itemId: null, failure: null, result: null,
  });
  const { rows } = await server.admin.query("select subject_id, incident_id, done_at from outbox where network_id = $1 and kind = 'plan.what_if'", [network.networkId]);
  expect(rows).toEqual([{ subject_id: answer.body.id, incident_id: incident.id, done_at: null }]);
  expect(await livePlan(server, incident.id)).toEqual(before);
});

test('the same request again is the same what-if', async () => {
  const { network, incident } = await shortOfFreezer(server);
  const key = { 'idempotency-key': '"0198b7a0-0000-4000-8000-00000000aaaa"' };
  const answers = [await network.post(`/v1/incidents/${incident.id}/plan-what-ifs`, {}, key).expect(202), await network.post(`/v1/incidents/${incident.id}/plan-what-ifs`, {}, key).expect(202)];
  expect(new Set(answers.map(({ body }) => body.id)).size).toBe(1);
  expect((await server.admin.query('select 1 from plan_what_if where network_id = $1', [network.networkId])).rowCount).toBe(1);
});

test('of what is over the newest ten of an incident are kept, and nothing of another incident goes', async () => {
  const { network, incident } = await shortOfFreezer(server);
  const other = await shortOfFreezer(server);
  const kept = await ask(other.network, other.incident, { changes: [{ kind: 'freezer', siteId: other.incident.site(), volumeL: 50 }] });
  await reckon(server, other.network, kept);
  const ids: string[] = [];
  for (let i = 0; i < 12; i += 1) {
    server.clock.set(server.clock.nowMs() + 60_000);
    const id = await ask(network, incident, { changes: [{ kind: 'freezer', siteId: incident.site(), volumeL: 50 + i }] });
    await reckon(server, network, id, undefined, { iterations: 0, seeds: [1] });
    ids.push(id);
  }
  const { rows } = await server.admin.query<{ id: string }>('select id from plan_what_if where incident_id = $1 order by requested_at', [incident.id]);
  // The last request came before its own what-if was over: ten that were, and that one.
  expect(rows.map(({ id }) => id)).toEqual(ids.slice(-11));
  await other.network.get(`/v1/plan-what-ifs/${kept}`).expect(200);
});
