/** Bounds small enough to check by hand. One hall, one of everything, 40 slots of half an hour (`small.builder`). */
import { describe, expect, test } from '@jest/globals';
import { type PlanItem, type PlanOption, savedWeightBound, type SavedWeightBound } from '#planning';
import { step } from '../support/day.builder.js';
import { item, SLOTS, smallProblem } from '../support/small.builder.js';

/** Only rinsed (2 slots, one of one tub, one rinser), stabilised at the end. */
const rinse = (overrides: Parameters<typeof step>[1] = {}): PlanOption => ({
  disposition: 'hold-wet', steps: [step('rinse', { zone: 'dirty', durationSlots: 2, skill: 'rinsing', barredRestrictions: ['no-wet-work'], stabilises: 'end', ...overrides })],
});
const rinsed = (id: string, weight: number, overrides: Partial<PlanItem> = {}): PlanItem => item(id, { weight, deadlineSlot: 4, options: [rinse()], ...overrides });
const part = (bound: SavedWeightBound, name: string): number | undefined => bound.parts.find((one) => one.name === name)?.weight;

describe('the bound, by hand', () => {
  test('an incident without items has nothing to save', () => {
    expect(savedWeightBound(smallProblem([]))).toMatchObject({ weight: 0, lateWeight: 0 });
  });

  test('an item that is late even alone is out, and so is one that no route stabilises', () => {
    const released: PlanOption = { disposition: 'release', steps: [step('pack', { crew: 0 })] };
    const bound = savedWeightBound(smallProblem([rinsed('fits', 7), rinsed('late', 5, { deadlineSlot: 1 }), rinsed('gone', 3, { options: [released] })]));
    expect(bound).toMatchObject({ weight: 7, lateWeight: 8 });
    expect(part(bound, 'alone')).toBe(7);
  });

  test('what is stabilised already counts for nothing', () => {
    expect(savedWeightBound(smallProblem([rinsed('wet', 7), rinsed('safe', 50, { stabilised: true })]))).toMatchObject({ weight: 7, lateWeight: 0 });
  });

  test('one tub rinses two of three things by slot 4: the two that weigh most', () => {
    const bound = savedWeightBound(smallProblem([rinsed('a', 5), rinsed('b', 4), rinsed('c', 3)]));
    expect(bound.weight).toBe(9);
    expect(bound.parts).toContainEqual({ name: 'one-resource', weight: 9, resource: expect.stringMatching(/^(stations for hall dirty rinse|people hall)/) });
  });

  test('a share of a thing is rounded down: by slot 5 two and a half of three of weight 5 would fit', () => {
    const bound = savedWeightBound(smallProblem(['a', 'b', 'c'].map((id) => rinsed(id, 5, { deadlineSlot: 5 }))));
    expect(part(bound, 'one-resource')).toBe(12);
  });

  test('prices see what no sum up to a slot shows: hands that were idle before the things came', () => {
    const bound = savedWeightBound(smallProblem(['a', 'b', 'c'].map((id) => rinsed(id, 5, { releaseSlot: 10, deadlineSlot: 14 }))));
    expect(part(bound, 'one-resource')).toBe(15);
    expect(bound).toMatchObject({ weight: 10, name: 'prices' });
  });

  test('a closed station gives nothing: neither where it never opens nor where it is shut in the middle', () => {
    const shut = (open: { from: number; to: number }[]) => {
      const problem = smallProblem([rinsed('a', 5, { deadlineSlot: 6 })]);
      return savedWeightBound({ ...problem, stations: problem.stations.map((station) => ({ ...station, open })) }).weight;
    };
    expect([shut([]), shut([{ from: 0, to: 1 }, { from: 2, to: 3 }]), shut([{ from: 0, to: 1 }, { from: 3, to: 5 }])]).toEqual([0, 0, 5]);
  });

  test('what has begun keeps its resources', () => {
    const fixed = [{ itemId: 'begun', step: 'rinse' as const, stationId: 'tub', personIds: ['ada'], dryingPlaceId: null, areaDm2: 0, loadGPerSlot: 0, freezerId: null, volumeCl: 0, interval: { from: 0, to: 2 } }];
    expect(savedWeightBound(smallProblem([rinsed('a', 5), rinsed('b', 4)], { fixed })).weight).toBe(5);
  });

  test('four things in baths of two take two baths', () => {
    const bath = (id: string, weight: number): PlanItem => rinsed(id, weight, { options: [rinse({ batch: { group: 'white', units: 1, mostUnits: 2 } })] });
    expect(savedWeightBound(smallProblem([bath('a', 5), bath('b', 5), bath('c', 5), bath('d', 5), bath('e', 4)])).weight).toBe(20);
  });

  test('a pinned thing is in time as it is pinned or not at all', () => {
    const pin = (startSlot: number) => [{ itemId: 'a', option: 0, position: 0, step: 'rinse' as const, disposition: 'hold-wet' as const, batchId: null, stationId: 'tub', personIds: ['ada'], dryingPlaceId: null, freezerId: null, startSlot, endSlot: startSlot + 2 }];
    expect([2, 3].map((slot) => savedWeightBound(smallProblem([rinsed('a', 5, { pinned: pin(slot) })])).weight)).toEqual([5, 0]);
  });
});

describe('the bound with freezing, by hand', () => {
  const wrap = step('freeze', { zone: 'cold', freezer: { volumeCl: 30 } });
  const frozenThenRinsed: PlanOption = { disposition: 'treat', steps: [wrap, step('thaw', { noStation: true, crew: 0 }), ...rinse().steps] };
  const frozen = (id: string, weight: number): PlanItem => item(id, { weight, deadlineSlot: 4, options: [rinse(), frozenThenRinsed] });

  test('the clock stands still in the freezer, so the third thing may still be saved', () => {
    expect(savedWeightBound(smallProblem([rinsed('a', 5), rinsed('b', 4), frozen('c', 3)])).weight).toBe(12);
    const without = smallProblem([rinsed('a', 5), rinsed('b', 4), frozen('c', 3)], { freezers: [] });
    expect(savedWeightBound(without).weight).toBe(9);
  });

  test('a freezer holds what it holds: with room for one until the end only one of three is saved that way', () => {
    const hold: PlanOption = { disposition: 'hold-frozen', steps: [{ ...wrap, stabilises: 'end' }] };
    const problem = smallProblem(['a', 'b', 'c'].map((id) => item(id, { weight: 5, options: [hold] })));
    expect(savedWeightBound(problem).weight).toBe(8);
    expect(savedWeightBound({ ...problem, freezers: [{ ...problem.freezers[0]!, volumeCl: 30 }] }).weight).toBe(5);
  });

  test('a freezer that leaves before the horizon holds nothing to the end, but may hold something until it is thawed', () => {
    const problem = smallProblem([rinsed('a', 5), rinsed('b', 4), frozen('c', 3)]);
    const leaves = (to: number) => savedWeightBound({ ...problem, freezers: [{ ...problem.freezers[0]!, open: [{ from: 0, to }] }] }).weight;
    expect([leaves(1), leaves(SLOTS - 1)]).toEqual([9, 12]);
  });
});
