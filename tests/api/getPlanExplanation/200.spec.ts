import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { unpackGround } from '#application';
import { planNow, withBenches, workerContextOf } from '../../unit/plan-problem/support/runs.js';
import { Workbench } from '../support/workbench.js';
import { shortOfFreezer } from '../support/what-ifs.js';

let bench: Workbench;
beforeAll(async () => { bench = await Workbench.open(withBenches); });
afterAll(() => bench.close());

const explanationOf = async (id: string, query = '', language = 'en') => (await bench.network.get(`/v1/items/${id}/plan-explanation${query}`, { 'accept-language': language }).expect(200)).body;

describe('the explanation of a planned item', () => {
  test('agrees with the plan step by step, and says what it waits for, where it could have been, and how much time is left', async () => {
    const household = await bench.household();
    const quilts = [await bench.testedQuilt(household), await bench.testedQuilt(household)];
    await planNow(bench.server, bench.network, bench.incident);
    const { body: plan } = await bench.network.get(`/v1/incidents/${bench.incident.id}/plan`).expect(200);
    for (const { id } of quilts) {
      const found = await explanationOf(id);
      expect(found).toMatchObject({ itemId: id, revisionId: plan.revisionId, revisionNumber: plan.number, madeAt: plan.madeAt, state: 'planned', blockedBy: null, wouldHelp: null, before: null });
      const { body: assignments } = await bench.network.get(`/v1/incidents/${bench.incident.id}/plan/assignments?itemId=${id}`).expect(200);
      expect(found.steps.map(({ step, startsAt, endsAt }: Record<string, unknown>) => ({ step, startsAt, endsAt }))).toEqual(assignments.items.map(({ step, startsAt, endsAt }: Record<string, unknown>) => ({ step, startsAt, endsAt })));
      expect(found.slackMinutes).toBeGreaterThan(0);
      expect(found.inWords.at(-1)).toMatch(/^It is to be made safe at 2026-05-\d\d \d\d:\d\d UTC, .* before its deadline\.$/);
      // Everything has its name, nothing its id or slot.
      expect(found.inWords.join(' ')).not.toMatch(/[0-9a-f]{8}-|slot/);
    }
  });

  test('speaks Spanish', async () => {
    const { id } = await bench.testedQuilt(await bench.household());
    await planNow(bench.server, bench.network, bench.incident);
    expect((await explanationOf(id, '', 'es')).inWords.at(-1)).toMatch(/^Quedará a salvo en el 2026-05-\d\d/);
  });

  test('is of the plan in force, as of when it was made, whatever changed since', async () => {
    const { id } = await bench.testedQuilt(await bench.household());
    await planNow(bench.server, bench.network, bench.incident);
    const before = await explanationOf(id);
    const { id: later } = await bench.testedQuilt(await bench.household());
    bench.server.clock.set(bench.server.clock.nowMs() + 60_000);
    expect(await explanationOf(id)).toEqual(before);
    expect(await explanationOf(later)).toMatchObject({ state: 'not-in-plan', steps: [], inWords: ['The plan does not know it: it came after the plan was made, or nothing was left to be done with it then.'] });
    await planNow(bench.server, bench.network, bench.incident);
    expect(await explanationOf(later)).toMatchObject({ state: 'planned' });
  });
});

describe('the explanation of an item without a place', () => {
  test('names what keeps it out and why each way failed', async () => {
    const { network, incident } = await shortOfFreezer(bench.server);
    const { body: listed } = await network.get(`/v1/incidents/${incident.id}/plan/unplanned`).expect(200);
    const [out] = listed.items;
    const { body } = await network.get(`/v1/items/${out.itemId}/plan-explanation`).expect(200);
    expect(body).toMatchObject({ state: 'unplanned', disposition: null, steps: [], stabilisedAt: null, slackMinutes: null, blockedBy: { kind: out.blockedBy.kind, what: out.blockedBy.what } });
    expect(body.inWords[0]).toMatch(/^It is not in the plan: /);
    expect(body.passedOver.length).toBeGreaterThan(0);
    expect(body.inWords.join(' ')).not.toMatch(/[0-9a-f]{8}-/);
  });

  test('that waits for people says so, by what the plan had left out', async () => {
    const { id } = await bench.testedQuilt(await bench.household());
    await planNow(bench.server, bench.network, bench.incident);
    const { body: plan } = await bench.network.get(`/v1/incidents/${bench.incident.id}/plan`).expect(200);
    // As a plan has it that found the item waiting for its owner: it is no part of the problem then.
    await bench.server.unitOfWork.write(workerContextOf(bench.network), async (stores) => {
      const ground = await unpackGround((await stores.planGrounds.findPacked(plan.revisionId))!);
      await bench.server.admin.query('delete from plan_ground where revision_id = $1', [plan.revisionId]);
      const isOther = (one: { itemId: string }) => one.itemId !== id;
      await stores.planGrounds.save(bench.incident.id, plan.revisionId, {
        problem: { ...ground.problem, items: ground.problem.items.filter((item) => item.id !== id) }, plan: { ...ground.plan, assignments: ground.plan.assignments.filter(isOther), unplanned: ground.plan.unplanned.filter(isOther) },
        leftOut: [{ itemId: id, weight: 1, blockedBy: { kind: 'owner', what: '' } }],
      });
    });
    expect(await explanationOf(id)).toMatchObject({ state: 'left-out', steps: [], blockedBy: { kind: 'owner', text: 'it waits for the decision of its owner' }, inWords: ['It is not in the plan: it waits for the decision of its owner.'] });
  });
});

describe('why one before another', () => {
  test('names both by their tags, the same from either side', async () => {
    const household = await bench.household();
    const [a, b] = [await bench.testedQuilt(household), await bench.testedQuilt(household)];
    await planNow(bench.server, bench.network, bench.incident);
    const [fromA, fromB] = [(await explanationOf(a.id, `?before=${b.id}`)).before, (await explanationOf(b.id, `?before=${a.id}`)).before];
    expect(fromA.otherItemId).toBe(b.id);
    expect(fromB.otherItemId).toBe(a.id);
    expect({ first: fromA.firstItemId, reasons: fromA.reasons }).toEqual({ first: fromB.firstItemId, reasons: fromB.reasons });
    expect(fromA.inWords[0]).toMatch(/^[A-Z]{4}-[A-Z]{3}-\d\d .*begin/);
    expect(fromA.inWords.join(' ')).not.toMatch(/[0-9a-f]{8}-/);
    expect((await explanationOf(a.id, `?before=${b.id}`, 'es')).before.inWords[0]).toMatch(/empieza/);
  });
});
