/** Prices guide the search among many items: what they may change, and what not. */
import { describe, expect, test } from '@jest/globals';
import { buildPlan, explainItem, type Plan, type PlanProblem, validatePlan } from '#planning';
import { generateIncident } from '#testing/salvage';

/** The search looks for prices before the round after this many, for up to as many items. */
const BEFORE_PRICES = 4_096;

const overloaded = (seed: number): PlanProblem => generateIncident({ preset: 'overload-3', items: 240, seed }).problem;

/** A clock that goes on by one whenever it is read, and the readings of it so far. */
function countingClock(): { nowMs: () => number; readings: () => number } {
  let count = 0;
  return { nowMs: () => (count += 1), readings: () => count };
}

function afterReadings(problem: PlanProblem, milliseconds: number): Plan {
  return buildPlan(problem, { seed: 7, milliseconds, nowMs: countingClock().nowMs });
}

describe('prices in the search', () => {
  const problem = overloaded(4);

  test('a plan made by prices keeps every rule, and is the same whatever the order of the items', () => {
    const plan = buildPlan(problem, { seed: 7, iterations: BEFORE_PRICES + 500 });
    expect(validatePlan(problem, plan)).toEqual([]);
    expect(buildPlan({ ...problem, items: problem.items.toReversed() }, { seed: 7, iterations: BEFORE_PRICES + 500 })).toEqual(plan);
  });

  test('more rounds are never worse, on either side of the prices', () => {
    const plans = [0, BEFORE_PRICES - 1, BEFORE_PRICES, BEFORE_PRICES + 1, BEFORE_PRICES + 400].map((iterations) => buildPlan(problem, { seed: 7, iterations }));
    for (const [i, plan] of plans.slice(1).entries()) expect(plan.objective[0]).toBeLessThanOrEqual(plans[i]!.objective[0]);
  });

  test('where there is too much work they save more at once than thousands of rounds without them', () => {
    const late = (iterations: number): number => buildPlan(problem, { seed: 7, iterations }).objective[0];
    const [first, without, withPrices] = [late(0), late(BEFORE_PRICES), late(BEFORE_PRICES + 1_000)];
    expect(without - withPrices).toBeGreaterThan(0.1 * (first - without));
  });

  test('nobody waits for a cheaper hour once the plan stands: what waits for nothing is brought forward', () => {
    const idleSlots = (iterations: number): number => {
      const plan = buildPlan(problem, { seed: 7, iterations });
      const steps = [...new Set(plan.assignments.map(({ itemId }) => itemId))].flatMap((id) => explainItem(problem, plan, id).steps);
      return steps.reduce((sum, { waitSlots, waitsFor, because }) => sum + (waitsFor === null && because === null ? waitSlots : 0), 0);
    };
    expect(idleSlots(BEFORE_PRICES + 500)).toBeLessThan(idleSlots(BEFORE_PRICES));
  });

  test('a run that ends before, within or after the look for prices is that of the rounds it reports', () => {
    const clock = countingClock();
    buildPlan(problem, { seed: 7, milliseconds: 1e9, nowMs: clock.nowMs, mostIterations: BEFORE_PRICES + 1 });
    const untilPriced = clock.readings();
    const looks = BEFORE_PRICES / 64;
    const within = looks + 40;
    const [before, broken, whole] = [looks - 1, within, untilPriced + 4].map((readings) => afterReadings(problem, readings));
    for (const plan of [before!, broken!, whole!]) expect(buildPlan(problem, { seed: 7, iterations: plan.iterations })).toEqual(plan);
    expect(before!.iterations).toBeLessThan(BEFORE_PRICES);
    expect(broken!.iterations).toBe(BEFORE_PRICES);
    expect(whole!.iterations).toBeGreaterThan(BEFORE_PRICES);
    // Or the second was not broken off within the look for prices.
    expect(untilPriced).toBeGreaterThan(within + 10);
  });
});
