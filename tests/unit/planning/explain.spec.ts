import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { render } from '#care';
import { bindingResources, buildPlan, explainItem, type ItemExplanation, type Plan, type PlanProblem } from '#planning';
import { salvageDay } from './support/day.builder.js';
import { randomProblem } from './support/random-problem.arbitrary.js';
import { freeze, item, SLOTS, smallProblem, treat } from './support/small.builder.js';

function explain(problem: PlanProblem, itemId: string): ItemExplanation {
  return explainItem(problem, buildPlan(problem, { seed: 1, iterations: 0 }), itemId);
}

/** Slots for which the clock of a planned item stands still before it is stabilised. */
function frozenBefore(problem: PlanProblem, plan: Plan, itemId: string): number {
  const steps = plan.assignments.filter((one) => one.itemId === itemId).sort((a, b) => a.position - b.position);
  const route = problem.items.find(({ id }) => id === itemId)!.options[steps[0]!.option]!.steps;
  const stabilising = route.findIndex(({ stabilises }) => stabilises !== null);
  return steps.slice(0, stabilising).reduce((sum, { endSlot }, k) => sum + (route[k]!.freezer === null ? 0 : steps[k + 1]!.startSlot - endSlot), 0);
}

describe('the explanation of an item', () => {
  test('says what each step waits for and how much slack is left', () => {
    const problem = smallProblem([item('a', { weight: 9 }), item('b')]);
    const found = explain(problem, 'b');
    expect(found).toMatchObject({ state: 'planned', disposition: 'treat', stabilisedAtSlot: 4, slackSlots: 16, blockedBy: null, passedOver: [] });
    expect(found.steps.map(({ waitSlots }) => waitSlots)).toEqual([2, 0, 0]);
    expect(found.steps[0]).toMatchObject({ waitsFor: { kind: 'station', what: 'rinse' }, because: 'in-use' });
    expect(found.text.map((message) => render(message, 'en'))).toEqual([
      'Before “rinse” it waits 2 slots and begins at slot 2 of the plan: no free station for “rinse” (in use).',
      'It is to be made safe at slot 4 of the plan, 16 slots before its deadline.',
    ]);
    expect(found.text.map((message) => render(message, 'es'))).toEqual([
      'Antes de «enjuagar» espera 2 intervalos y empieza en el intervalo 2 del plan: no hay un puesto libre para «enjuagar» (en uso).',
      'Quedará a salvo en el intervalo 4 del plan, 16 intervalos antes de su plazo.',
    ]);
  });

  test('tells a closed resource from one in use', () => {
    const small = smallProblem([item('a')]);
    small.people = small.people.filter(({ id }) => id !== 'cy');
    small.people[0]!.shifts = [{ from: 6, to: SLOTS }];
    expect(explain(small, 'a').steps[0]).toMatchObject({ waitSlots: 6, waitsFor: { kind: 'crew', what: 'rinsing' }, because: 'closed' });
  });

  test('says why a preferred route was passed over', () => {
    const options = [treat, freeze];
    const problem = smallProblem(['a', 'b', 'c'].map((id, i) => item(id, { options, deadlineSlot: 6, weight: 5 - i })));
    const found = explain(problem, 'c');
    expect(found.disposition).toBe('hold-frozen');
    expect(found.passedOver).toEqual([{ disposition: 'treat', blockedBy: { kind: 'drying-area', what: 'loft' } }]);
  });

  test('gives an unplanned item the blocker of the plan and the obstacle of each route', () => {
    const problem = smallProblem([item('a', { options: [treat, freeze], deadlineSlot: 0 })]);
    const found = explain(problem, 'a');
    expect(found).toMatchObject({ state: 'unplanned', disposition: null, steps: [], blockedBy: { kind: 'time', what: '' } });
    expect(found.passedOver.map(({ blockedBy }) => blockedBy?.kind)).toEqual(['time', 'time']);
    expect(render(found.text[0]!, 'en')).toBe('It is not in the plan: its deadline leaves too little time even with everything free.');
  });

  test('gives an item already stabilised no slack', () => {
    expect(explain(smallProblem([item('a', { stabilised: true })]), 'a')).toMatchObject({ stabilisedAtSlot: null, slackSlots: null });
  });

  test('refuses an item that is not there', () => {
    expect(() => explain(smallProblem([item('a')]), 'x')).toThrow(RangeError);
  });

  test('accounts for every slot between release and end, for any item of any plan', () => {
    fc.assert(fc.property(randomProblem(12), fc.nat(), (problem, seed) => {
      const plan = buildPlan(problem, { seed, iterations: 30 });
      for (const { id, deadlineSlot, stabilised, pinned } of problem.items) {
        const found = explainItem(problem, plan, id);
        const last = found.steps.at(-1);
        if (last !== undefined) {
          const first = found.steps[0]!;
          const spent = found.steps.reduce((sum, { waitSlots, startSlot, endSlot }) => sum + waitSlots + endSlot - startSlot, 0);
          expect(first.startSlot - first.waitSlots + spent).toBe(last.endSlot);
          expect(found.steps.every(({ waitSlots, waitsFor }) => waitSlots >= 0 && (waitSlots > 0 || waitsFor === null))).toBe(true);
          if (!stabilised) expect(found.slackSlots).toBe(deadlineSlot + frozenBefore(problem, plan, id) - found.stabilisedAtSlot!);
          if (!stabilised && problem.late !== 'plan') expect(found.slackSlots).toBeGreaterThanOrEqual(0);
        } else {
          expect(found.blockedBy).toEqual(plan.unplanned.find(({ itemId }) => itemId === id)!.blockedBy);
          // A thing that cannot be done just as it was asked for might be done otherwise.
          if (pinned === undefined) expect(found.passedOver.every(({ blockedBy }) => blockedBy !== null)).toBe(true);
        }
      }
    }), { numRuns: 100 });
  });
});

describe('binding resources', () => {
  test('count use and availability of each resource per period', () => {
    const problem = smallProblem([item('a'), item('c', { options: [freeze] })]);
    problem.fixed = [{ itemId: 'before', step: 'dry', stationId: null, personIds: [], dryingPlaceId: 'rack', areaDm2: 2, loadGPerSlot: 1, freezerId: null, volumeCl: 0, interval: { from: 0, to: 20 } }];
    const { use } = bindingResources(problem, buildPlan(problem, { seed: 1, iterations: 0 }), 20);
    const of = (kind: string, what: string): [number, number, number][] =>
      use.find((one) => one.kind === kind && one.what === what)!.periods.map(({ used, available, permille }) => [used, available, permille]);
    expect(of('station', 'rinse')).toEqual([[2, 20, 100], [0, 20, 0]]);
    // Cy, who may not do wet work, wraps for the freezer, and counts under every skill Cy has.
    expect(of('crew', 'rinsing')).toEqual([[3, 40, 75], [0, 40, 0]]);
    expect(of('crew', '')).toEqual([[3, 60, 50], [0, 60, 0]]);
    expect(of('drying-area', 'loft')).toEqual([[80, 160, 500], [0, 160, 0]]);
    expect(of('room-air', 'loft')).toEqual([[70, 200, 350], [0, 200, 0]]);
    expect(of('freezer', 'chest')).toEqual([[570, 1000, 570], [600, 1000, 600]]);
  });

  test('put the resource that keeps most weight out of the plan first', () => {
    const problem = smallProblem([
      item('a', { weight: 3, deadlineSlot: 1 }), item('b', { weight: 4, options: [freeze] }), item('c', { weight: 30, options: [freeze] }), item('d', { weight: 9, options: [freeze] }),
      item('e', { stabilised: true, options: [{ disposition: 'treat', steps: [{ ...treat.steps[1]!, drying: { areaDm2: 99, loadGPerSlot: 0 } }] }] }),
    ]);
    expect(bindingResources(problem, buildPlan(problem, { seed: 1, iterations: 0 })).unplanned).toEqual([
      { siteId: 'hall', blockedBy: { kind: 'freezer', what: 'chest' }, lostWeight: 13, lostItems: 2, waitingItems: 0 },
      { siteId: 'hall', blockedBy: { kind: 'time', what: '' }, lostWeight: 3, lostItems: 1, waitingItems: 0 },
      { siteId: 'hall', blockedBy: { kind: 'drying-area', what: 'loft' }, lostWeight: 0, lostItems: 0, waitingItems: 1 },
    ]);
  });

  test('cover the horizon without gaps and lose no weight on a large day', () => {
    const problem = salvageDay(400, 5);
    problem.people = problem.people.slice(0, 6);
    const plan = buildPlan(problem, { seed: 1, iterations: 0 });
    const { use, unplanned } = bindingResources(problem, plan);
    expect(unplanned.reduce((sum, { lostWeight }) => sum + lostWeight, 0)).toBe(plan.objective[0]);
    expect(plan.objective[0]).toBeGreaterThan(0);
    for (const { total, periods } of use) {
      expect(periods).toHaveLength(10);
      expect(periods.reduce((sum, { used }) => sum + used, 0)).toBe(total.used);
      expect(periods.every(({ permille }) => permille <= 1000)).toBe(true);
    }
  });

  test('refuse a period of no length', () => {
    const problem = smallProblem([]);
    expect(() => bindingResources(problem, buildPlan(problem, { seed: 1, iterations: 0 }), 0)).toThrow(RangeError);
  });
});
