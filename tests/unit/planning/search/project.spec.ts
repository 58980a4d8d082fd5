import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { compileProject, criticalPath, latestFinishes, type Project, searchProject, SerialScheduler, shortestModes, SlotProfile } from '#planning';
import { makespanOf } from '../../../planning-benchmarks/project.adapter.js';
import { ordersOf, projects } from './support.js';

const seeds = fc.integer({ min: -(2 ** 31), max: 2 ** 31 - 1 });

describe('free slots', () => {
  const demands = fc.array(fc.tuple(fc.nat({ max: 3 }), fc.nat({ max: 3 }), fc.nat({ max: 5 }), fc.nat({ max: 19 }), fc.boolean()), { maxLength: 12 });
  const calendar = fc.array(fc.nat({ max: 4 }), { minLength: 40, maxLength: 40 });

  test('earliest and latest are what trying every start finds, calendars and bookings included', () => {
    fc.assert(fc.property(calendar, demands, (capacity, asks) => {
      const profile = new SlotProfile(2, 20, capacity);
      const free = [...capacity];
      for (const [a, b, duration, limit, early] of asks) {
        const demand = Int32Array.of(a, b);
        const fits = (start: number): boolean => Array.from({ length: duration }, (_, i) => 2 * (start + i)).every((row) => free[row]! >= a && free[row + 1]! >= b);
        const starts = Array.from({ length: 21 }, (_, start) => start).filter((start) => start + duration <= 20 && (early ? start >= limit : start + duration <= limit));
        const wanted = (early ? starts.find(fits) : starts.findLast(fits)) ?? -1;
        const found = early ? profile.earliest(demand, 0, duration, limit) : profile.latest(demand, 0, duration, limit);
        expect(found).toBe(wanted);
        if (found < 0) continue;
        profile.take(demand, 0, found, found + duration);
        for (let row = 2 * found; row < 2 * (found + duration); row += 2) [free[row], free[row + 1]] = [free[row]! - a, free[row + 1]! - b];
      }
    }), { numRuns: 200 });
  });
});

describe('a project', () => {
  test('is planned within precedences, resources and stocks, as long as is said and never shorter than its critical path', () => {
    fc.assert(fc.property(projects(3), seeds, fc.integer({ min: 1, max: 120 }), (project, seed, iterations) => {
      const compiled = compileProject(project);
      const plan = searchProject(compiled, seed, { iterations });
      const modes = Array.from(plan.modes, (mode) => compiled.givenMode[mode]!);
      expect(plan.excess).toBe(0);
      expect(makespanOf(project, [...plan.start], modes)).toBe(plan.makespan);
      expect(plan.makespan).toBeGreaterThanOrEqual(criticalPath(compiled, shortestModes(compiled)));
      expect(plan.rounds).toBeLessThanOrEqual(iterations);
    }), { numRuns: 80 });
  });

  test('is never longer with more schedules, and the same with as many', () => {
    fc.assert(fc.property(projects(3), seeds, fc.integer({ min: 1, max: 80 }), fc.nat({ max: 80 }), (project, seed, few, more) => {
      const compiled = compileProject(project);
      const first = searchProject(compiled, seed, { iterations: few });
      expect(searchProject(compiled, seed, { iterations: few + more }).makespan).toBeLessThanOrEqual(first.makespan);
      expect(searchProject(compiled, seed, { iterations: few })).toEqual(first);
    }), { numRuns: 60 });
  });

  test('is never made longer by justifying to the right and back to the left', () => {
    fc.assert(fc.property(projects(1), (project) => {
      const compiled = compileProject(project);
      const modes = shortestModes(compiled);
      const scheduler = new SerialScheduler(compiled);
      const before = scheduler.forward(latestFinishes(compiled, modes), modes);
      scheduler.backward(scheduler.finish.map((finish) => -finish), modes);
      const after = scheduler.forward(scheduler.start.slice(), modes);
      expect(after).toBeLessThanOrEqual(before);
      expect(makespanOf(project, [...scheduler.start], project.modes.map(() => 0))).toBe(after);
      expect(scheduler.passes).toBe(3);
    }), { numRuns: 150 });
  });

  test('of up to six activities is no longer than the best order of them makes it', () => {
    const small = projects(1).filter(({ modes }) => modes.length <= 6);
    fc.assert(fc.property(small, seeds, (project, seed) => {
      const compiled = compileProject(project);
      const modes = shortestModes(compiled);
      const scheduler = new SerialScheduler(compiled);
      // Serial schedules of all orders hold an optimal one (A. Sprecher, R. Kolisch and A. Drexl, EJOR 80, 1995, from memory).
      const least = Math.min(...[...ordersOf(compiled.count)].map((order) => scheduler.forward(order, modes)));
      expect(searchProject(compiled, seed, { iterations: 400 }).makespan).toBe(least);
    }), { numRuns: 25 });
  });

  test('with a circle, or an activity that fits in no way, is refused', () => {
    const mode = { duration: 1, demand: [1], stock: [] };
    const project: Project = { capacity: [1], stock: [], modes: [[mode], [mode]], successors: [[1], [0]] };
    expect(() => compileProject(project)).toThrow('circle');
    expect(() => compileProject({ ...project, modes: [[mode], [{ ...mode, demand: [2] }]], successors: [[1], []] })).toThrow('Activity 1 has no mode');
  });
});
