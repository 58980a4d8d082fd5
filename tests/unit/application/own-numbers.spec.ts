/** Tables of our own numbers that no pure library holds: what they may be, and that what is set is what is reckoned with. */
import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { DEFAULT_CALIBRATION, planningWeight, SIGNIFICANCES, STEP_KINDS, type Handling, type StepKind } from '#care';
import { calibrateCare, CARE_CALIBRATION } from '../../../libs/application/src/calibration/care-table.js';
import { TABLES } from '../../../libs/application/src/calibration/tables.js';

describe('every table', () => {
  test.each(Object.entries(TABLES))('%s: defaults lie within their limits, and each says why and in which unit', (_, table) => {
    for (const [key, { value, min, max, unit, why, whole, mark }] of Object.entries(table)) {
      expect([key, value >= min && value <= max && min < max]).toEqual([key, true]);
      expect([key, unit.length > 0 && why.length > 10, mark]).toEqual([key, true, 'own-calibration']);
      if (whole) expect([value, min, max].every(Number.isInteger)).toBe(true);
    }
  });
});

describe('the numbers of care', () => {
  test('are the defaults of the library while nothing is set', () => {
    expect(calibrateCare()).toBe(DEFAULT_CALIBRATION);
    // A set that says the defaults says nothing else.
    const defaults = Object.fromEntries(Object.entries(CARE_CALIBRATION).map(([key, { value }]) => [key, value]));
    expect(calibrateCare(defaults)).toEqual(DEFAULT_CALIBRATION);
  });

  test('leave to the rule book what rules cite and choices switch, whatever is set', () => {
    const set = calibrateCare({ canWaitH: 100, rinseMin: 8, treasuredWeight: 20 });
    const { clockHours, freezer, waterWorsensHours, gradeFourFive, leatherBindingsForAirDryingMax, booksForAirDryingMax, urgencyWithinHours, warmAirTempC } = DEFAULT_CALIBRATION;
    expect(set).toMatchObject({ clockHours, freezer, waterWorsensHours, gradeFourFive, leatherBindingsForAirDryingMax, booksForAirDryingMax, urgencyWithinHours, warmAirTempC });
    expect(set).toMatchObject({ canWaitHours: 100, weight: { significance: { treasured: 20 } } });
  });

  test('a step that is set to take longer takes so much longer in every size, and no other step does', () => {
    fc.assert(fc.property(fc.double({ min: 0.1, max: 240, noNaN: true }), (rinseMin) => {
      const set = calibrateCare({ rinseMin });
      const pace = rinseMin / DEFAULT_CALIBRATION.handlingDefault.rinse.minutes;
      const timesOf = (tables: readonly (readonly [Partial<Record<StepKind, Handling>>, Partial<Record<StepKind, Handling>>])[]) => tables.flatMap(([now, before]) => STEP_KINDS.flatMap((step) => {
        const [a, b] = [now[step], before[step]];
        return a === undefined || b === undefined ? [] : [[step, a.minutes / b.minutes, a.crew - b.crew] as const];
      }));
      const tables = [[set.handlingDefault, DEFAULT_CALIBRATION.handlingDefault] as const, ...Object.entries(set.handlingBySize).map(([size, table]) => [table, DEFAULT_CALIBRATION.handlingBySize[size as keyof typeof set.handlingBySize]] as const)];
      for (const [step, times, crew] of timesOf(tables)) {
        expect(times).toBeCloseTo(step === 'rinse' ? pace : 1, 9);
        expect(crew).toBe(0);
      }
    }));
  });

  test('never make a thing that means more weigh less, nor a larger lot less than a smaller', () => {
    const weights = fc.array(fc.double({ min: 1, max: 40, noNaN: true }), { minLength: 4, maxLength: 4 }).map((list) => [...list].sort((a, b) => a - b));
    fc.assert(fc.property(weights, weights, fc.integer({ min: 1, max: 400 }), fc.integer({ min: 1, max: 400 }), ([a, b, c, d], [, x, y, z], one, other) => {
      const set = calibrateCare({ everydayWeight: a!, valuedWeight: b!, treasuredWeight: c!, irreplaceableWeight: d!, lotOf10Factor: x!, lotOf50Factor: y!, lotOf200Factor: z! });
      const bySignificance = SIGNIFICANCES.map((significance) => planningWeight({ significance, onlyCopy: null, count: one }, set));
      expect(bySignificance).toEqual([...bySignificance].sort((m, n) => m - n));
      const byCount = [Math.min(one, other), Math.max(one, other)].map((count) => planningWeight({ significance: 'valued', onlyCopy: null, count }, set));
      expect(byCount[0]).toBeLessThanOrEqual(byCount[1]!);
    }));
    expect(() => calibrateCare({ valuedWeight: 20 })).toThrow('valuedWeight (20) may not exceed treasuredWeight (12)');
    expect(() => calibrateCare({ lotOf50Factor: 5 })).toThrow('may not exceed');
  });
});
