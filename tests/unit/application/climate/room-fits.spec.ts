/** Factors of a room fitted from what was weighed on its places, and what is reckoned with them. */
import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { calibrate, DEFAULT_CALIBRATION } from '#climate';
import { basisOf, DEFAULT_ALARM_VALUES, fitRoom, forecastRoom, fromLastReading, moistures, MOST_WEIGHINGS, NO_READINGS, speedsOf, startRoom, throughReadings, type FittedSpeed, type HistoryInput, type HungItem, type RoomState } from '#application';
import { at, inputOf, itemOf, reading, stayOf } from './room.support.js';

const values = DEFAULT_CALIBRATION;
const NOW = at(12);
const half = (hours: number): number[] => Array.from({ length: 2 * hours + 1 }, (_, i) => i / 2);
const air = half(12).map((hour) => reading(hour, 55));
/** Soaked, so that it stays clearly wet for hours. */
const soaked = (id: string, change: Partial<HungItem> = {}): HungItem => itemOf(id, { wetSteps: [], left: [{ roomId: 'other', atMs: at(-1), moistureX: 1.8, clock: null }], ...change });

function stateAt(input: HistoryInput, hour: number, numbers = values): RoomState {
  const upTo = { ...input, readings: input.readings.filter(({ atMs }) => atMs <= at(hour)) };
  const state = throughReadings(startRoom(upTo, numbers)!, upTo, numbers).state;
  return fromLastReading(state, at(hour), { ...upTo, readings: [] }, numbers).state;
}

/** What a scale of 5 g would show of a thing that dries by a factor, at hours. */
function weighedAt(item: HungItem, factor: number, hours: readonly number[], fromH = 0.5): HungItem {
  const speed = { material: 'cotton', build: 'thin', arrangement: 'rack', factor } as const;
  const input = inputOf({ readings: air, stays: [stayOf(item.id, fromH)], items: [item], speeds: [speed] });
  const weighings = hours.map((hour) => ({ atMs: at(hour), resolutionKg: 0.005, massKg: Math.round(0.5 * (1 + moistures(stateAt(input, hour).course).get(item.id)!.x) / 0.005) * 0.005 }));
  return { ...item, weighings };
}

const fits = (items: HungItem[], stays = items.map(({ id }) => stayOf(id, 0.5))) => fitRoom({ items, stays }, air, NOW, values);

describe('a fit of a room', () => {
  test('finds the factor by which the reckoning dries things, whatever it is', () => {
    fc.assert(fc.property(fc.double({ min: 0.25, max: 1.1, noNaN: true }), fc.double({ min: 1, max: 3, noNaN: true }), (factor, gapH) => {
      const { fits: [found] } = fits([weighedAt(soaked('a'), factor, [1, 1 + gapH]), weighedAt(soaked('b'), factor, [1.5, 1.5 + gapH])]);
      expect(found).toMatchObject({ material: 'cotton', build: 'thin', arrangement: 'rack', fit: { informative: true } });
      expect(found!.fit.interval95.low).toBeLessThan(factor);
      expect(found!.fit.interval95.high).toBeGreaterThan(factor);
      expect(Math.abs(found!.speed!.factor / found!.fit.factor - 1)).toBeLessThan(0.011);
      expect(found!.speed!.low).toBeLessThanOrEqual(found!.fit.interval80.low);
      expect(found!.speed!.high).toBeGreaterThanOrEqual(found!.fit.interval80.high);
    }), { numRuns: 20 });
  });

  test('keeps materials and arrangements apart, and things that are moved within one arrangement together', () => {
    const wool = soaked('w', { fibre: 'wool' });
    const moved = weighedAt(soaked('m'), 0.5, [1, 4]);
    const { fits: found } = fits(
      [moved, { ...wool, weighings: weighedAt(soaked('w'), 0.5, [1, 4]).weighings }, weighedAt(soaked('l'), 0.5, [1, 4])],
      [stayOf('m', 0.5, 2), stayOf('m', 2, null, { seq: 4, placeId: 'R2' }), stayOf('w', 0.5), stayOf('l', 0.5, 2, { placeId: 'L1', arrangement: 'line' }), stayOf('l', 2, null, { seq: 4 })],
    );
    expect(found.map(({ arrangement, material, stays }) => [arrangement, material, stays.map(({ itemId }) => itemId)])).toEqual([['line', 'cotton', ['l']], ['rack', 'cotton', ['m', 'l']], ['rack', 'wool', ['w']]]);
    expect(found[1]!.stays[0]!.placeIds).toEqual(['R1', 'R2']);
    // Weighed once on the line and once on the rack: no stretch of either.
    expect(found[1]!.fit.used.map(({ seriesId }) => seriesId.split('@')[0])).toEqual(['m']);
    expect(found[1]!.unused).toEqual([{ itemId: 'l', atMs: at(4), reason: 'no-partner' }]);
    expect(found[0]).toMatchObject({ speed: null, fit: { advice: { code: 'fit-no-data' } }, unused: [{ reason: 'no-partner' }] });
  });

  test('names every weighing on a place as used or left out, and those before it hung not at all', () => {
    const item = weighedAt(soaked('a', { count: 1, lotSplitMs: at(2), doubtedMs: [at(3.5)] }), 0.6, [0.75, 2, 3, 5]);
    const { fits: [found], weighings } = fits([{ ...item, weighings: [{ atMs: at(0.25), massKg: 1.6, resolutionKg: 0.005 }, ...item.weighings] }]);
    expect(found!.unused).toEqual([{ itemId: 'a', atMs: at(0.75), reason: 'lot-split' }, { itemId: 'a', atMs: at(2), reason: 'lot-split' }, { itemId: 'a', atMs: at(3.5), reason: 'in-doubt' }]);
    expect(found!.fit.used).toMatchObject([{ fromMs: at(3), toMs: at(5), weighings: 2 }]);
    expect(weighings).toBe(5);
  });

  test('what is weighed later than now does not count yet', () => {
    expect(fitRoom({ items: [weighedAt(soaked('a'), 0.5, [1, 4])], stays: [stayOf('a', 0.5)] }, air, at(3), values)).toMatchObject({ weighings: 1, fits: [{ speed: null }] });
  });

  test('looks at so many weighings, the newest, and says how many it did not look at', () => {
    const items = Array.from({ length: 60 }, (_, i) => ({ ...soaked(`i${i}`), weighings: Array.from({ length: 10 }, (_unused, n) => ({ atMs: at(1 + n / 4) + i, massKg: 1.4 - n * 0.012, resolutionKg: 0.005 })) }));
    const { weighings, olderWeighings, fits: [found] } = fits(items);
    expect([weighings, olderWeighings]).toEqual([MOST_WEIGHINGS, 600 - MOST_WEIGHINGS]);
    expect(Math.min(...found!.fit.used.map(({ fromMs }) => fromMs))).toBeGreaterThan(at(1.2));
  });
});

describe('a room reckoned with a fit', () => {
  const speed: FittedSpeed = { material: 'cotton', build: 'thin', arrangement: 'rack', factor: 0.325, low: 0.26, high: 0.39, weighings: 6 };
  const readings = [0, 1, 2].map((hour) => reading(hour, 50));
  const two = inputOf({ readings, items: [itemOf('a'), itemOf('b')], stays: [stayOf('a', 0), stayOf('b', 0, null, { placeId: 'S1', arrangement: 'screen' })] });
  const dryingOf = (input: HistoryInput, speeds: FittedSpeed[], numbers = values) => new Map(forecastRoom(stateAt({ ...input, speeds }, 2, numbers), { humidityCapPct: 75, weather: [], speeds }, numbers).items.map((item) => [item.itemId, item]));

  test('dries what hangs in that arrangement by it and everything else as before', () => {
    const [general, fitted] = [stateAt(two, 2), stateAt({ ...two, speeds: [speed] }, 2)].map(({ course }) => moistures(course));
    expect(fitted!.get('b')).toEqual(general!.get('b'));
    const lost = (map: typeof general) => 0.8 - map!.get('a')!.x;
    // Half the general factor of 0.65, while it is wet through.
    expect(lost(fitted) / lost(general)).toBeCloseTo(0.5, 6);
  });

  test('gives the ends of the interval as the earliest and the latest moment', () => {
    // Of the speed alone: what it weighs dry and how wet it was are known here.
    const known = calibrate({ bandDryMassError: 0, bandWaterError: 0 });
    const { dryEarliestMs, dryExpectedMs, dryLatestMs } = dryingOf(two, [speed], known).get('a')!;
    const took = dryExpectedMs! - at(0);
    expect((dryEarliestMs! - at(0)) / took).toBeCloseTo(speed.factor / speed.high, 3);
    expect((dryLatestMs! - at(0)) / took).toBeCloseTo(speed.factor / speed.low, 3);
    const other = dryingOf(two, [speed], known).get('b')!;
    expect((other.dryLatestMs! - at(0)) / (other.dryExpectedMs! - at(0))).toBeCloseTo(1 / (1 - values.thinErrorFraction), 3);
  });

  test('thick things keep a band to their slow end, which follows the factor', () => {
    const input = inputOf({ readings, items: [itemOf('q', { sizeClass: 'double-quilt', dryMassG: 2100 })], stays: [stayOf('q', 0)] });
    const slowLost = (speeds: FittedSpeed[]) => 0.8 - moistures(stateAt({ ...input, speeds }, 2).course).get('q')!.slowX;
    const thick = { ...speed, build: 'thick' as const };
    expect(dryingOf(input, [thick]).get('q')!.dryExpectedMs).toBeNull();
    expect(slowLost([]) - slowLost([thick])).toBeGreaterThan(0);
  });

  test('a checkpoint rests on the factors that something hung by until then, not on their intervals and not on others', () => {
    const facts = { ...two, incidentOpen: true };
    const basis = (speeds: FittedSpeed[]) => basisOf({ facts, observed: two.observed, room: NO_READINGS, elsewhere: null, speeds, atMs: at(2), values, alarms: DEFAULT_ALARM_VALUES });
    expect(basis([speed])).not.toBe(basis([]));
    expect(basis([{ ...speed, factor: 0.3315 }])).not.toBe(basis([speed]));
    expect(basis([{ ...speed, low: 0.2, weighings: 9 }])).toBe(basis([speed]));
    expect(basis([{ ...speed, arrangement: 'line' }])).toBe(basis([]));
  });

  test('the factor reckoned with moves in steps, so that weighings which agree leave it', () => {
    const once = fits([weighedAt(soaked('a'), 0.5, [1, 3, 5]), weighedAt(soaked('b'), 0.5, [1, 3, 5]), weighedAt(soaked('c'), 0.5, [1, 3, 5])]);
    const steps = Math.log(speedsOf(once)[0]!.factor) / 0.02;
    expect(Math.abs(steps - Math.round(steps))).toBeLessThan(1e-9);
  });
});
