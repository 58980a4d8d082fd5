/** What a plot of a past is made from: when it is looked at, what it may cost, and how far its water may be off. */
import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { DEFAULT_CALIBRATION, type ClockReading } from '#climate';
import { plotAir } from '../../../../libs/application/src/climate/plots/air-series.js';
import { momentsOf } from '../../../../libs/application/src/climate/plots/moments.js';
import { affordable } from '../../../../libs/application/src/climate/plots/replay.js';
import { moistureBand, type ThingMoisture } from '../../../../libs/application/src/climate/plots/thing-band.js';
import type { ClimateReadingRecord } from '#application';

const HOUR_MS = 3_600_000;
const START_MS = Date.UTC(2026, 4, 9, 7);
const airAt = (minutes: readonly number[]): ClockReading[] => minutes.map((minute) => ({ atMs: START_MS + minute * 60_000, airTempC: 20, relativeHumidityPct: 60 }));
const anyMinutes = fc.uniqueArray(fc.integer({ min: 0, max: 7 * 24 * 60 }), { maxLength: 400, size: 'large' }).map((minutes) => minutes.toSorted((a, b) => a - b));

describe('the moments at which a past is looked at', () => {
  test('are in order, each once, within the time, with both ends, and bounded however much happened', () => {
    fc.assert(fc.property(anyMinutes, anyMinutes, fc.integer({ min: 1, max: 168 }), (readings, jumps, hours) => {
      const [fromMs, untilMs] = [START_MS, START_MS + hours * HOUR_MS];
      const moments = momentsOf({ fromMs, untilMs, air: airAt(readings), jumps: jumps.map((minute) => START_MS + minute * 60_000) });
      expect(moments).toEqual([...new Set(moments)].sort((a, b) => a - b));
      expect([moments[0], moments.at(-1)]).toEqual([fromMs, untilMs]);
      expect(moments.length).toBeLessThanOrEqual(2 + 120 + 2 * 241);
    }));
  });

  test('lie just before and at every jump that stands alone', () => {
    fc.assert(fc.property(anyMinutes, fc.integer({ min: 1, max: 24 * 60 }), (readings, minute) => {
      const jumpMs = START_MS + minute * 60_000;
      const moments = momentsOf({ fromMs: START_MS, untilMs: START_MS + 24 * HOUR_MS, air: airAt(readings), jumps: [jumpMs] });
      expect(moments).toEqual(expect.arrayContaining([jumpMs - 1, jumpMs]));
    }));
  });
});

describe('the readings that a replay can afford', () => {
  test('are all of them while few things hang', () => {
    const air = airAt(Array.from({ length: 288 }, (_, i) => i * 5));
    expect(affordable(air, 10)).toEqual({ air, everyMs: null });
  });

  test('are a part of them that costs no more than allowed, in order, with the last one', () => {
    fc.assert(fc.property(anyMinutes.filter((minutes) => minutes.length > 1), fc.integer({ min: 1, max: 2000 }), (minutes, things) => {
      const air = airAt(minutes);
      const { air: kept, everyMs } = affordable(air, things, 20_000);
      expect(kept.every((reading, i) => air.includes(reading) && (i === 0 || reading.atMs > kept[i - 1]!.atMs))).toBe(true);
      expect(kept.at(-1)).toBe(air.at(-1));
      // One stretch may be cut by each end.
      expect(kept.length).toBeLessThanOrEqual(Math.max(24, Math.floor(20_000 / things)) + 2);
      expect(everyMs === null).toBe(kept.length === air.length && air.length <= Math.max(24, Math.floor(20_000 / things)));
    }));
  });
});

describe('the band about the water in a thing', () => {
  const shares = (error: number) => ({ fast: 1 - error, slow: 1 / (1 - error) });
  /** Dries from 2 to 0 over twenty hours, a thick one at its slow end over eighty. */
  const drying = (mostHours: number): ThingMoisture[] => Array.from({ length: 81 }, (_, hour) => ({ atMs: START_MS + hour * HOUR_MS, x: Math.max(0, 2 - hour / 10), leastX: Math.max(0, 2 - hour / 10), mostX: Math.max(0, 2 - (2 * hour) / mostHours) }));
  const curve = drying(20);
  const slow = drying(80);

  test('is nothing when the water was just known, and grows from there', () => {
    const band = moistureBand(curve, START_MS, false, shares(0.3));
    expect(band(curve[0]!)).toEqual({ lowX: 2, highX: 2 });
    const { lowX, highX } = band(curve[7]!);
    expect(lowX).toBeCloseTo(2 - 7 / 0.7 / 10, 9);
    expect(highX).toBeCloseTo(2 - (7 * 0.7) / 10, 9);
  });

  test('reaches dry at its low end when the fast end of the drying time is over, and at its high end when the slow one is', () => {
    const band = moistureBand(curve, START_MS, false, shares(0.3));
    // 20 h by the middle: 14 h at the earliest, 28.6 h at the latest.
    expect(band(curve[14]!).lowX).toBeCloseTo(0, 9);
    expect(band(curve[13]!).lowX).toBeGreaterThan(0);
    expect(band(curve[28]!).highX).toBeGreaterThan(0);
    expect(band(curve[29]!).highX).toBe(0);
  });

  test('of thick things ends at their slow drying, and before the last weighing tells the slow end alone', () => {
    const knownAtMs = START_MS + 10 * HOUR_MS;
    const band = moistureBand(slow, knownAtMs, true, shares(0.3));
    expect(band(slow[30]!).highX).toBe(slow[30]!.mostX);
    expect(band(slow[4]!)).toEqual({ lowX: slow[4]!.x, highX: slow[4]!.mostX });
  });

  test('always holds what is reckoned', () => {
    fc.assert(fc.property(fc.integer({ min: 0, max: 80 }), fc.integer({ min: 0, max: 80 }), fc.boolean(), fc.double({ min: 0, max: 0.9, noNaN: true }), (hour, known, thick, error) => {
      const point = slow[hour]!;
      const { lowX, highX } = moistureBand(slow, START_MS + known * HOUR_MS, thick, shares(error))(point);
      expect(lowX).toBeLessThanOrEqual(point.x);
      expect(highX).toBeGreaterThanOrEqual(point.x);
    }));
  });
});

describe('readings as lines', () => {
  const reading = (sensorId: string | null, minute: number, more: Partial<ClimateReadingRecord> = {}): ClimateReadingRecord => ({
    id: `${sensorId}${minute}`, incidentId: 'i', place: { kind: 'drying-room', id: 'r' }, sensorId, measuredAtMs: START_MS + minute * 60_000, airTempC: 20, relativeHumidityPct: 60, recordedAtMs: 0, source: 'sensor', sequence: 1, state: 'accepted', doubt: null, ...more,
  });
  const codes = new Map([['s1', 'B'], ['s2', 'A'], ['s3', 'C']]);

  test('each who measured has a line, sensors by their codes and hands last; doubts stand apart, a thermometer alone has no humidity', () => {
    const air = plotAir([reading(null, 0), reading('s1', 1), reading('s2', 2, { relativeHumidityPct: null }), reading('s1', 3, { state: 'doubtful', doubt: 'jump', airTempC: 48 })], codes, false, DEFAULT_CALIBRATION);
    expect(air.by.map(({ sensorCode, tempC, humidityPct }) => [sensorCode, tempC.length, humidityPct.length])).toEqual([['A', 1, 0], ['B', 1, 1], [null, 1, 1]]);
    expect(air).toMatchObject({ merged: false, doubtedTempC: [{ value: 48 }], longestGapMs: 3 * HOUR_MS });
  });

  test('more than three become one cloud without lines', () => {
    const air = plotAir([reading(null, 0), reading('s1', 1), reading('s2', 2), reading('s3', 3)], codes, true, DEFAULT_CALIBRATION);
    expect(air).toMatchObject({ merged: true, longestGapMs: 0, cutShort: true });
    expect(air.by).toHaveLength(1);
    expect(air.by[0]!.tempC).toHaveLength(4);
  });
});
