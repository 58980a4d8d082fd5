import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { calibrate, ClimateRangeError, dehumidifierFactor, dehumidifierRemovalKgPerH, RATING_POINTS, type Dehumidifier } from '#climate';
import { number } from './arbitraries.js';

const refrigerant: Dehumidifier = { kind: 'refrigerant', ratedLitresPerDay: 20, ...RATING_POINTS['aham-dh-1'] };
const desiccant: Dehumidifier = { ...refrigerant, kind: 'desiccant', makerStatesConstantRemoval: true };

describe('dehumidifier', () => {
  test('at its own rating point it does what the label says, whichever point that is', () => {
    for (const point of Object.values(RATING_POINTS)) {
      const machine: Dehumidifier = { ...refrigerant, ...point };
      expect(dehumidifierRemovalKgPerH(machine, { airTempC: point.ratedAtTempC, relativeHumidityPct: point.ratedAtRelativeHumidityPct }, false)).toBeCloseTo(20 / 24, 12);
    }
  });

  test('it never removes less than nothing, and a promise never more than the label', () => {
    fc.assert(fc.property(number(-20, 60), number(0, 100), fc.constantFrom(...Object.values(RATING_POINTS)), (airTempC, relativeHumidityPct, point) => {
      const machine: Dehumidifier = { ...refrigerant, ...point };
      const real = dehumidifierFactor(machine, { airTempC, relativeHumidityPct }, false);
      const promised = dehumidifierFactor(machine, { airTempC, relativeHumidityPct }, true);
      expect(promised).toBeGreaterThanOrEqual(0);
      expect(promised).toBe(Math.min(1, real));
    }));
  });

  test('it removes no less from wetter and from warmer air', () => {
    fc.assert(fc.property(number(-5, 40), number(20, 90), number(0, 5), (airTempC, rh, more) => {
      const base = dehumidifierFactor(refrigerant, { airTempC, relativeHumidityPct: rh }, false);
      expect(dehumidifierFactor(refrigerant, { airTempC, relativeHumidityPct: rh + more }, false)).toBeGreaterThanOrEqual(base);
      expect(dehumidifierFactor(refrigerant, { airTempC: airTempC + more, relativeHumidityPct: rh }, false)).toBeGreaterThanOrEqual(base - 1e-12);
    }));
  });

  test('frost: half of the 15 C figure at 10 C, nothing at 5 C and below', () => {
    const at = (airTempC: number): number => dehumidifierFactor(refrigerant, { airTempC, relativeHumidityPct: 70 }, false);
    expect(at(10)).toBeCloseTo(at(15) / 2, 12);
    expect(at(5)).toBe(0);
    expect(at(-3)).toBe(0);
  });

  test('outside its window the curve is held at the edge', () => {
    const at = (airTempC: number, relativeHumidityPct: number): number => dehumidifierFactor(refrigerant, { airTempC, relativeHumidityPct }, false);
    expect(at(40, 60)).toBe(at(32.2, 60));
    expect(at(25, 99)).toBe(at(25, 80));
    expect(at(25, 10)).toBe(at(25, 30));
  });

  test('a desiccant machine counts in full from 1 to 30 C only when its maker says so', () => {
    const at = (machine: Dehumidifier, airTempC: number): number => dehumidifierFactor(machine, { airTempC, relativeHumidityPct: 60 }, true);
    expect([0.9, 1, 8, 30, 30.1].map((t) => at(desiccant, t))).toEqual([0, 1, 1, 1, 0]);
    expect(at({ ...desiccant, makerStatesConstantRemoval: false }, 8)).toBe(at(refrigerant, 8));
  });

  test('a network may allow a lower promise', () => {
    expect(dehumidifierFactor(desiccant, { airTempC: 20, relativeHumidityPct: 60 }, true, calibrate({ promiseFactorMax: 0.8 }))).toBe(0.8);
  });

  test.each([
    ['a rating point that no label has', { ...refrigerant, ratedAtRelativeHumidityPct: 20 }],
    ['a negative label', { ...refrigerant, ratedLitresPerDay: -1 }],
    ['an unknown kind', { ...refrigerant, kind: JSON.parse('"sponge"') }],
    ['a rating in Fahrenheit', { ...refrigerant, ratedAtTempC: 80 }],
  ])('%s is refused', (_name, machine) => {
    expect(() => dehumidifierFactor(machine, { airTempC: 20, relativeHumidityPct: 50 }, false)).toThrow(ClimateRangeError);
  });
});
