import { afterAll, beforeAll, expect, test } from '@jest/globals';
import type { Planner } from '#application';
import { buildPlan } from '#planning';
import { startTestServer, type TestServer } from '#testing';
import { carryOut, request } from '../../unit/plan-problem/support/runs.js';

let server: TestServer;
beforeAll(async () => { server = await startTestServer(); });
afterAll(() => server.close());

test('while it runs, a run says how many rounds are done; before and after there is nothing to say', async () => {
  const network = await server.network();
  const incident = await network.incident();
  const requested = await request(server, network, incident);
  const read = async () => (await network.get(`/v1/plan-runs/${requested.runId}`).expect(200)).body;
  expect(await read()).toMatchObject({ state: 'queued', rounds: null });
  const seen: unknown[] = [];
  const telling: Planner = {
    async plan(problem, budget) {
      seen.push((await read()).rounds);
      budget.onProgress?.(12);
      while ((await read()).rounds.done !== 12) await new Promise((resolve) => setTimeout(resolve, 5));
      seen.push((await read()).rounds);
      return buildPlan(problem, budget);
    },
  };
  expect(await carryOut(server, network, requested, telling, { iterations: 40 })).toBe('done');
  expect(seen).toEqual([{ done: 0, inAll: 40 }, { done: 12, inAll: 40 }]);
  expect(await read()).toMatchObject({ state: 'done', rounds: null });
});

test('what a run that was begun anew still says of its first begin is not written', async () => {
  const network = await server.network();
  const incident = await network.incident();
  const requested = await request(server, network, incident);
  const late: Planner = {
    async plan(problem, budget) {
      await server.admin.query('update plan_run set epoch = epoch + 1 where id = $1', [requested.runId]);
      budget.onProgress?.(12);
      return buildPlan(problem, budget);
    },
  };
  await carryOut(server, network, requested, late);
  const { rows } = await server.admin.query('select rounds_done from plan_run where id = $1', [requested.runId]);
  expect(rows).toEqual([{ rounds_done: 0 }]);
});
