import { afterAll, beforeAll, beforeEach, describe, expect, test } from '@jest/globals';
import { giveUpPlanRun, runPlan, type Planner, type PlanStore, type UnitOfWork } from '#application';
import { buildPlan, MalformedPlanProblem } from '#planning';
import { startTestServer, takeInTestHousehold, takeInTestItem, type IncidentOnTest, type TestNetwork, type TestServer } from '#testing';
import { carryOut, environmentOf, gateway, inlinePlanner, planNow, request, withBenches, workerContextOf } from './support/runs.js';

let server: TestServer;
let network: TestNetwork;
let incident: IncidentOnTest;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());
beforeEach(async () => {
  network = await server.network();
  incident = await network.incident(withBenches);
  const household = await takeInTestHousehold(network, incident);
  for (let i = 0; i < 3; i += 1) await takeInTestItem(network, incident, household);
});

const runOf = async (runId: string) => (await network.get(`/v1/plan-runs/${runId}`).expect(200)).body;
const numberOf = async (sql: string) => (await server.admin.query<{ n: number }>(`select count(*)::int as n from ${sql}`, [network.networkId])).rows[0]!.n;
const revisions = () => numberOf('plan_revision where network_id = $1');
/** Of plans: what looks at clocks and roots by itself waits there always. */
const openRows = () => numberOf("outbox where network_id = $1 and done_at is null and kind = 'plan.requested'");

/** The plans of a transaction that stops before it saves a run, until it may go on. */
function heldAtSaving(plans: PlanStore, reached: ReturnType<typeof gateway>, goesOn: ReturnType<typeof gateway>): PlanStore {
  return new Proxy(plans, {
    get(target, name) {
      const member: unknown = Reflect.get(target, name);
      if (typeof member !== 'function') return member;
      return async (...given: unknown[]) => {
        if (name === 'saveRun') {
          reached.open();
          await goesOn.opened;
        }
        return (member as (...args: unknown[]) => unknown).apply(target, given);
      };
    },
  });
}

/** Until the work has ended, or one of its statements waits for a lock of another transaction. */
async function endedOrWaiting(work: Promise<unknown>): Promise<void> {
  let ended = false;
  void work.finally(() => (ended = true));
  for (;;) {
    const { rows } = await server.admin.query<{ n: number }>('select count(*)::int as n from pg_stat_activity where datname = current_database() and cardinality(pg_blocking_pids(pid)) > 0');
    if (ended || rows[0]!.n > 0) return;
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
}

/** A planner that must not be asked. */
const unwilling: Planner = { plan: () => Promise.reject(new Error('planned again what is covered')) };

describe('a plan run', () => {
  test('stores its revision and closes its row, and done twice it is done once', async () => {
    const requested = await request(server, network, incident);
    expect(await carryOut(server, network, requested)).toBe('done');
    expect(await runOf(requested.runId)).toMatchObject({ state: 'done', startedAt: '2026-05-09T07:00:00.000Z', finishedAt: '2026-05-09T07:00:00.000Z', failure: null });
    expect(await openRows()).toBe(0);
    expect(await carryOut(server, network, requested)).toBe('done');
    expect(await revisions()).toBe(1);
  });

  test('that is overtaken by the plan of a later one ends with that plan, stores nothing and does not come again', async () => {
    const slow = await request(server, network, incident);
    const overtaken: Planner = {
      async plan(problem, budget) {
        // While it plans, another request is made and carried out.
        await planNow(server, network, incident);
        return buildPlan(problem, budget);
      },
    };
    expect(await carryOut(server, network, slow, overtaken)).toBe('overtaken');
    expect(await revisions()).toBe(1);
    const { body: plan } = await network.get(`/v1/incidents/${incident.id}/plan`).expect(200);
    expect(await runOf(slow.runId)).toMatchObject({ state: 'done', revisionId: plan.revisionId, finishedAt: '2026-05-09T07:00:00.000Z', failure: null });
    expect(await openRows()).toBe(0);
    expect(await carryOut(server, network, slow, unwilling)).toBe('done');
  });

  test('that broke off and comes again after the plan of a later one ends with that plan and plans nothing', async () => {
    const broken = await request(server, network, incident);
    await expect(carryOut(server, network, broken, { plan: () => Promise.reject(new Error('the worker was killed')) })).rejects.toThrow('killed');
    await planNow(server, network, incident);
    expect(await carryOut(server, network, broken, unwilling)).toBe('overtaken');
    expect(await runOf(broken.runId)).toMatchObject({ state: 'done', revisionId: expect.any(String) });
    expect([await revisions(), await openRows()]).toEqual([1, 0]);
  });

  test('that broke off is done again when no later one has stored a plan', async () => {
    await planNow(server, network, incident);
    const broken = await request(server, network, incident);
    await expect(carryOut(server, network, broken, { plan: () => Promise.reject(new Error('the worker was killed')) })).rejects.toThrow('killed');
    expect(await carryOut(server, network, broken)).toBe('done');
    expect(await revisions()).toBe(2);
  });

  test('whose planning fails after a later one has stored its plan ends with that plan', async () => {
    const slow = await request(server, network, incident);
    const refused: Planner = {
      async plan() {
        await planNow(server, network, incident);
        throw new MalformedPlanProblem([{ path: 'items[0]', text: 'is wrong' }]);
      },
    };
    expect(await carryOut(server, network, slow, refused)).toBe('overtaken');
    expect(await runOf(slow.runId)).toMatchObject({ state: 'done', failure: null });
  });

  test('and a later one of another worker that overlap store both plans, in the order in which they read', async () => {
    const first = await request(server, network, incident);
    const gate = gateway();
    let second: { runId: string; ended: Promise<string> } | undefined;
    const beside: Planner = {
      async plan(problem, budget) {
        const later = await request(server, network, incident);
        const begun = gateway();
        const waits: Planner = {
          async plan(...given) {
            begun.open();
            await gate.opened;
            return buildPlan(...given);
          },
        };
        second = { runId: later.runId, ended: carryOut(server, network, later, waits) };
        await begun.opened;
        return buildPlan(problem, budget);
      },
    };
    expect(await carryOut(server, network, first, beside)).toBe('done');
    expect(await revisions()).toBe(1);
    gate.open();
    expect(await second?.ended).toBe('done');
    expect(await revisions()).toBe(2);
    const { body: plan } = await network.get(`/v1/incidents/${incident.id}/plan`).expect(200);
    expect(await runOf(second?.runId ?? '')).toMatchObject({ state: 'done', revisionId: plan.revisionId });
  });

  test('run beside itself stores one revision', async () => {
    const requested = await request(server, network, incident);
    const outcomes = await Promise.all([carryOut(server, network, requested), carryOut(server, network, requested), carryOut(server, network, requested)]);
    expect(outcomes).toContain('done');
    expect(await revisions()).toBe(1);
    expect(await runOf(requested.runId)).toMatchObject({ state: 'done' });
  });

  test('that fails while it begins beside itself stays failed', async () => {
    const requested = await request(server, network, incident);
    const [aboutToSave, mayBegin] = [gateway(), gateway()];
    // The second one is held just before it says that it runs.
    const held: UnitOfWork = {
      read: (...given) => server.unitOfWork.read(...given),
      command: (...given) => server.unitOfWork.command(...given),
      write: (context, work) => server.unitOfWork.write(context, (stores) => work({ ...stores, plans: heldAtSaving(stores.plans, aboutToSave, mayBegin) })),
    };
    let second: Promise<string> | undefined;
    const failing: Planner = {
      async plan() {
        second = runPlan(held, inlinePlanner, requested.message, workerContextOf(network), environmentOf(server), { iterations: 1 });
        await aboutToSave.opened;
        throw new MalformedPlanProblem([{ path: 'items[0]', text: 'is wrong' }]);
      },
    };
    const first = carryOut(server, network, requested, failing);
    await aboutToSave.opened;
    await endedOrWaiting(first);
    mayBegin.open();
    expect([await first, await second]).toEqual(['failed', 'overtaken']);
    expect(await runOf(requested.runId)).toMatchObject({ state: 'failed', revisionId: null });
    expect([await revisions(), await openRows()]).toEqual([0, 0]);
  });

  test('whose plan breaks a rule fails with the reason and stores nothing', async () => {
    const requested = await request(server, network, incident);
    const careless: Planner = {
      plan(problem, budget) {
        const plan = buildPlan(problem, budget);
        return Promise.resolve({ ...plan, assignments: plan.assignments.map((assignment) => ({ ...assignment, startSlot: assignment.startSlot + 1 })) });
      },
    };
    expect(await carryOut(server, network, requested, careless)).toBe('failed');
    const run = await runOf(requested.runId);
    expect(run).toMatchObject({ state: 'failed', revisionId: null });
    expect(run.failure).toMatch(/broke \d+ rules/);
    expect([await revisions(), await openRows()]).toEqual([0, 0]);
  });

  test('whose problem is refused fails; anything else that goes wrong is tried again', async () => {
    const requested = await request(server, network, incident);
    const gone: Planner = { plan: () => Promise.reject(new Error('the thread died')) };
    await expect(carryOut(server, network, requested, gone)).rejects.toThrow('the thread died');
    expect(await openRows()).toBe(1);
    const refusing: Planner = { plan: () => Promise.reject(new MalformedPlanProblem([{ path: 'items[0]', text: 'is wrong' }])) };
    expect(await carryOut(server, network, requested, refusing)).toBe('failed');
    expect(await runOf(requested.runId)).toMatchObject({ state: 'failed', failure: expect.stringContaining('items[0] is wrong') });
  });

  test('that is given up stands in nobody\'s way', async () => {
    const requested = await request(server, network, incident);
    await giveUpPlanRun(server.unitOfWork, requested.message, workerContextOf(network), environmentOf(server));
    expect(await runOf(requested.runId)).toMatchObject({ state: 'failed' });
    expect((await request(server, network, incident)).runId).not.toBe(requested.runId);
  });

  test('keeps the details of the newest five plans and the figures of all', async () => {
    for (let i = 0; i < 7; i += 1) await planNow(server, network, incident);
    expect(await revisions()).toBe(7);
    expect(await numberOf('(select distinct revision_id from plan_assignment where network_id = $1) a')).toBe(5);
    const { body } = await network.get(`/v1/incidents/${incident.id}/plan`).expect(200);
    expect(body.number).toBe(7);
  });

  test('of an incident without anything makes an empty plan', async () => {
    const empty = await network.incident();
    expect(await carryOut(server, network, await request(server, network, empty), inlinePlanner)).toBe('done');
    const { body } = await network.get(`/v1/incidents/${empty.id}/plan`).expect(200);
    expect(body).toMatchObject({ number: 1, plannedItems: 0, unplannedItems: 0, blocked: [], inTime: { items: 0, weight: 0 } });
  });
});
