import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { waitingRuns } from '../support/plan-requests.js';
import { Workbench } from '../support/workbench.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

/** Quilts that hang, each by itself. */
async function hanging(count: number): Promise<string[]> {
  const household = await bench.household();
  const ids: string[] = [];
  for (let i = 0; i < count; i += 1) {
    const quilt = await bench.testedQuilt(household);
    await bench.report(quilt.id, 'rinse').expect(201);
    await bench.report(quilt.id, 'blot').expect(201);
    await bench.hang(quilt.id);
    ids.push(quilt.id);
  }
  return ids;
}

describe('recordStepResult asks for a new plan', () => {
  test('when a thing is dry and its place is free; many that are dry while the run waits ask for no second, a finding makes it begin sooner', async () => {
    const [first = '', second = '', third = ''] = await hanging(3);
    const { id } = bench.incident;
    const dueInS = async () => (await bench.server.admin.query<{ s: number }>("select extract(epoch from leased_until - clock_timestamp())::float8 as s from outbox where incident_id = $1 and kind = 'plan.requested' and done_at is null", [id])).rows.map(({ s }) => s);
    expect(await waitingRuns(bench.server, id)).toEqual([]);
    const { body } = await bench.report(first, 'dry').expect(201);
    expect(body.planRunId).not.toBeNull();
    expect(body.changes.join(' ')).not.toContain('plan');
    expect(await waitingRuns(bench.server, id)).toEqual([{ reason: 'a drying place became free', bells: 1, delayed: true }]);
    expect((await dueInS())[0]).toBeGreaterThan(10);
    expect((await bench.report(second, 'dry').expect(201)).body.planRunId).toBe(body.planRunId);
    expect(await waitingRuns(bench.server, id)).toHaveLength(1);
    const found = await bench.report(third, 'dry', 'mould-found').expect(201);
    expect(found.body.planRunId).toBe(body.planRunId);
    expect(found.body.changes).toContain('A new plan is asked for.');
    expect(await waitingRuns(bench.server, id)).toHaveLength(1);
    expect(await dueInS()).toHaveLength(1);
    // That it is less than before would show no more than that time passes.
    expect((await dueInS())[0]).toBeLessThanOrEqual(5);
  });
});
