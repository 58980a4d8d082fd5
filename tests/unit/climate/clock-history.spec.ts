import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { advanceClock, calibrate, CLOCK_PLACEMENTS, ClimateRangeError, clockFromReadings, mouldDose, mouldRatePerH, moistAir, startClock, wetBulbC, type ClockHistoryOptions, type ClockStretch, type ClockThing, type PlaceReading } from '#climate';
import { number } from './arbitraries.js';

const H = 3_600_000;
const COTTON: ClockThing = { material: 'cotton', mouldClass: 'sensitive' };
const inHall = (...fromMs: number[]) => fromMs.map((ms) => ({ fromMs: ms, placement: 'room' as const, placeId: 'hall' }));
const readAt = (hour: number, airTempC: number, relativeHumidityPct: number | null, placeId: string | null = 'hall'): PlaceReading => ({ atMs: hour * H, airTempC, relativeHumidityPct, placeId });
const every = (stepH: number, hours: number, airTempC: number, relativeHumidityPct: number) => Array.from({ length: Math.floor(hours / stepH) + 1 }, (_, i) => readAt(i * stepH, airTempC, relativeHumidityPct));
const clock = (readings: PlaceReading[], more: Partial<ClockHistoryOptions> = {}) => clockFromReadings(readings, { thing: COTTON, start: 0, untilMs: 24 * H, stays: inHall(0), ...more });
const codes = (history: ReturnType<typeof clock>) => history.notes.map(({ code }) => code);

describe('a history without gaps', () => {
  test('counts as the same conditions told directly: a wet thing at its wet bulb, an unknown one at air temperature', () => {
    const wet = clock(every(0.5, 24, 20, 50), { wetness: [{ fromMs: 0, moistureX: 1 }] });
    expect(wet.state.dose).toBeCloseTo(mouldDose([{ hours: 24, surfaceTempC: wetBulbC(moistAir({ airTempC: 20, relativeHumidityPct: 50 })), waterActivity: 1 }]), 9);
    const unknown = clock(every(0.5, 24, 20, 50));
    expect(unknown.state.dose).toBeCloseTo(mouldDose([{ hours: 24, surfaceTempC: 20, waterActivity: 1 }]), 9);
    expect(unknown.state).toMatchObject({ doseBy: { interpolated: 0, assumed: 0 }, hoursBy: { measured: 24 } });
    expect(codes(unknown)).toEqual(['wetness_unknown']);
    expect(codes(wet)).toEqual([]);
  });

  test('stands still in a dry room for a dry thing, and in the freezer for a wet one, and goes on from there', () => {
    const dry = clock(every(1, 24, 20, 55), { wetness: [{ fromMs: 0, moistureX: 0.07 }] });
    expect(dry.state).toMatchObject({ dose: 0, pausedHours: 24 });
    expect(dry.clock.paused).toBe(true);
    const stays = [...inHall(0, 18 * H), { fromMs: 8 * H, placement: 'freezer' as const, placeId: 'F1' }];
    const readings = [...every(0.5, 24, 22, 60), ...[7, 10, 12, 14, 16, 18].map((hour) => readAt(hour, -19, null, 'F1'))];
    const frozen = clock(readings, { stays });
    expect(frozen.state.dose).toBeCloseTo(14 / 48, 9);
    expect(frozen.state.pausedHours).toBeCloseTo(10, 9);
    expect(frozen.state.doseBy.assumed).toBe(0);
    expect(frozen.segments.map(({ placeId, paused, hours }) => [placeId, paused, hours])).toEqual([['hall', false, 8], ['F1', true, 10], ['hall', false, 6]]);
  });

  test('the last known wetness is held until the thing is weighed again', () => {
    const readings = every(0.5, 24, 20, 50);
    const dried = clock(readings, { wetness: [{ fromMs: 10 * H, moistureX: 0.08 }, { fromMs: 0, moistureX: 1.2 }] });
    expect(dried.segments.map(({ paused, hours }) => [paused, hours])).toEqual([[false, 10], [true, 14]]);
  });
});

describe('gaps', () => {
  const wetness = [{ fromMs: 0, moistureX: 0.2 }];

  test('a short one is a straight line and says so', () => {
    const { state } = clock([readAt(0, 18, 80), readAt(2, 22, 80)], { untilMs: 2 * H });
    expect(state.hoursBy).toEqual({ measured: 0, interpolated: 2, assumed: 0 });
    // The middle of each quarter of an hour: close to the integral over the straight line.
    expect(state.dose).toBeCloseTo(2 * mouldRatePerH(20, 1), 4);
  });

  test('a long one counts as the worse of its two ends', () => {
    const { state, notes } = clock([readAt(0, 12, 70), readAt(20, 24, 90)], { untilMs: 20 * H, wetness });
    expect(state.dose).toBeCloseTo(20 * mouldRatePerH(24, Math.max(0.9, 0.65 + 0.35 * Math.sqrt(0.125 / 0.165))), 9);
    expect(state.doseBy.assumed).toBe(state.dose);
    expect(notes.find(({ code }) => code === 'dose_assumed')?.values).toEqual({ percent: 100, hours: 20 });
  });

  test('after the last reading it is held for three hours, then the air counts as saturated', () => {
    const { state, segments } = clock([readAt(0, 20, 40)], { wetness: [{ fromMs: 0, moistureX: 0.07 }] });
    expect(segments.map(({ basis, paused, hours }) => [basis, paused, hours])).toEqual([['interpolated', true, 3], ['assumed', false, 21]]);
    expect(state.dose).toBeCloseTo(21 * mouldRatePerH(20, 1), 9);
    const patient = calibrate({ readingGapInterpolatedMaxH: 12 });
    expect(clockFromReadings([readAt(0, 20, 40)], { thing: COTTON, start: 0, untilMs: 24 * H, stays: inHall(0), wetness: [{ fromMs: 0, moistureX: 0.07 }] }, patient).state.hoursBy.assumed).toBe(12);
  });

  test('before the first reading the air counts as saturated at its temperature', () => {
    const { segments } = clock([readAt(10, 16, 40)], { untilMs: 10 * H });
    expect(segments.map(({ basis, hours, surfaceTempC }) => [basis, hours, surfaceTempC.highest])).toEqual([['assumed', 7, 16], ['interpolated', 3, 16]]);
  });

  test.each([
    ['outside, where the air is known', { stays: [{ fromMs: 0, placement: 'outdoors' as const, placeId: null }], outdoor: { airTempC: 12, relativeHumidityPct: 85 } }, 12],
    ['nobody knows where, the air outside known', { stays: [], outdoor: { airTempC: 12, relativeHumidityPct: 30 } }, 12],
    ['nobody knows where, and nothing of the air', { stays: [] }, 25],
  ])('%s', (_name, more, tempC) => {
    const { state } = clock([], more);
    expect(state.dose).toBeCloseTo(24 * mouldRatePerH(tempC, 1), 9);
    expect(state.hoursBy).toEqual({ measured: 0, interpolated: 0, assumed: 24 });
  });

  test('a freezer that nobody reads counts as frozen, and says that nobody read it', () => {
    const history = clock([], { start: startClock(0, 0.3), stays: [{ fromMs: 0, placement: 'freezer', placeId: 'F1' }] });
    expect(history.state.dose).toBe(0.3);
    expect(codes(history)).toContain('freezer_not_read');
  });

  test('a freezer that has failed does not hide', () => {
    const history = clock([readAt(0, -18, null, 'F1'), readAt(20, 6, null, 'F1')], { stays: [{ fromMs: 0, placement: 'freezer', placeId: 'F1' }], untilMs: 20 * H });
    expect(history.state.dose).toBeCloseTo(20 * mouldRatePerH(6, 1), 9);
  });

  test('a sensor without humidity counts as saturated, which is an assumption for a thing that is not wet', () => {
    const { state } = clock([readAt(0, 20, null), readAt(1, 20, null)], { untilMs: H, wetness: [{ fromMs: 0, moistureX: 0.07 }] });
    expect(state.doseBy).toMatchObject({ measured: 0, interpolated: 0 });
    expect(state.doseBy.assumed).toBeCloseTo(mouldRatePerH(20, 1), 12);
  });
});

describe('readings as they come', () => {
  const wetness = [{ fromMs: 0, moistureX: 0.15 }];
  const readings = Array.from({ length: 49 }, (_, i) => readAt(i / 2, 15 + (i % 7), 60 + ((i * 13) % 40)));

  test('their order does not matter, and of two of one moment the warmer and damper counts', () => {
    const shuffled = readings.toSorted((a, b) => ((a.atMs * 7919) % 104_729) - ((b.atMs * 7919) % 104_729));
    expect(clock(shuffled, { wetness })).toEqual(clock(readings, { wetness }));
    const twice = clock([...readings, readAt(3, 29, 20), readAt(3, 2, 99)], { wetness });
    expect(twice.state.dose).toBeGreaterThan(clock(readings, { wetness }).state.dose);
    expect(twice.notes.find(({ code }) => code === 'readings_same_moment')?.values).toEqual({ count: 2 });
  });

  test('those of other places do not count, and it says so', () => {
    const history = clock([...readings, readAt(5, 35, 100, 'boiler room')], { wetness });
    expect(history.state).toEqual(clock(readings, { wetness }).state);
    expect(codes(history)).toEqual(['readings_elsewhere']);
  });

  test('going on from a state is the same as reckoning it all at once', () => {
    const half = clock(readings, { wetness, untilMs: 11.3 * H });
    const rest = clock(readings, { wetness, start: JSON.parse(JSON.stringify(half.state)) });
    const whole = clock(readings, { wetness });
    expect(rest.state.dose).toBeCloseTo(whole.state.dose, 12);
    expect(rest.state.pausedHours).toBeCloseTo(whole.state.pausedHours, 9);
  });

  test('the band is that of the sources: a third less and twice as much', () => {
    const { state, doseBand } = clock(readings);
    expect(doseBand).toEqual({ lowest: (state.dose * 48) / 72, highest: state.dose * 2 });
  });

  test('an empty time says what the clock says now', () => {
    expect(clock(readings, { untilMs: 0 })).toMatchObject({ state: { dose: 0 }, clock: { state: 'in-time', paused: false }, assumedShare: 0, segments: [] });
  });
});

describe('advancing, for any stretch', () => {
  const reading = (ms: fc.Arbitrary<number>) => fc.option(fc.record({ atMs: ms, airTempC: number(-30, 45), relativeHumidityPct: fc.option(number(0, 100)) }));
  const stretch: fc.Arbitrary<ClockStretch> = fc.record({
    untilMs: fc.integer({ min: 1, max: 80 * H }),
    placement: fc.constantFrom(...CLOCK_PLACEMENTS),
    before: reading(fc.integer({ min: -6 * H, max: 0 })),
    after: reading(fc.integer({ min: 80 * H, max: 90 * H })),
    moistureX: fc.option(number(0, 2)),
    outdoor: fc.option(fc.record({ airTempC: number(-20, 40), relativeHumidityPct: fc.option(number(0, 100)) })),
  });
  const near = stretch.map((each) => ({ ...each, untilMs: each.untilMs % (2 * H), after: each.after && { ...each.after, atMs: 2 * H } }));

  test('the dose never falls, and is the sum of what it rests on', () => {
    fc.assert(fc.property(fc.oneof(stretch, near), number(0, 2), (each, start) => {
      const after = advanceClock(startClock(0, start), each, COTTON);
      expect(after.dose).toBeGreaterThanOrEqual(start);
      expect(after.doseBy.measured + after.doseBy.interpolated + after.doseBy.assumed).toBeCloseTo(after.dose, 9);
      expect(after.hoursBy.measured + after.hoursBy.interpolated + after.hoursBy.assumed).toBeCloseTo(each.untilMs / H, 9);
      expect(after.pausedHours).toBeLessThanOrEqual(each.untilMs / H + 1e-9);
    }));
  });

  test('a stretch cut in two, anywhere, counts the same', () => {
    fc.assert(fc.property(fc.oneof(stretch, near), number(0, 1), (each, share) => {
      const cutMs = Math.floor(each.untilMs * share);
      const inTwo = advanceClock(advanceClock(startClock(0), { ...each, untilMs: cutMs }, COTTON), each, COTTON);
      const inOne = advanceClock(startClock(0), each, COTTON);
      expect(inTwo.dose).toBeCloseTo(inOne.dose, 9);
      expect(inTwo.doseBy.assumed).toBeCloseTo(inOne.doseBy.assumed, 9);
    }));
  });

  test('an unmeasured stretch is never better than the same stretch measured at its ends', () => {
    fc.assert(fc.property(number(-10, 40), number(0, 100), fc.integer({ min: 4, max: 70 }), fc.option(number(0, 2)), (airTempC, relativeHumidityPct, hours, moistureX) => {
      const ends = { airTempC, relativeHumidityPct };
      const common = { untilMs: hours * H, placement: 'room' as const, moistureX, outdoor: null };
      const read = advanceClock(startClock(0), { ...common, before: { atMs: 0, ...ends }, after: { atMs: hours * H, ...ends } }, COTTON);
      const left = advanceClock(startClock(0), { ...common, before: { atMs: 0, ...ends }, after: null }, COTTON);
      // A saturated wet bulb is at least the wet bulb of the reading.
      expect(left.dose).toBeGreaterThanOrEqual(read.dose - 1e-9);
    }));
  });
});

describe('refusals', () => {
  const stretch: ClockStretch = { untilMs: H, placement: 'room', before: null, after: null, moistureX: null, outdoor: null };
  test.each<[string, () => unknown]>([
    ['a stretch that runs backwards', () => advanceClock(startClock(2 * H), stretch, COTTON)],
    ['a reading from after the beginning called the one before', () => advanceClock(startClock(0), { ...stretch, before: { atMs: 1, airTempC: 20, relativeHumidityPct: 50 } }, COTTON)],
    ['a temperature in kelvin', () => clock([readAt(0, 293, 50)])],
    ['a humidity of 120 %', () => clock([readAt(0, 20, 120)])],
    ['an end before the start', () => clock([], { untilMs: -1 })],
    ['a place that there is not', () => advanceClock(startClock(0), { ...stretch, placement: JSON.parse('"attic"') }, COTTON)],
    ['a moment that is no number', () => startClock(Number.NaN)],
  ])('%s', (_name, act) => expect(act).toThrow(ClimateRangeError));
});
