import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { afterQuiet, DAY_MS, pauseMs } from '#application';

// The numbers are our own calibration; what is held here is their shape.
const HOUR_MS = 3_600_000;
const hour = fc.integer({ min: 0, max: 23 });
const moment = fc.integer({ min: 0, max: 4_000_000_000_000 });
const offset = fc.integer({ min: -12 * 4, max: 14 * 4 }).map((quarters) => (quarters * HOUR_MS) / 4);
const hourOf = (atMs: number, offsetMs: number) => ((((atMs + offsetMs) % DAY_MS) + DAY_MS) % DAY_MS) / HOUR_MS;
const isQuiet = (at: number, from: number, to: number) => (from <= to ? at >= from && at < to : at >= from || at < to);

describe('quiet hours', () => {
  test('a message goes out at once outside of them, else at their end, never within, and less than a day later', () => {
    fc.assert(fc.property(moment, offset, hour, hour, (atMs, offsetMs, quietFromHour, quietToHour) => {
      const goesMs = afterQuiet(atMs, offsetMs, { quietFromHour, quietToHour });
      expect(goesMs).toBeGreaterThanOrEqual(atMs);
      expect(goesMs - atMs).toBeLessThan(DAY_MS);
      const quiet = quietFromHour !== quietToHour && isQuiet(hourOf(atMs, offsetMs), quietFromHour, quietToHour);
      if (!quiet) expect(goesMs).toBe(atMs);
      else {
        expect(hourOf(goesMs, offsetMs)).toBe(quietToHour);
        expect(isQuiet(hourOf(goesMs, offsetMs), quietFromHour, quietToHour)).toBe(false);
      }
    }));
  });
});

describe('the pause after a failure', () => {
  test('grows with the tries up to a bound and differs by chance', () => {
    fc.assert(fc.property(fc.integer({ min: 1, max: 1_000 }), fc.double({ min: 0, max: 1, noNaN: true }), (tries, chance) => {
      expect(pauseMs(tries, chance)).toBeGreaterThanOrEqual(60_000);
      expect(pauseMs(tries, chance)).toBeLessThanOrEqual(2.4 * HOUR_MS);
      expect(pauseMs(tries + 1, chance)).toBeGreaterThanOrEqual(pauseMs(tries, chance));
      expect(pauseMs(tries, 1)).toBeGreaterThan(pauseMs(tries, 0));
    }));
  });
});
