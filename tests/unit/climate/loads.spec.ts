import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { averageDryingLoadKgPerH, ClimateRangeError, dryingLoad, STANDARD_ITEM_KINDS, standardExposedAreaM2, standardItem } from '#climate';
import { fibre, number } from './arbitraries.js';

const garment = { airTempC: 20, relativeHumidityPct: 50, dryMassKg: 0.5, exposedAreaM2: 1.7, material: 'cotton' as const, airReach: 'open-rack' as const, startX: 0.8 };

describe('moisture load of drying goods', () => {
  test('load times hours is the water, and the start is the peak', () => {
    fc.assert(fc.property(fibre, number(0.4, 3), number(20, 60), (material, startX, relativeHumidityPct) => {
      const load = dryingLoad({ ...garment, material, startX, relativeHumidityPct });
      expect(load.averageKgPerH! * load.modelHours!).toBeCloseTo(load.waterKg, 9);
      expect(load.peakKgPerH).toBeGreaterThanOrEqual(load.averageKgPerH! - 1e-12);
    }));
  });

  test('a blotted garment on an open rack: 0.3575 kg of water', () => {
    const load = dryingLoad(garment);
    expect(load.waterKg).toBeCloseTo(0.5 * (0.8 - 0.085), 12);
    expect(averageDryingLoadKgPerH(garment)).toBe(load.averageKgPerH);
  });

  test('nothing to give is 0, air too damp is null', () => {
    expect(averageDryingLoadKgPerH({ ...garment, startX: 0.05 })).toBe(0);
    expect(averageDryingLoadKgPerH({ ...garment, relativeHumidityPct: 85 })).toBeNull();
  });

  test('thick goods carry a band with them, not an hour', () => {
    expect(dryingLoad({ ...garment, build: 'thick' }).forecast.hours).toBeNull();
  });
});

describe('standard things', () => {
  test('each is marked as calibration, takes at least the room it covers, and can be reckoned with', () => {
    for (const kind of STANDARD_ITEM_KINDS) {
      const thing = standardItem(kind);
      expect(thing).toMatchObject({ kind, mark: 'own-calibration' });
      expect(thing.areaDm2).toBeGreaterThanOrEqual(thing.faceAreaM2 * 100);
      const load = dryingLoad({ ...garment, dryMassKg: thing.dryMassKg, material: thing.material, build: thing.build, exposedAreaM2: standardExposedAreaM2(kind) });
      expect(load.averageKgPerH).toBeGreaterThan(0);
    }
  });

  test('quilts and books are never given a single drying hour', () => {
    for (const kind of ['crib-quilt', 'throw', 'double-quilt', 'queen-quilt', 'book'] as const) expect(standardItem(kind).build).not.toBe('thin');
  });

  test('an unknown kind is refused with the list', () => {
    expect(() => standardItem(JSON.parse('"piano"'))).toThrow(ClimateRangeError);
    expect(() => standardItem(JSON.parse('"piano"'))).toThrow(/queen-quilt/);
  });
});
