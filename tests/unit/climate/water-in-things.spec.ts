import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import {
  calibrate,
  ClimateRangeError,
  dryTargetX,
  equilibriumMoistureX,
  MATERIALS,
  MATERIAL_TABLE,
  moistureAtStageX,
  poreCeilingX,
  waterActivity,
  waterToRemoveAtStageKg,
  waterToRemoveKg,
  wetMassKg,
} from '#climate';
import { fibre, number } from './arbitraries.js';

describe('moisture at rest', () => {
  test('water activity inverts equilibrium moisture', () => {
    fc.assert(fc.property(fibre, number(0, 100), (material, rh) => {
      expect(waterActivity(material, equilibriumMoistureX(material, rh)) * 100).toBeCloseTo(rh, 6);
    }));
  });

  test('equilibrium moisture never falls with humidity and passes the 65 % regain', () => {
    fc.assert(fc.property(fibre, number(0, 99), number(0, 1), (material, rh, more) => {
      expect(equilibriumMoistureX(material, rh + more)).toBeGreaterThanOrEqual(equilibriumMoistureX(material, rh));
    }));
    for (const material of MATERIALS) expect(equilibriumMoistureX(material, 65)).toBeCloseTo(MATERIAL_TABLE[material].regainAt65X.value, 12);
  });

  test('every dry target is below the activity at which mould can grow, and reachable at 65 % RH', () => {
    for (const material of MATERIALS) {
      expect(waterActivity(material, dryTargetX(material))).toBeLessThan(0.75);
      expect(dryTargetX(material)).toBeGreaterThan(equilibriumMoistureX(material, 65));
    }
  });

  test('a wet thing has water activity 1', () => {
    expect(waterActivity('cotton', 0.24)).toBe(1);
    expect(waterActivity('wool', 3)).toBe(1);
  });
});

describe('water by stage', () => {
  test('each stage of getting water out leaves less', () => {
    const x = (['dripping', 'drained', 'hand-wrung', 'blotted', 'spun'] as const).map((stage) => moistureAtStageX({ stage }));
    expect(x).toEqual([...x].sort((a, b) => b - a));
  });

  test('thickness and areal mass replace the general figure', () => {
    const towel = { stage: 'dripping' as const, thicknessM: 0.004, arealMassKgPerM2: 0.5 };
    expect(moistureAtStageX(towel)).toBeCloseTo(0.6 * poreCeilingX(0.004, 0.5), 12);
    expect(moistureAtStageX({ ...towel, stage: 'drained' })).toBeCloseTo(0.4 * poreCeilingX(0.004, 0.5), 12);
  });

  test('no stage holds more than the pores do', () => {
    expect(moistureAtStageX({ stage: 'blotted', thicknessM: 0.0001, arealMassKgPerM2: 0.1 })).toBeCloseTo(poreCeilingX(0.0001, 0.1), 12);
    expect(poreCeilingX(0.0001, 1)).toBe(0);
  });

  test('padded goods keep more water when blotted', () => {
    expect(moistureAtStageX({ stage: 'blotted', padded: true })).toBeGreaterThan(moistureAtStageX({ stage: 'blotted' }));
  });

  test('a network may put its own weighing in place of ours', () => {
    expect(moistureAtStageX({ stage: 'blotted' }, calibrate({ blottedX: 0.95 }))).toBe(0.95);
  });

  test('a blotted 2.1 kg cotton quilt has its blotted water less its target to lose', () => {
    expect(waterToRemoveAtStageKg({ stage: 'blotted', padded: true, material: 'cotton', dryMassKg: 2.1 })).toBeCloseTo(2.1 * (1.25 - 0.085), 12);
  });

  test('goods drier than their target have nothing to lose', () => {
    expect(waterToRemoveKg({ dryMassKg: 2, startX: 0.05, targetX: 0.085 })).toBe(0);
  });
});

describe('refusals', () => {
  test.each([
    ['no mass', () => wetMassKg(0, 1)],
    ['moisture given as a percentage', () => wetMassKg(1, 80)],
    ['an unknown material', () => dryTargetX(JSON.parse('"asbestos"'))],
    ['a name from the object prototype', () => dryTargetX(JSON.parse('"toString"'))],
    ['an unknown stage', () => moistureAtStageX({ stage: JSON.parse('"soggy"') })],
    ['saturation below the regain', () => waterActivity({ regainAt65X: 0.1, saturationX: 0.05, criticalX: 0.2 }, 0.1)],
    ['millimetres for metres', () => poreCeilingX(4, 0.5)],
  ])('%s', (_name, act) => expect(act).toThrow(ClimateRangeError));
});
