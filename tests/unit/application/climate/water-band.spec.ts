/** Between the ends of the band lies the truth of every thing of the class, whatever it weighs dry, however wet it was, however slowly it dries inside. */
import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { BOOK_UPTAKE, dampMoistureX, DEFAULT_CALIBRATION, dryTargetX, moistureAtStageX } from '#climate';
import { dryMoments, forecastRoom, moistures, standItems, startRoom, throughReadings, type DryMoments, type HistoryInput, type HungItem, type RoomState } from '#application';
import { at, inputOf, itemOf, reading, stayOf } from './room.support.js';

const values = DEFAULT_CALIBRATION;
const HOURS = 48;
const CLASSES = { garment: 500, 'double-quilt': 2100, book: 800 } as const;

function through(input: HistoryInput): RoomState {
  return throughReadings(startRoom(input, values)!, input, values).state;
}

/** The room read up to an hour. */
const until = (input: HistoryInput, hour: number): HistoryInput => ({ ...input, readings: input.readings.filter(({ atMs }) => atMs <= at(hour)) });

/** A truth of a class, the air it hangs in, and when it is weighed, if ever. */
const truths = fc.record({
  sizeClass: fc.constantFrom(...(Object.keys(CLASSES) as (keyof typeof CLASSES)[])),
  dryMass: fc.double({ min: 1 - values.bandDryMassError, max: 1 + values.bandDryMassError, noNaN: true }),
  water: fc.double({ min: 1 - values.bandWaterError, max: 1 + values.bandWaterError, noNaN: true }),
  slowness: fc.double({ min: 1, max: values.thickSlowdownMax, noNaN: true }),
  /** Humidity, by every six hours: also so damp that things come to rest above what counts as dry, and grow damp again. */
  rh: fc.array(fc.integer({ min: 20, max: 90 }), { minLength: HOURS / 6, maxLength: HOURS / 6 }),
  weighedH: fc.option(fc.integer({ min: 1, max: 30 }), { nil: null }),
  damp: fc.boolean(),
});
type Truth = typeof truths extends fc.Arbitrary<infer T> ? T : never;

/** The usual water of the thing as it is hung. */
function usualX({ sizeClass, damp }: Truth): number {
  const [material, padded] = [sizeClass === 'book' ? ('paper' as const) : ('cotton' as const), sizeClass === 'double-quilt'];
  if (damp) return dampMoistureX({ material, padded }, values).expectedX;
  return material === 'paper' ? BOOK_UPTAKE['pre-1840'].value : moistureAtStageX({ stage: 'blotted', padded }, values);
}

/** The thing as it is, and the thing as it is reckoned, in the same measured air. */
function bothOf(truth: Truth): { real: HistoryInput; reckoned: HistoryInput; realKg: number } {
  const { sizeClass, dryMass, water, slowness, rh, weighedH, damp } = truth;
  const readings = Array.from({ length: HOURS + 1 }, (_, hour) => reading(hour, rh[Math.min(rh.length - 1, Math.floor(hour / 6))]!));
  const classG = CLASSES[sizeClass];
  const looks: HungItem['looks'] = damp ? [{ wetState: 'damp', atMs: at(-0.2) }] : [];
  const thing = itemOf('a', { sizeClass, dryMassG: classG, materialClass: sizeClass === 'book' ? 'book-bound' : 'textile-everyday', looks });
  const realG = classG * dryMass;
  const factor = values.openRackFactor / (sizeClass === 'garment' ? 1 : slowness);
  const speeds = (['cotton', 'paper'] as const).flatMap((material) => (['thin', 'thick', 'closed'] as const).map((build) => ({ material, build, arrangement: 'rack' as const, factor })));
  const base = inputOf({ readings, stays: [stayOf('a', 0)], machines: [] });
  const real = { ...base, speeds, items: [{ ...thing, dryMassG: realG, left: [{ roomId: 'truth', atMs: at(-0.1), moistureX: usualX(truth) * water, clock: null }] }] };
  const weighings = weighedH === null ? [] : [{ atMs: at(weighedH), resolutionKg: 0.001, massKg: (realG / 1000) * (1 + moistures(through(until(real, weighedH)).course).get('a')!.x) }];
  return { real, reckoned: { ...base, items: [{ ...thing, weighings }] }, realKg: realG / 1000 };
}

describe('the band of a thing', () => {
  test('holds its true water above what counts as dry at every hour, in kilograms and in parts of its dry mass', () => {
    fc.assert(fc.property(truths, fc.integer({ min: 1, max: HOURS }), (truth, hour) => {
      const { real, reckoned, realKg } = bothOf(truth);
      const classKg = CLASSES[truth.sizeClass] / 1000;
      const trueX = moistures(through(until(real, hour)).course).get('a')!.x;
      const band = moistures(through(until(reckoned, hour)).course).get('a')!;
      const targetX = dryTargetX(truth.sizeClass === 'book' ? 'paper' : 'cotton', values);
      expect(Math.max(trueX, targetX)).toBeGreaterThanOrEqual(Math.max(band.fastX, targetX) - 1e-3);
      expect(Math.max(trueX, targetX)).toBeLessThanOrEqual(Math.max(band.slowX, targetX) + 1e-3);
      const leftKg = Math.max(0, realKg * (trueX - targetX));
      expect(leftKg).toBeGreaterThanOrEqual(classKg * Math.max(0, band.leastX - targetX) - 1e-3 * classKg);
      expect(leftKg).toBeLessThanOrEqual(classKg * Math.max(0, band.mostX - targetX) + 1e-3 * classKg);
    }), { numRuns: 40, endOnFailure: true });
  });

  test('holds the moment at which it is truly dry', () => {
    fc.assert(fc.property(truths, (truth) => {
      const { real, reckoned } = bothOf(truth);
      const dryAt = (input: HistoryInput): DryMoments => dryMoments(through(input).course).get('a')!;
      // The scale shows the true water of the true thing, and what grew damp again before it was weighed is to dry anew.
      const truly = through({ ...real, items: [{ ...real.items[0]!, weighings: reckoned.items[0]!.weighings }] }).course.groups.find(({ id }) => id === 'a')!;
      const trueMs = truly.dryAtMs ?? Infinity;
      const { earliestMs, latestMs } = dryAt(reckoned);
      const minute = 60_000;
      // What was dry before it was weighed may be told dry from the weighing on alone.
      const toldMs = truth.weighedH === null ? -Infinity : at(truth.weighedH);
      expect(Math.max(trueMs, toldMs)).toBeGreaterThanOrEqual((earliestMs ?? Infinity) - minute);
      // Air too damp to dry it gives no latest moment at all.
      expect(trueMs).toBeLessThanOrEqual((latestMs ?? Infinity) + minute);
    }), { numRuns: 40, endOnFailure: true });
  });

  test('has no moment of being dry in air too damp to dry the thing, at either end', () => {
    fc.assert(fc.property(truths, fc.integer({ min: 75, max: 98 }), (truth, rh) => {
      const { reckoned } = bothOf({ ...truth, rh: truth.rh.map(() => rh), weighedH: null });
      expect(dryMoments(through(reckoned).course).get('a')).toEqual({ earliestMs: null, latestMs: null });
    }), { numRuns: 20 });
  });

  test('is wider than the class alone when nobody weighed it, and a weighing narrows it', () => {
    const readings = Array.from({ length: 5 }, (_, hour) => reading(hour, 50));
    const width = (weighings: HungItem['weighings']) => {
      const { mostX, leastX } = moistures(through(inputOf({ readings, items: [itemOf('a', { weighings })], stays: [stayOf('a', 0)] })).course).get('a')!;
      return mostX - leastX;
    };
    expect(width([])).toBeGreaterThan(0.3);
    expect(width([{ atMs: at(4), massKg: 0.8, resolutionKg: 0.001 }])).toBeCloseTo(2 * 0.15 * (1 + dryTargetX('cotton', values)), 6);
  });

  test('is told of the thing: the least and the most that is left, and moments that count the error of the speed besides', () => {
    const item = itemOf('a');
    const state = through(inputOf({ readings: [reading(0, 50), reading(1, 50)], items: [item], stays: [stayOf('a', 0)] }));
    const forecast = forecastRoom(state, { humidityCapPct: 75, weather: [] }, values);
    const [standing] = standItems(state, forecast, new Map([['a', item]]), { speeds: [], weighed: new Map() }, values);
    expect(standing!.fastWaterKg!).toBeLessThan(standing!.waterKg);
    expect(standing!.slowWaterKg).toBeGreaterThan(standing!.waterKg);
    expect(standing!.fastMoistureX!).toBeLessThan(standing!.moistureX);
    const took = standing!.dryExpectedMs! - at(0);
    expect((standing!.dryLatestMs! - at(0)) / took).toBeGreaterThan(1.3 / (1 - values.thinErrorFraction));
    expect((standing!.dryEarliestMs! - at(0)) / took).toBeLessThan(0.8 * (1 - values.thinErrorFraction));
  });

  test('of what was found damp begins lower and reaches up to what is blotted, and a rinse since ends that', () => {
    const waterOf = (change: Partial<HungItem>) => moistures(startRoom(inputOf({ readings: [reading(0, 50)], items: [itemOf('a', change)], stays: [stayOf('a', 0)] }), values)!.course).get('a')!;
    const looks: HungItem['looks'] = [{ wetState: 'wet', atMs: at(-3) }, { wetState: 'damp', atMs: at(-2) }];
    expect(waterOf({ looks, wetSteps: [] })).toMatchObject({ x: 0.75 * values.blottedX, slowX: values.blottedX });
    expect(waterOf({ looks }).x).toBe(values.blottedX);
    expect(waterOf({ looks: [...looks, { wetState: 'wet', atMs: at(-1.5) }], wetSteps: [] }).x).toBe(values.drainedX);
    expect(waterOf({ looks, wetSteps: [], materialClass: 'paper-uncoated' }).x).toBeCloseTo(0.75 * 0.8, 9);
    // Found damp after it hung changes nothing of how it was hung.
    expect(waterOf({ looks: [{ wetState: 'damp', atMs: at(1) }], wetSteps: [] }).x).toBe(values.drainedX);
  });
});
