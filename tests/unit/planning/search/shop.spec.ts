import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { compileShop, searchShop, type Shop } from '#planning';
import { shopValueOf } from '../../../planning-benchmarks/shop.adapter.js';
import { crowdedShop, leastShopValue, shops } from './support.shop.js';

const seeds = fc.integer({ min: -(2 ** 31), max: 2 ** 31 - 1 });

describe('a plan of a shop', () => {
  test('keeps releases, sequences and machines, one operation at a time, and is worth what is said, never below the bound', () => {
    fc.assert(fc.property(shops(5, 4), seeds, fc.nat({ max: 400 }), (shop, seed, iterations) => {
      const compiled = compileShop(shop);
      const plan = searchShop(compiled, seed, { iterations });
      expect(shopValueOf(shop, [...plan.start], [...plan.machine])).toBe(plan.value);
      expect(plan.value).toBeGreaterThanOrEqual(compiled.bound);
      expect(plan.rounds).toBeLessThanOrEqual(iterations);
    }), { numRuns: 200 });
  });

  test('is never worse with more steps, and the same with as many', () => {
    fc.assert(fc.property(shops(5, 4), seeds, fc.nat({ max: 200 }), fc.nat({ max: 1_500 }), (shop, seed, few, more) => {
      const compiled = compileShop(shop);
      const first = searchShop(compiled, seed, { iterations: few });
      expect(searchShop(compiled, seed, { iterations: few + more }).value).toBeLessThanOrEqual(first.value);
      expect(searchShop(compiled, seed, { iterations: few })).toEqual(first);
    }), { numRuns: 60 });
  });

  // In these three, a plan met under bent weights once counted although a longer search went past it.
  test.each([2, 4, 11])('is never worse at a later end, in the middle of a search under other weights too (shop %d)', (seed) => {
    const compiled = compileShop(crowdedShop(seed));
    const values = Array.from({ length: 10 }, (_, i) => searchShop(compiled, seed, { iterations: 50 * i }).value);
    expect(values).toEqual(values.toSorted((a, b) => b - a));
  });

  test('by a clock is the plan of as many steps', () => {
    fc.assert(fc.property(shops(4, 3), seeds, (shop, seed) => {
      let now = 0;
      const compiled = compileShop(shop);
      const timed = searchShop(compiled, seed, { milliseconds: 5, nowMs: () => { now += 1; return now; } });
      expect(searchShop(compiled, seed, { iterations: timed.rounds })).toEqual(timed);
    }), { numRuns: 30 });
  });

  test('of up to seven operations is worth no more than the best of all plans', () => {
    fc.assert(fc.property(shops(3, 3, 7), seeds, (shop, seed) => {
      expect(searchShop(compileShop(shop), seed, { iterations: 3_000 }).value).toBe(leastShopValue(shop));
    }), { numRuns: 60 });
  });

  test('ends at a value that is enough', () => {
    const { value, rounds } = searchShop(compileShop(worked), 1, { iterations: 5_000 }, 1_000);
    expect({ rounds, below: value <= 1_000 }).toEqual({ rounds: 0, below: true });
  });
});

/** Made up and typed by hand: three jobs on two machines; the last operation of the second can go to either. */
const on = (machine: number, duration: number) => ({ machine, duration });
const worked: Shop = {
  machines: 2, objective: 'weightedTardiness',
  jobs: [
    { release: 0, due: 7, weight: 3, operations: [[on(0, 3)], [on(1, 4)]] },
    { release: 1, due: 6, weight: 2, operations: [[on(0, 2)], [on(1, 3), on(0, 4)]] },
    { release: 0, due: 5, weight: 1, operations: [[on(1, 2)], [on(0, 3)]] },
  ],
};

describe('the shop worked by hand', () => {
  // Costs are weight times slots late. Job 0 first everywhere: 0-3 on machine 0, 3-7 on machine 1, in time. Then job 1 on
  // machine 0, 3-5 and at once on 5-9 (costs 6), and job 2 on machine 1, 0-2, then on machine 0, 9-12 (costs 7): 13 in all.
  // Better, job 2 goes between: machine 0, 5-8 (costs 3), and job 1 ends on machine 1, 7-10 (costs 8): 11 in all.
  // Job 1 first on machine 0, 1-3, ends in time, 3-6 on machine 1, but job 0 then at 10 (costs 9) and job 2 at 9 (costs 4): 13.
  // The look at all plans says that none costs less than 11.
  test('has the optimum 11 by a look at all plans, and the search finds it', () => {
    expect(leastShopValue(worked)).toBe(11);
    const plan = searchShop(compileShop(worked), 7, { iterations: 500 });
    expect(plan.value).toBe(11);
    expect(shopValueOf(worked, [...plan.start], [...plan.machine])).toBe(11);
  });

  test('takes 10 slots when only its end counts', () => {
    const shop: Shop = { ...worked, objective: 'makespan' };
    expect(leastShopValue(shop)).toBe(10);
    expect(searchShop(compileShop(shop), 7, { iterations: 500 }).value).toBe(10);
  });

  test('without jobs is an empty plan worth 0', () => {
    expect(searchShop(compileShop({ ...worked, jobs: [] }), 1, { iterations: 10 })).toMatchObject({ value: 0, rounds: 0 });
  });

  test.each([
    ['a job without operations', { ...worked.jobs[0]!, operations: [] }, 'Job 0 has no operations'],
    ['an operation without a machine', { ...worked.jobs[0]!, operations: [[]] }, 'Operation 0 of job 0 has no machine'],
    ['a machine twice', { ...worked.jobs[0]!, operations: [[on(0, 1), on(0, 2)]] }, 'a machine twice'],
    ['a machine that is not there', { ...worked.jobs[0]!, operations: [[on(2, 1)]] }, 'out of range'],
    ['a negative duration', { ...worked.jobs[0]!, operations: [[on(0, -1)]] }, 'out of range'],
    ['a half weight', { ...worked.jobs[0]!, weight: 0.5 }, 'no whole number'],
    ['too much work', { ...worked.jobs[0]!, operations: [[on(0, 2 ** 27)], [on(0, 2 ** 27)]] }, 'slots or more'],
  ])('with %s is refused', (_, job, fault) => {
    expect(() => compileShop({ ...worked, jobs: [job] })).toThrow(fault);
  });
});

describe('the check of a shop plan', () => {
  // The optimum of the shop worked by hand: operations job by job.
  const start = [0, 3, 3, 7, 0, 5];
  const machine = [0, 1, 0, 1, 1, 0];

  test('answers the value of a plan that holds', () => {
    expect(shopValueOf(worked, start, machine)).toBe(11);
  });

  test.each([
    ['a release', [3, 6, 0, 10, 0, 6], machine, 'before it may'],
    ['a sequence', [0, 3, 3, 7, 4, 5], machine, 'before it may'],
    ['a machine that is held', [0, 3, 3, 6, 0, 5], machine, 'Machine 1 holds two'],
    ['a choice of machine', start, [1, 1, 0, 1, 1, 0], 'cannot go to'],
    ['an operation too many', [...start, 20], machine, 'every operation once'],
  ])('finds %s that is broken', (_, from, on_, fault) => {
    expect(() => shopValueOf(worked, from, on_)).toThrow(fault);
  });
});
