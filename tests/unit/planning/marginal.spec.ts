import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { bandOf, buildPlan, changedProblem, helpForItem, inTimeItems, marginalValues, type PlanProblem, type WhatIf } from '#planning';
import { salvageDay } from './support/day.builder.js';
import { randomProblem } from './support/random-problem.arbitrary.js';
import { freeze, item, smallProblem, treat } from './support/small.builder.js';

const budget = { seeds: [1, 2, 3], iterations: 20 };
const valuesOf = (problem: PlanProblem, whatIfs: WhatIf[], seeds = budget) => marginalValues(problem, buildPlan(problem, { seed: 9, iterations: 0 }), whatIfs, seeds);

/** Four things for a freezer that holds one of them. */
const fullFreezer = () => smallProblem([9, 7, 5, 3].map((weight, i) => item(`thing-${i}`, { options: [freeze], weight })));
const anotherFreezer = (volumeCl: number): WhatIf => [{ kind: 'freezer', siteId: 'hall', volumeCl, fromSlot: 0 }];

describe('the value of a change', () => {
  test('is the weight of what is in time with it and not without it, the heaviest first', () => {
    const { base, inForce, values } = valuesOf(fullFreezer(), [anotherFreezer(30), anotherFreezer(60)]);
    expect([inForce, base]).toEqual([15, { least: 15, middle: 15, greatest: 15 }]);
    expect(values).toEqual([
      { direction: 'gives', weightSaved: { least: 7, middle: 7, greatest: 7 }, saved: [{ itemId: 'thing-1', weight: 7, seeds: 3 }], lost: [] },
      { direction: 'gives', weightSaved: { least: 12, middle: 12, greatest: 12 }, saved: [{ itemId: 'thing-1', weight: 7, seeds: 3 }, { itemId: 'thing-2', weight: 5, seeds: 3 }], lost: [] },
    ]);
  });

  test('is what really adding it and planning again saves', () => {
    const problem = salvageDay(120, 3);
    problem.people = problem.people.slice(0, 4);
    const whatIf: WhatIf = [{ kind: 'people', siteId: 'hall', count: 1, skills: ['assessment', 'colour-testing', 'rinsing'], restrictions: [], shifts: problem.people[0]!.shifts }];
    const { values: [value] } = valuesOf(problem, [whatIf], { seeds: [5], iterations: 60 });
    const lateWith = buildPlan(changedProblem(problem, whatIf), { seed: 5, iterations: 60 }).objective[0];
    const lateWithout = buildPlan(problem, { seed: 5, iterations: 60 }).objective[0];
    expect(value!.weightSaved.middle).toBe(lateWithout - lateWith);
    expect(value!.weightSaved.middle).toBeGreaterThan(0);
    expect(value!.saved.reduce((sum, { weight }) => sum + weight, 0) - value!.lost.reduce((sum, { weight }) => sum + weight, 0)).toBe(lateWithout - lateWith);
  });

  test('is a cost where something goes', () => {
    const { values: [value] } = valuesOf(smallProblem([item('a'), item('b', { options: [freeze], weight: 4 })]), [[{ kind: 'freezer-closed', freezerId: 'chest', fromSlot: 0 }]]);
    expect(value).toEqual({ direction: 'takes', weightSaved: { least: -4, middle: -4, greatest: -4 }, saved: [], lost: [{ itemId: 'b', weight: 4, seeds: 3 }] });
  });

  test('credits the gain of searching again to no change', () => {
    const problem = fullFreezer();
    const bad = { ...buildPlan(problem, { seed: 1, iterations: 0 }), objective: [24, 0, 0, 0] as const };
    const { inForce, base, values } = marginalValues(problem, bad, [[]], budget);
    expect([inForce, base.middle, values[0]!.weightSaved.middle]).toEqual([24, 15, 0]);
  });

  test('of nothing is nothing, what only gives never costs, and what only takes never saves: for any problem', () => {
    fc.assert(fc.property(randomProblem(9), fc.nat(), (problem, seed) => {
      const [nothing, more, less] = valuesOf(problem, [
        [], [{ kind: 'people', siteId: 'hall', count: 1, skills: ['rinsing'], restrictions: [], shifts: [{ from: 0, to: 48 }] }, { kind: 'freezer', siteId: 'school', volumeCl: 8, fromSlot: 0 }],
        problem.people.slice(0, 1).map(({ id }) => ({ kind: 'person-leaves', personId: id, fromSlot: 0 }) as const),
      ], { seeds: [seed, seed + 1].map((one) => one % 1_000), iterations: 12 }).values;
      expect(nothing).toEqual({ direction: 'gives', weightSaved: { least: 0, middle: 0, greatest: 0 }, saved: [], lost: [] });
      expect(more!.weightSaved.least).toBeGreaterThanOrEqual(0);
      expect(less!.weightSaved.greatest).toBeLessThanOrEqual(0);
    }), { numRuns: 80 });
  });

  test('touches neither problem nor plan', () => {
    const problem = fullFreezer();
    const plan = buildPlan(problem, { seed: 1, iterations: 5 });
    const before = structuredClone({ problem, plan });
    marginalValues(problem, plan, [anotherFreezer(30)], budget);
    expect({ problem, plan }).toEqual(before);
  });

  test('needs a seed', () => {
    expect(() => valuesOf(fullFreezer(), [], { seeds: [], iterations: 0 })).toThrow(RangeError);
  });
});

describe('a band', () => {
  test('holds the least, the middle and the greatest', () => {
    expect(bandOf([5, 1, 3])).toEqual({ least: 1, middle: 3, greatest: 5 });
    expect(bandOf([4, 2])).toEqual({ least: 2, middle: 2, greatest: 4 });
    expect(() => bandOf([])).toThrow(RangeError);
  });
});

describe('what would get one item in', () => {
  test('is the first change with which it is in time', () => {
    expect(helpForItem(fullFreezer(), 'thing-2', [anotherFreezer(20), anotherFreezer(60), anotherFreezer(90)], budget)).toEqual({ unchangedSeeds: 0, changedSeeds: [0, 3, 3], smallest: 1 });
  });

  test('is nothing where planning again is enough', () => {
    expect(helpForItem(fullFreezer(), 'thing-0', [anotherFreezer(60)], budget)).toEqual({ unchangedSeeds: 3, changedSeeds: [3], smallest: null });
  });

  test('refuses an item that is not there', () => {
    expect(() => helpForItem(fullFreezer(), 'x', [], budget)).toThrow(RangeError);
  });
});

describe('items in time', () => {
  test('are those that the objective does not count as late: for any plan', () => {
    fc.assert(fc.property(randomProblem(10), fc.nat(), (problem, seed) => {
      const plan = buildPlan(problem, { seed, iterations: 20 });
      const inTime = inTimeItems(problem, plan);
      const late = problem.items.reduce((sum, { id, weight, stabilised }) => sum + (stabilised || inTime.has(id) ? 0 : weight), 0);
      expect(late).toBe(plan.objective[0]);
    }), { numRuns: 100 });
  });

  test('count the slots lain frozen before the thing is dried', () => {
    const thawed = { disposition: 'treat' as const, steps: [{ ...freeze.steps[0]!, stabilises: null }, ...treat.steps] };
    const problem = smallProblem([item('a', { options: [thawed], deadlineSlot: 6 })]);
    const step = (position: number, startSlot: number, endSlot: number) => ({ itemId: 'a', option: 0, position, step: thawed.steps[position]!.step, disposition: 'treat' as const, batchId: null, stationId: null, personIds: [], dryingPlaceId: null, freezerId: null, startSlot, endSlot });
    const plan = { seed: 1, iterations: 0, objective: [0, 0, 0, 0] as const, unplanned: [], assignments: [step(0, 0, 1), step(1, 21, 23), step(2, 23, 33), step(3, 33, 34)] };
    // Dried from slot 23 on, but 20 slots of them in the freezer: by then its clock has run for 3.
    expect(inTimeItems(problem, plan)).toEqual(new Set(['a']));
    expect(inTimeItems({ ...problem, items: [{ ...problem.items[0]!, deadlineSlot: 2 }] }, plan)).toEqual(new Set());
  });
});
