/** Our own construction: what is checked follows from the promise in `strands.ts`, not from a source. */
import fc from 'fast-check';
import { describe, expect, test } from '@jest/globals';
import { bestPlan, buildPlan, type Objective, type Plan, strandSeed } from '#planning';
import { salvageDay } from './support/day.builder.js';

const seeds = fc.integer({ min: -(2 ** 31), max: 2 ** 31 - 1 });
const plan = (seed: number, objective: Objective): Plan => ({ seed, iterations: 1, assignments: [], unplanned: [], objective });

describe('strandSeed', () => {
  test('the first strand searches with the seed itself', () => {
    fc.assert(fc.property(seeds, (seed) => strandSeed(seed, 0) === seed));
  });

  test('every strand has a 32-bit seed of its own', () => {
    fc.assert(fc.property(seeds, (seed) => {
      const all = Array.from({ length: 64 }, (_, strand) => strandSeed(seed, strand));
      expect(new Set(all).size).toBe(64);
      expect(all.every((one) => Number.isInteger(one) && one >= -(2 ** 31) && one < 2 ** 31)).toBe(true);
    }));
  });
});

describe('bestPlan', () => {
  test('takes the smallest objective as a tuple', () => {
    expect(bestPlan([plan(1, [5, 0, 0, 0]), plan(2, [4, 9, 9, 9]), plan(3, [4, 9, 8, 99]), plan(4, [4, 9, 9, 0])]).seed).toBe(3);
  });

  test('takes the first strand of equals', () => {
    expect(bestPlan([plan(1, [5, 0, 0, 0]), plan(2, [4, 1, 2, 3]), plan(3, [4, 1, 2, 3])]).seed).toBe(2);
  });

  test('refuses to choose from nothing', () => {
    expect(() => bestPlan([])).toThrow(RangeError);
  });

  test('is never worse than one search alone, and names the seed and rounds that make it again', () => {
    const problem = salvageDay(40, 3);
    const plans = [0, 1, 2].map((strand) => buildPlan(problem, { seed: strandSeed(9, strand), iterations: 60 }));
    const best = bestPlan(plans);
    expect(bestPlan([plans[0]!, best])).toBe(plans[0]!.objective.every((part, i) => part === best.objective[i]) ? plans[0]! : best);
    expect(buildPlan(problem, { seed: best.seed, iterations: best.iterations })).toEqual(best);
  });
});
