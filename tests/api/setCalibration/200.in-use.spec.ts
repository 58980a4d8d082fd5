import { afterAll, beforeAll, expect, test } from '@jest/globals';
import type { Planner } from '#application';
import type { PlanProblem } from '#planning';
import { carryOut, request } from '../../unit/plan-problem/support/runs.js';
import { alarmsOf, readRoom, reckonAir } from '../support/air.js';
import { Workbench } from '../support/workbench.js';
import { setNumber } from './calibration.support.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await Workbench.open();
});
afterAll(() => bench.close());

test('an alarm of a room clears by the margin that the network has set', async () => {
  const clock = (time: string) => bench.server.clock.set(Date.parse(`2026-05-09T${time}:00Z`));
  const air = async (time: string, relativeHumidityPct: number) => {
    clock(time);
    await readRoom(bench.network, bench.incident, `2026-05-09T${time}:00Z`, relativeHumidityPct);
    await reckonAir(bench.server, bench.network);
    return (await alarmsOf(bench.network, bench.incident)).map(({ kind }) => kind);
  };
  expect(await air('07:30', 78)).toEqual(['room-over-cap']);
  expect((await setNumber(bench, 'alarms/humidityClearPct', 8)).status).toBe(200);
  expect(await air('07:45', 70)).toEqual(['room-over-cap']);
  expect(await air('08:00', 66)).toEqual([]);
});

test('a plan gives quilts the time that the network counts for thick things, and never more than it lets a drying count', async () => {
  await bench.testedQuilt(await bench.household());
  const slotsOfDrying = async () => {
    const problems: PlanProblem[] = [];
    const looking: Planner = { plan: (problem) => Promise.reject((problems.push(problem), new Error('only looking'))) };
    await expect(carryOut(bench.server, bench.network, await request(bench.server, bench.network, bench.incident), looking, { iterations: 0, slotMinutes: 15 })).rejects.toThrow('only looking');
    return problems[0]!.items.flatMap(({ options }) => options).flatMap(({ steps }) => steps).find(({ step }) => step === 'dry')!.durationSlots;
  };
  const usual = await slotsOfDrying();
  await setNumber(bench, 'planning/thickFactor', 4);
  expect(Math.abs((await slotsOfDrying()) - 2 * usual)).toBeLessThanOrEqual(1);
  await setNumber(bench, 'planning/longestDryingH', 6);
  expect(await slotsOfDrying()).toBe(6 * 4);
});

test('what is triaged from then on takes the hands-on time and the weight that the network has set; what was triaged before keeps its own', async () => {
  const household = await bench.household();
  const minutesOf = async (id: string) => {
    const { body } = await bench.network.get(`/v1/items/${id}/triage`).expect(200);
    return body.options.flatMap(({ steps }: { steps: { step: string; minutesPerPiece: number }[] }) => steps).find(({ step }: { step: string }) => step === 'rinse')?.minutesPerPiece as number;
  };
  const weightOf = async (id: string) => (await bench.server.admin.query<{ planning_weight: number }>('select planning_weight from item where id = $1', [id])).rows[0]?.planning_weight;
  const before = await bench.testedQuilt(household, { significance: 'treasured' });
  const [usualMinutes, usualWeight] = [await minutesOf(before.id), await weightOf(before.id)];
  expect(usualMinutes).toBeGreaterThan(0);
  await setNumber(bench, 'care/rinseMin', 8);
  await setNumber(bench, 'care/onlyCopyFactor', 4);
  const after = await bench.testedQuilt(household, { significance: 'treasured' });
  // Twice the default of 4, in proportion for the size of a quilt.
  expect(await minutesOf(after.id)).toBeCloseTo(2 * usualMinutes, 9);
  expect(await weightOf(after.id)).toBe(2 * (usualWeight ?? 0));
  expect([await minutesOf(before.id), await weightOf(before.id)]).toEqual([usualMinutes, usualWeight]);
});

test('two things that are due within the stretch that the network has set are told apart by what they mean, not by the minute', async () => {
  bench.server.clock.set(Date.parse('2026-05-09T09:00:00Z'));
  const household = await bench.household();
  const sooner = await bench.assessedQuilt(household, { wettedAt: '2026-05-09T01:10:00Z', significance: 'valued' });
  const dearer = await bench.assessedQuilt(household, { wettedAt: '2026-05-09T03:30:00Z', significance: 'irreplaceable' });
  const precedence = async () => (await bench.network.get(`/v1/items/${sooner.id}/precedence?over=${dearer.id}`).expect(200)).body;
  expect(await precedence()).toMatchObject({ decidedBy: 'slack', first: { itemId: sooner.id } });
  await setNumber(bench, 'care/orderStretchMin', 480);
  expect(await precedence()).toMatchObject({ decidedBy: 'significance', first: { itemId: dearer.id } });
});
