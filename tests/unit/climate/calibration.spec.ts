import { describe, expect, test } from '@jest/globals';
import { CALIBRATION, calibrate, ClimateRangeError, DEFAULT_CALIBRATION, FIBRE_DENSITY_KG_PER_M3, MATERIAL_TABLE, mouldHoursLeft } from '#climate';

describe('calibration', () => {
  test('every value of ours is marked as ours, explained and inside its own limits', () => {
    for (const [key, entry] of Object.entries(CALIBRATION)) {
      expect(entry.mark).toBe('own-calibration');
      expect(entry.why.length).toBeGreaterThan(10);
      expect(() => calibrate({ [key]: entry.value })).not.toThrow();
    }
  });

  test('an override reaches the models', () => {
    const stricter = calibrate({ mouldHoursAtReference: 36 });
    expect(mouldHoursLeft(0, { surfaceTempC: 22, waterActivity: 1 }, 'sensitive', stricter)).toBeCloseTo(36, 9);
    expect(DEFAULT_CALIBRATION.mouldHoursAtReference).toBe(48);
  });

  test.each<[string, Record<string, number>, RegExp]>([
    ['an unknown name', { mouldHourz: 3 }, /not a calibration value/],
    ['out of limits', { roomCapPct: 0.75 }, /roomCapPct/],
    ['not finite', { amberDose: Number.NaN }, /finite/],
    ['amber after red', { amberDose: 0.9, redDose: 0.5 }, /may not exceed/],
    ['a band that does not hold its middle', { mouldHoursAtReference: 100 }, /may not exceed/],
  ])('%s is refused', (_name, overrides, words) => {
    expect(() => calibrate(overrides)).toThrow(ClimateRangeError);
    expect(() => calibrate(overrides)).toThrow(words);
  });

  test('tables cannot be changed by whoever reads them', () => {
    expect(Object.isFrozen(CALIBRATION)).toBe(true);
    expect(Object.isFrozen(CALIBRATION.roomCapPct)).toBe(true);
    expect(Object.isFrozen(MATERIAL_TABLE.cotton.saturationX)).toBe(true);
  });

  test('no remembered number calls itself published', () => {
    for (const row of Object.values(MATERIAL_TABLE)) expect(row.saturationX.mark).not.toBe('published');
    for (const density of Object.values(FIBRE_DENSITY_KG_PER_M3)) expect(density.mark).not.toBe('published');
    for (const material of ['viscose', 'acetate', 'nylon', 'acrylic', 'polyester', 'paper', 'leather'] as const) expect(MATERIAL_TABLE[material].regainAt65X.mark).toBe('from-memory');
  });
});
