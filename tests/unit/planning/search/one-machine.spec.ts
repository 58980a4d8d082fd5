import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { type OneMachineJobs, searchOnTime, searchTardiness, weightedTardiness } from '#planning';
import { machineJobs, ordersOf } from './support.js';

const seeds = fc.integer({ min: -(2 ** 31), max: 2 ** 31 - 1 });

/** Tardiness by its definition, apart from the library's own sum. */
function tardiness({ duration, weight, due }: OneMachineJobs, order: readonly number[]): number {
  return order.reduce((sum, job, at) => sum + weight[job]! * Math.max(0, order.slice(0, at + 1).reduce((end, one) => end + duration[one]!, 0) - due[job]!), 0);
}

/** Weight late of an order in which a job that would be late is left out: the best order gives the least possible. */
function lateWeight({ release, duration, weight, due }: OneMachineJobs, order: readonly number[]): number {
  let [now, late] = [0, 0];
  for (const job of order) {
    const end = Math.max(now, release[job]!) + duration[job]!;
    if (end > due[job]!) late += weight[job]!;
    else now = end;
  }
  return late;
}

describe('weighted tardiness on one machine', () => {
  test('the order holds every job once and is worth what is said', () => {
    fc.assert(fc.property(machineJobs(false, 30), seeds, fc.nat({ max: 40 }), (jobs, seed, iterations) => {
      const { order, value } = searchTardiness(jobs, seed, { iterations });
      expect([...order].sort((a, b) => a - b)).toEqual([...jobs.duration.keys()]);
      expect(value).toBe(tardiness(jobs, [...order]));
      expect(weightedTardiness(jobs, order)).toBe(value);
    }), { numRuns: 60 });
  });

  test('up to six jobs it is the least of all orders', () => {
    fc.assert(fc.property(machineJobs(false, 6), seeds, (jobs, seed) => {
      const least = Math.min(...[...ordersOf(jobs.duration.length)].map((order) => tardiness(jobs, order)));
      expect(searchTardiness(jobs, seed, { iterations: 200 }).value).toBe(least);
    }), { numRuns: 40 });
  });

  test('more rounds are never worse, and equal rounds are equal', () => {
    fc.assert(fc.property(machineJobs(false, 30), seeds, fc.nat({ max: 30 }), fc.nat({ max: 30 }), (jobs, seed, few, more) => {
      const first = searchTardiness(jobs, seed, { iterations: few });
      expect(searchTardiness(jobs, seed, { iterations: few + more }).value).toBeLessThanOrEqual(first.value);
      expect(searchTardiness(jobs, seed, { iterations: few })).toEqual(first);
    }), { numRuns: 60 });
  });

  test('a run by the clock is the run of the rounds it reports', () => {
    fc.assert(fc.property(machineJobs(false, 30), seeds, fc.integer({ min: 1, max: 4 }), (jobs, seed, milliseconds) => {
      let now = 0;
      const timed = searchTardiness(jobs, seed, { milliseconds, nowMs: () => (now += 1) });
      expect(searchTardiness(jobs, seed, { iterations: timed.rounds })).toEqual(timed);
    }), { numRuns: 30 });
  });
});

describe('jobs in time on one machine, with and without releases', () => {
  test('those accepted are in time in their order, the others are the weight late', () => {
    fc.assert(fc.property(machineJobs(true, 30), seeds, fc.nat({ max: 60 }), (jobs, seed, iterations) => {
      const { accepted, lateWeight: late } = searchOnTime(jobs, seed, { iterations });
      let now = 0;
      for (const job of accepted) {
        now = Math.max(now, jobs.release[job]!) + jobs.duration[job]!;
        expect(now).toBeLessThanOrEqual(jobs.due[job]!);
      }
      const inTime = new Set(accepted);
      expect(inTime.size).toBe(accepted.length);
      expect(late).toBe(jobs.weight.reduce((sum, weight, job) => sum + (inTime.has(job) ? 0 : weight), 0));
    }), { numRuns: 60 });
  });

  test.each([['without', false], ['with', true]] as const)('up to six jobs %s releases it is the least of all orders', (_, withRelease) => {
    fc.assert(fc.property(machineJobs(withRelease, 6), seeds, (jobs, seed) => {
      const least = Math.min(...[...ordersOf(jobs.duration.length)].map((order) => lateWeight(jobs, order)));
      expect(searchOnTime(jobs, seed, { iterations: 3_000 }).lateWeight).toBe(least);
    }), { numRuns: 25 });
  });

  test('more rounds are never worse, and equal rounds are equal', () => {
    fc.assert(fc.property(machineJobs(true, 30), seeds, fc.nat({ max: 60 }), fc.nat({ max: 60 }), (jobs, seed, few, more) => {
      const first = searchOnTime(jobs, seed, { iterations: few });
      expect(searchOnTime(jobs, seed, { iterations: few + more }).lateWeight).toBeLessThanOrEqual(first.lateWeight);
      expect(searchOnTime(jobs, seed, { iterations: few })).toEqual(first);
    }), { numRuns: 60 });
  });
});
