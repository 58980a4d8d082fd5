/** What a drying room reckons of a hanging thing is what the plan holds its place and its share of the air by. */
import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { buildProblem, dryingLoad, type InputItem, type ReckonedDrying, SlotGrid } from '#application';
import { dryingLaw, dryingTimeH, dryTargetX, moistureAfter } from '#climate';
import type { FallingLoad } from '#planning';
import { HOUR, input, item, SEVEN } from './support/small-input.js';

const law = dryingLaw({ airTempC: 20, relativeHumidityPct: 60, dryMassKg: 0.5, exposedAreaM2: 1.2, material: 'cotton', airReach: 'open-rack' });
const targetX = dryTargetX('cotton');
const grid = new SlotGrid(SEVEN, 15, 480);

/** Half wet at seven, expected dry at `hours`, at the latest half as long again. */
function reckoned(change: Partial<ReckonedDrying> = {}): ReckonedDrying {
  return { asOfMs: SEVEN, moistureX: 0.5, targetX, knownAtMs: SEVEN - 4 * HOUR, build: 'thin', dry: false, modelDryMs: SEVEN + 4 * HOUR, dryLatestMs: SEVEN + 6 * HOUR, law, ...change };
}

function hanging(change: Partial<ReckonedDrying> | null, of: Partial<InputItem> = {}) {
  const thing = item({ stage: 'drying', keeper: { kind: 'drying-place', id: 'rack' }, nextStep: 'dry', stabilisedAtMs: SEVEN - 4 * HOUR, keeperSinceMs: SEVEN - 4 * HOUR, doneSteps: ['assess', 'rinse', 'blot'], reckoned: change && reckoned(change), ...of });
  return buildProblem(input({ items: [thing] }), { nowMs: SEVEN }).problem.fixed[0]!;
}

/** Grams given off over the slots of a use. */
function givenOff({ loadGPerSlot, falling = [] }: { loadGPerSlot: number; falling?: FallingLoad[] }, slots: number): number {
  let sum = 0;
  for (let slot = 0; slot < slots; slot += 1) sum += falling.findLast(({ fromSlot }) => fromSlot <= slot)?.loadGPerSlot ?? loadGPerSlot;
  return sum;
}

describe('the place of a hanging thing', () => {
  test('is held until the late end of its band, when the service calls it dry', () => {
    expect(hanging({}).interval).toEqual({ from: 0, to: 24 });
    expect(hanging({ dryLatestMs: SEVEN + 20 * HOUR }).interval).toEqual({ from: 0, to: 80 });
  });

  test('is held to the end where that is not foreseen', () => {
    expect(hanging({ modelDryMs: null, dryLatestMs: null }).interval).toEqual({ from: 0, to: 480 });
  });

  test('is free at once when the thing is called dry, and the air is asked for nothing', () => {
    expect(hanging({ dry: true, dryLatestMs: SEVEN + 20 * HOUR })).toMatchObject({ loadGPerSlot: 0, interval: { from: 0, to: 1 } });
  });

  test('of a thick thing counts by the figure for plans, and by the late end once that has passed', () => {
    // Known four hours ago, thin goods would be dry in four: twice the eight hours from then on.
    expect(hanging({ build: 'thick', dryLatestMs: SEVEN + 28 * HOUR }).interval.to).toBe(12 * 4);
    expect(hanging({ build: 'thick', modelDryMs: SEVEN - 2 * HOUR, dryLatestMs: SEVEN + 4 * HOUR }).interval.to).toBe(4 * 4);
  });

  test('does not depend on how long it has hung when its room has reckoned it', () => {
    const late = hanging({}, { keeperSinceMs: SEVEN - 30 * HOUR });
    expect(late).toEqual(hanging({}));
    expect(hanging(null, { keeperSinceMs: SEVEN - 30 * HOUR }).interval).toEqual({ from: 0, to: 1 });
  });
});

describe('its load on the air', () => {
  test('is its water and no more than a gram a slot beyond, first at constant rate and then falling to nothing', () => {
    const use = hanging({});
    const waterG = 500 * (0.5 - targetX);
    expect(givenOff(use, 24)).toBeGreaterThanOrEqual(waterG - 1e-6);
    expect(givenOff(use, 24)).toBeLessThanOrEqual(waterG + 24);
    const loads = [use.loadGPerSlot, ...(use.falling ?? []).map(({ loadGPerSlot }) => loadGPerSlot)];
    expect(loads.length).toBe(3);
    expect(loads).toEqual([...loads].sort((a, b) => b - a));
    expect(loads.at(-1)).toBe(0);
    expect(use.falling!.at(-1)!.fromSlot).toBe(16);
  });

  test('is less the drier it is', () => {
    expect(hanging({ moistureX: 0.3 }).loadGPerSlot).toBeLessThan(hanging({ moistureX: 0.9 }).loadGPerSlot);
    expect(hanging({ moistureX: targetX, modelDryMs: SEVEN - HOUR }).loadGPerSlot).toBe(0);
  });

  test('counts what has dried since the reckoning', () => {
    const older = hanging({ asOfMs: SEVEN - 2 * HOUR, moistureX: 0.5 });
    const now = hanging({ moistureX: moistureAfter(law, 0.5, 2) });
    expect(older).toEqual(now);
  });
});

describe('the load of any drying', () => {
  const paths = fc.record({
    startX: fc.double({ min: 0, max: 3, noNaN: true }), dryMassG: fc.integer({ min: 1, max: 50_000 }), hours: fc.option(fc.double({ min: 0.1, max: 100, noNaN: true }), { nil: null }),
    relativeHumidityPct: fc.double({ min: 5, max: 98, noNaN: true }), areaM2: fc.double({ min: 0.05, max: 8, noNaN: true }),
  });

  test('never rises, and holds all the water that leaves within the time, to a gram a slot', () => {
    fc.assert(fc.property(paths, ({ startX, dryMassG, hours, relativeHumidityPct, areaM2 }) => {
      const any = dryingLaw({ airTempC: 20, relativeHumidityPct, dryMassKg: dryMassG / 1000, exposedAreaM2: areaM2, material: 'cotton', airReach: 'open-rack' });
      const load = dryingLoad({ law: any, startX, targetX, dryMassG }, hours, grid);
      const steps = [{ fromSlot: 0, loadGPerSlot: load.loadGPerSlot }, ...(load.falling ?? [])];
      for (const [index, step] of steps.entries()) {
        expect(Number.isInteger(step.loadGPerSlot) && step.loadGPerSlot >= 0).toBe(true);
        if (index > 0) expect(step.fromSlot).toBeGreaterThan(steps[index - 1]!.fromSlot);
        if (index > 0) expect(step.loadGPerSlot).toBeLessThan(steps[index - 1]!.loadGPerSlot);
      }
      const slots = hours === null ? 480 : Math.ceil(hours * 4 - 1e-9);
      const endX = hours === null ? Math.max(Math.min(startX, targetX), moistureAfter(any, startX, 120)) : Math.min(startX, targetX);
      const waterG = Math.max(0, dryMassG * (startX - endX));
      expect(Math.abs(givenOff(load, 480) - waterG)).toBeLessThanOrEqual(slots + 1);
    }));
  });

  test('of a new thing holds its water in the hours that are planned for it', () => {
    const { items } = buildProblem(input(), { nowMs: SEVEN }).problem;
    const dry = items[0]!.options[0]!.steps.at(-1)!;
    const hours = dryingTimeH(law, 0.8, targetX)!;
    expect(hours).toBeGreaterThan(1);
    expect(dry.drying!.falling).toHaveLength(1);
    expect(givenOff(dry.drying!, dry.durationSlots)).toBeGreaterThanOrEqual(500 * (0.8 - targetX));
    expect(givenOff(dry.drying!, dry.durationSlots)).toBeLessThanOrEqual(500 * (0.8 - targetX) + dry.durationSlots);
  });
});
