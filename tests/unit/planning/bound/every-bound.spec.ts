import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { buildPlan, savedWeightBound, type PlanProblem } from '#planning';
import { salvageDay } from '../support/day.builder.js';
import { randomProblem } from '../support/random-problem.arbitrary.js';

const urgentWeight = (problem: PlanProblem): number => problem.items.reduce((sum, { weight, stabilised }) => sum + (stabilised ? 0 : weight), 0);
const savedBy = (problem: PlanProblem): number => urgentWeight(problem) - buildPlan(problem, { seed: 1, iterations: 40 }).objective[0];

/** A day with hands and stations for a third of it, and as little room to dry and freeze. */
function overloaded(items: number): PlanProblem {
  const day = salvageDay(items, 3);
  const share = (amount: number): number => Math.round((amount * items) / 9_000);
  return {
    ...day, people: day.people.slice(0, Math.max(5, share(60))), stations: day.stations.map((station) => ({ ...station, capacity: Math.max(1, share(station.capacity)) })),
    places: day.places.map((place) => ({ ...place, areaDm2: share(place.areaDm2) })), freezers: day.freezers.map((freezer) => ({ ...freezer, volumeCl: share(freezer.volumeCl) })),
    rooms: day.rooms.map((room) => ({ ...room, removalGPerSlot: room.removalGPerSlot.map((entry) => ({ ...entry, limit: share(entry.limit) })) })),
  };
}

describe('every bound', () => {
  test('is at least what a plan saves, and no more than there is', () => {
    let tight = 0;
    fc.assert(fc.property(randomProblem(14), (problem) => {
      const { weight, lateWeight } = savedWeightBound(problem, { effort: 0.3 });
      const saved = savedBy(problem);
      expect(weight).toBeGreaterThanOrEqual(saved);
      expect(weight + lateWeight).toBe(urgentWeight(problem));
      expect(lateWeight).toBeGreaterThanOrEqual(0);
      if (weight === saved && lateWeight > 0) tight += 1;
    }), { numRuns: 200 });
    expect(tight).toBeGreaterThan(60);
  });

  test('holds at whatever prices', () => {
    const price = fc.oneof(fc.constant(0), fc.integer({ min: 0, max: 64 }), fc.double({ min: 0, max: 1e9, noNaN: true }));
    fc.assert(fc.property(randomProblem(10), fc.infiniteStream(price), fc.integer({ min: 1, max: 60 }), (problem, stream, blockSlots) => {
      const names = Object.keys(savedWeightBound(problem, { effort: 0.01 }).prices?.ofPool ?? {});
      const ofPool = Object.fromEntries(names.map((name) => [name, [...stream.take(48)]]));
      expect(savedWeightBound(problem, { effort: 0, prices: [{ blockSlots, scale: 16, ofPool }] }).weight).toBeGreaterThanOrEqual(savedBy(problem));
    }), { numRuns: 100 });
  });

  test('is the same for the same problem, whatever the order of its lists, and for late plans', () => {
    fc.assert(fc.property(randomProblem(12), (problem) => {
      const turned = { ...problem, items: [...problem.items].reverse(), stations: [...problem.stations].reverse(), people: [...problem.people].reverse(), places: [...problem.places].reverse(), freezers: [...problem.freezers].reverse(), late: 'plan' as const };
      const { weight, parts } = savedWeightBound(problem, { effort: 0.1 });
      expect(savedWeightBound(turned, { effort: 0.1 })).toMatchObject({ weight, parts });
    }), { numRuns: 50 });
  });

  test('leaves its input untouched', () => {
    const problem = overloaded(40);
    const before = structuredClone(problem);
    savedWeightBound(problem);
    expect(problem).toEqual(before);
  });

  test('is by prices far below that of any one resource where several are scarce', () => {
    const { weight, name, parts } = savedWeightBound(overloaded(300));
    expect(name).toBe('prices');
    expect(weight).toBeLessThan(0.85 * parts[1]!.weight);
  });

  test('gets no higher from more effort in all: the prices of the shorter search may be handed over', () => {
    const problem = overloaded(100);
    const short = savedWeightBound(problem, { effort: 0.25 });
    expect(savedWeightBound(problem, { prices: [short.prices!] }).weight).toBeLessThanOrEqual(short.weight);
  });

  test('is found for the longest horizon there may be, with a few items in it, in bounded time', () => {
    const day = overloaded(3);
    const horizonSlots = 100_000;
    const long = { ...day, horizonSlots, freezers: day.freezers.map((freezer) => ({ ...freezer, open: [{ from: 0, to: horizonSlots }] })) };
    expect(savedWeightBound(long).weight).toBeGreaterThanOrEqual(savedBy(day));
  });
});
