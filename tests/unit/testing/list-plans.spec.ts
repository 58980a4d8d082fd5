/** The stories are reckoned by hand; every plan is checked by the validator of the planning library. */
import fc from 'fast-check';
import { describe, expect, test } from '@jest/globals';
import { type PlanItem, type PlanProblem, validatePlan } from '#planning';
import { generateIncident, listPlan, type ListRule } from '#testing/salvage';
import { randomProblem } from '../planning/support/random-problem.arbitrary.js';
import { oneBath, rinsed } from './support/one-bath.js';

const RULES: ListRule[] = ['arrival', 'deadline', 'value'];

/** What lists know nothing of is left out. */
function forLists({ previous: _, ...problem }: PlanProblem): PlanProblem {
  return { ...problem, late: 'plan', items: problem.items.map(({ pinned: _pinned, first: _first, ...item }) => item) };
}

describe('listPlan', () => {
  test.each(RULES)('by %s makes plans that the validator accepts, with everything scarce', (rule) => {
    fc.assert(fc.property(randomProblem(12), (random) => {
      const problem = forLists(random);
      expect(validatePlan(problem, listPlan(problem, rule))).toEqual([]);
    }), { numRuns: 300 });
  });

  test.each(RULES)('by %s makes a valid plan of a whole synthetic day', (rule) => {
    const problem = forLists(generateIncident({ preset: 'base', items: 150, seed: 3 }).problem);
    const plan = listPlan(problem, rule);
    expect(validatePlan(problem, plan)).toEqual([]);
    expect(new Set(plan.assignments.map(({ itemId }) => itemId)).size).toBeGreaterThan(0);
  });

  test('takes what came first first, or what is due first, or what is valued most', () => {
    const problem = oneBath([rinsed('a', { deadlineSlot: 9, weight: 1 }), rinsed('b', { deadlineSlot: 2, weight: 2 }), rinsed('c', { deadlineSlot: 6, weight: 3 })]);
    const order = (rule: ListRule): string[] => [...listPlan(problem, rule).assignments].sort((x, y) => x.startSlot - y.startSlot).map(({ itemId }) => itemId);
    expect(order('arrival')).toEqual(['a', 'b', 'c']);
    expect(order('deadline')).toEqual(['b', 'c', 'a']);
    expect(order('value')).toEqual(['c', 'b', 'a']);
  });

  test('turns nothing away: what is late is done late and takes its turn from what could have been in time', () => {
    // Two slots a rinse, one bath: hopeless ends at 2 when it was due at 1, and so keeps b from being done by 2.
    const problem = oneBath([rinsed('a-hopeless', { deadlineSlot: 1, weight: 5 }), rinsed('b', { deadlineSlot: 2, weight: 7 })]);
    const plan = listPlan(problem, 'arrival');
    expect(plan.unplanned).toEqual([]);
    expect(plan.objective).toEqual([12, 5 * 1 + 7 * 2, 0, 5 * 2 + 7 * 4]);
  });

  test('takes a later route that is in time before an earlier one that is late', () => {
    const item: PlanItem = rinsed('b', { deadlineSlot: 3, weight: 7 });
    const held = { disposition: 'hold-wet' as const, steps: [{ ...item.options[0]!.steps[0]!, step: 'blot' as const, durationSlots: 1 }] };
    const problem = oneBath([rinsed('a', { deadlineSlot: 9, weight: 1 }), { ...item, options: [...item.options, held] }]);
    expect(listPlan(problem, 'arrival').assignments.find(({ itemId }) => itemId === 'b')).toMatchObject({ option: 1, startSlot: 2, endSlot: 3 });
  });

  test('shares a bath with what is of the same group while there is room', () => {
    const together = (id: string): PlanItem => rinsed(id, { deadlineSlot: 20, weight: 1 }, { group: 'whites', units: 1, mostUnits: 2 });
    const plan = listPlan(oneBath([together('a'), together('b'), together('c')]), 'arrival');
    expect(plan.assignments.map(({ itemId, startSlot }) => [itemId, startSlot])).toEqual([['a', 0], ['b', 0], ['c', 2]]);
  });
});
