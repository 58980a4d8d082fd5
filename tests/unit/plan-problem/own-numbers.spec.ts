import { describe, expect, test } from '@jest/globals';
import { calibratePlanning, dryingOutlook, DryingOutlooks } from '#application';
import { calibrate, DEFAULT_CALIBRATION } from '#climate';

const AIR = { airTempC: 20, relativeHumidityPct: 60 };
const hours = (sizeClass: string, overrides: Record<string, number>) => dryingOutlook({ sizeClass, blotted: true }, AIR, DEFAULT_CALIBRATION, calibratePlanning(overrides))!.planHours;

describe('the hours of drying in a plan, by the numbers that a network has set', () => {
  test('thick things take their multiple of the thin time, thin ones are not touched by it', () => {
    expect(hours('double-quilt', { thickFactor: 3 }) / hours('double-quilt', { thickFactor: 1 })).toBeCloseTo(3, 9);
    expect(hours('garment', { thickFactor: 3 })).toBe(hours('garment', {}));
  });

  test('nothing counts longer or shorter than the limits', () => {
    expect(hours('book', { longestDryingH: 30 })).toBe(30);
    expect(hours('a4-sheet', { shortestDryingH: 20 })).toBe(20);
  });

  test('air that can take nothing is replaced by the nominal air', () => {
    const outlooks = new DryingOutlooks(calibrate(), calibratePlanning({ nominalAirTempC: 25, nominalRelativeHumidityPct: 45, longestDryingH: 48 }));
    expect(outlooks.nominalAir).toEqual({ airTempC: 25, relativeHumidityPct: 45 });
    expect(outlooks.longestH).toBe(48);
  });

  test('a shortest time above the longest is refused', () => {
    expect(() => calibratePlanning({ shortestDryingH: 20, longestDryingH: 10 })).toThrow('shortestDryingH (20) may not exceed longestDryingH (10)');
  });
});
