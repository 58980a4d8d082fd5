import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { doubtSpanH, doubtsOf, READING_DOUBTS, readingFaults, type SensorReading } from '#climate';

// All limits but 0 to 100 % are own calibration; the conversions are those of the units themselves.

const FLOOD = Date.parse('2026-05-08T18:00:00Z');
const NOW = Date.parse('2026-05-09T12:00:00Z');
const times = { nowMs: NOW, floodAtMs: FLOOD };
const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const codes = (reading: Partial<SensorReading>) => readingFaults({ measuredAtMs: NOW - HOUR, airTempC: 20, relativeHumidityPct: 60, ...reading }, times).map(({ code }) => code);

describe('what cannot be', () => {
  test.each([
    [{ airTempC: -40 }, []], [{ airTempC: 60 }, []], [{ airTempC: -40.1 }, ['temperature_impossible']], [{ airTempC: 60.1 }, ['temperature_fahrenheit']],
    [{ airTempC: 140 }, ['temperature_fahrenheit']], [{ airTempC: 141 }, ['temperature_impossible']], [{ airTempC: 293.15 }, ['temperature_kelvin']], [{ airTempC: 400 }, ['temperature_impossible']],
    [{ relativeHumidityPct: 100 }, []], [{ relativeHumidityPct: 100.1 }, ['humidity_impossible']], [{ relativeHumidityPct: -1 }, ['humidity_impossible']], [{ relativeHumidityPct: 0.62 }, ['humidity_fraction']], [{ relativeHumidityPct: 0 }, ['humidity_fraction']],
    [{ relativeHumidityPct: null }, []], [{ measuredAtMs: NOW + 5 * MINUTE }, []], [{ measuredAtMs: NOW + 5 * MINUTE + 1 }, ['in_future']],
    [{ measuredAtMs: FLOOD - 14 * 24 * HOUR }, []], [{ measuredAtMs: FLOOD - 14 * 24 * HOUR - 1 }, ['before_flood']],
    [{ airTempC: 700, relativeHumidityPct: 400, measuredAtMs: 0 }, ['temperature_impossible', 'humidity_impossible', 'before_flood']],
  ])('%j is %j', (reading, expected) => {
    expect(codes(reading)).toEqual(expected);
  });

  test('a suspected unit is told with what the number would be: 70.2 °F are 21.2 °C, 293.15 K are 20 °C', () => {
    expect(readingFaults({ measuredAtMs: NOW, airTempC: 70.2, relativeHumidityPct: null }, times)).toMatchObject([{ inC: 21.2 }]);
    expect(readingFaults({ measuredAtMs: NOW, airTempC: 293.15, relativeHumidityPct: null }, times)).toMatchObject([{ inC: 20 }]);
  });
});

const room = { place: 'drying-room', machineRuns: true } as const;
/** Readings at these minutes: [minute, temperature, humidity]. */
const series = (...rows: [number, number, (number | null)?][]): SensorReading[] => rows.map(([minute, airTempC, relativeHumidityPct = 60]) => ({ measuredAtMs: NOW + minute * MINUTE, airTempC, relativeHumidityPct }));

describe('what is improbable', () => {
  test('a spike is doubted, and the return to where the air was is not', () => {
    expect(doubtsOf(series([0, 20], [5, 38], [10, 20.1]), room)).toEqual([null, 'jump', null]);
  });

  test('a step is doubted once: the second reading like it is believed', () => {
    expect(doubtsOf(series([0, 20], [5, 38], [10, 38.2], [15, 38.1]), room)).toEqual([null, 'jump', null, null]);
  });

  test('what wanders on from a spike instead of going back stays in doubt', () => {
    expect(doubtsOf(series([0, 20], [5, 38], [10, 5]), room)).toEqual([null, 'jump', 'jump']);
  });

  test('an opened door is no jump, humidity alone can be one, and slowly everything may happen', () => {
    expect(doubtsOf(series([0, 20, 60], [1, 16, 75]), room)).toEqual([null, null]);
    expect(doubtsOf(series([0, 20, 40], [1, 20, 80]), room)).toEqual([null, 'jump']);
    expect(doubtsOf(series([0, 20, 40], [60, 38, 95]), room)).toEqual([null, null]);
  });

  test('a freezer may warm at once when it is opened', () => {
    const opened = series([0, -18, null], [1, -4, null]);
    expect(doubtsOf(opened, { place: 'freezer', machineRuns: false })).toEqual([null, null]);
    expect(doubtsOf(opened, room)).toEqual([null, 'jump']);
  });

  test('45 °C and more indoors may be Fahrenheit; outdoors it may be the sun', () => {
    const hot = series([0, 45], [10, 52]);
    expect(doubtsOf(hot, room)).toEqual(['unit', 'unit']);
    expect(doubtsOf(hot, { place: 'outdoors', machineRuns: false })).toEqual([null, null]);
  });

  const hours = (count: number, everyMin: number, airTempC: (at: number) => number, humidity: (at: number) => number | null) => series(...Array.from({ length: count }, (_, at): [number, number, number | null] => [at * everyMin, airTempC(at), humidity(at)]));

  test('the same values to the digit for six hours are doubted from then on, in a room and not in a freezer', () => {
    const still = hours(40, 15, () => 21.5, () => 63);
    const doubts = doubtsOf(still, room);
    // 24 steps of a quarter of an hour; 0.9 of the six hours must be covered.
    expect(doubts.findIndex((doubt) => doubt === 'stuck')).toBe(22);
    expect(doubts.slice(22).every((doubt) => doubt === 'stuck')).toBe(true);
    expect(doubtsOf(still, { place: 'freezer', machineRuns: false }).every((doubt) => doubt === null)).toBe(true);
    expect(doubtsOf(hours(40, 15, () => 21.5, (at) => (at === 20 ? 63.1 : 63)), room).filter((doubt) => doubt !== null)).toEqual([]);
  });

  test('a reading every hour says too little to be called stuck', () => {
    expect(doubtsOf(hours(11, 60, () => 21.5, () => 63), room).filter((doubt) => doubt !== null)).toEqual([]);
  });

  test('saturated air for six hours is doubted beside a running machine and believed without one', () => {
    const soaked = hours(40, 15, (at) => 20 + at / 100, () => 100);
    expect(doubtsOf(soaked, room).at(-1)).toBe('saturated');
    expect(doubtsOf(soaked, { ...room, machineRuns: false }).filter((doubt) => doubt !== null)).toEqual([]);
  });
});

describe('doubts', () => {
  const anySeries = fc.uniqueArray(fc.record({ minute: fc.integer({ min: 0, max: 2_400 }), airTempC: fc.integer({ min: -20, max: 55 }), relativeHumidityPct: fc.option(fc.constantFrom(40, 60, 61, 100)) }), { selector: ({ minute }) => minute, minLength: 1, maxLength: 60 })
    .map((rows) => [...rows].sort((a, b) => a.minute - b.minute).map(({ minute, ...air }) => ({ ...air, measuredAtMs: NOW + minute * MINUTE })));
  const anywhere = fc.record({ place: fc.constantFrom('drying-room' as const, 'freezer' as const, 'zone' as const, 'outdoors' as const), machineRuns: fc.boolean() });

  test('are one word of the vocabulary or none for each reading, and the first reading is at most of another unit', () => {
    fc.assert(fc.property(anySeries, anywhere, (readings, facts) => {
      const doubts = doubtsOf(readings, facts);
      expect(doubts).toHaveLength(readings.length);
      expect(doubts.every((doubt) => doubt === null || READING_DOUBTS.includes(doubt))).toBe(true);
      expect(['unit', null]).toContain(doubts[0]);
    }));
  });

  test('of a reading depend on nothing outside the span around it, so that judging a part gives the same', () => {
    fc.assert(fc.property(anySeries, anywhere, fc.nat(), (readings, facts, pick) => {
      const at = pick % readings.length;
      const spanMs = doubtSpanH() * HOUR;
      const centreMs = readings[at]?.measuredAtMs ?? 0;
      const near = readings.filter(({ measuredAtMs }) => measuredAtMs >= centreMs - spanMs && measuredAtMs <= centreMs + spanMs);
      const whole = doubtsOf(readings, facts)[at];
      expect(doubtsOf(near, facts)[near.findIndex(({ measuredAtMs }) => measuredAtMs === centreMs)]).toBe(whole);
    }), { numRuns: 300 });
  });
});
