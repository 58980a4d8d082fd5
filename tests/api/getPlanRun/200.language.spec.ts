import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { giveUpPlanRun } from '#application';
import { startTestServer, type TestServer } from '#testing';
import { carryOut, environmentOf, request, workerContextOf } from '../../unit/plan-problem/support/runs.js';

let server: TestServer;
beforeAll(async () => { server = await startTestServer(); });
afterAll(() => server.close());

const both = async (network: Awaited<ReturnType<TestServer['network']>>, runId: string) => {
  const read = async (language: string) => (await network.get(`/v1/plan-runs/${runId}`, { 'accept-language': language }).expect(200)).body;
  return { en: await read('en'), es: await read('es') };
};

test('our reason is said in either language, and what somebody wrote stays as it was written', async () => {
  const network = await server.network();
  const incident = await network.incident();
  await network.patch(`/v1/incidents/${incident.id}/stations/${incident.station('BLOT')}`, { state: 'closed' }, { 'if-match': '"1"' }).expect(200);
  const ours = (await network.post(`/v1/incidents/${incident.id}/plan-runs`, { reason: 'never shown' }).expect(202)).body;
  const told = await both(network, ours.id);
  expect([told.en.reason, told.es.reason]).toEqual(['station BLOT changed', 'cambió el puesto BLOT']);
  const elsewhere = await network.incident();
  const theirs = (await network.post(`/v1/incidents/${elsewhere.id}/plan-runs`, { reason: 'Two {testers} went home.' }).expect(202)).body;
  const kept = await both(network, theirs.id);
  expect([kept.en.reason, kept.es.reason]).toEqual(['Two {testers} went home.', 'Two {testers} went home.']);
});

test('why a run failed is said in either language, with what it is about', async () => {
  const network = await server.network();
  const incident = await network.incident();
  const requested = await request(server, network, incident);
  const broken = { plan: () => Promise.resolve({ seed: 1, iterations: 0, assignments: [], unplanned: [], objective: [7, 7, 0, 7] as const }) };
  expect(await carryOut(server, network, requested, broken)).toBe('failed');
  const told = await both(network, requested.runId);
  expect(told.en.failure).toMatch(/^The plan broke 1 rule and was thrown away, which is a fault of ours\. .*: objective\.$/);
  expect(told.es.failure).toMatch(/^El plan incumplía 1 regla y se descartó; es un fallo nuestro\. .*: objective\.$/);
});

test('a run that is given up, and one that an earlier version ended with an English sentence, are read in Spanish', async () => {
  const network = await server.network();
  const incident = await network.incident();
  const requested = await request(server, network, incident);
  await giveUpPlanRun(server.unitOfWork, requested.message, workerContextOf(network), environmentOf(server));
  const { rows } = await server.admin.query('select failure_values from plan_run where id = $1', [requested.runId]);
  expect(rows).toEqual([{ failure_values: null }]);
  expect((await both(network, requested.runId)).es.failure).toBe('El plan no se pudo hacer tras varios intentos. Pida uno nuevo; si tampoco sale, avise a quien opera el servicio.');
  await server.admin.query("update plan_run set failure = 'The planning problem is malformed: {x} 3.' where id = $1", [requested.runId]);
  expect((await both(network, requested.runId)).es.failure).toBe('The planning problem is malformed: {x} 3.');
});
