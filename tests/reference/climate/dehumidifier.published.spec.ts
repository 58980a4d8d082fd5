import { describe, expect, test } from '@jest/globals';
import { dehumidifierCurveValue, dehumidifierFactor, dehumidifierRemovalKgPerH, RATING_POINTS, type Dehumidifier } from '#climate';

const labelled: Dehumidifier = { kind: 'refrigerant', ratedLitresPerDay: 20, ratedAtTempC: 26.7, ratedAtRelativeHumidityPct: 60 };

describe('the NREL curve (Winkler, Christensen, Tomerlin 2011; coefficients as read in public implementations), values computed for the physics guidance', () => {
  test.each([
    [26.7, 60, 1],
    [18.33, 60, 0.658],
    [20, 50, 0.514],
    [20, 60, 0.727],
    [20, 80, 1.112],
    [25, 50, 0.699],
    [15, 60, 0.517],
    [30, 60, 1.13],
  ])('%d C, %d %%: %d of the label', (airTempC, relativeHumidityPct, share) => {
    expect(Math.abs(dehumidifierFactor(labelled, { airTempC, relativeHumidityPct }, false) - share)).toBeLessThan(6e-4);
  });

  test('the rating point of ANSI/AHAM DH-1 is 80 F, 60 %', () => {
    expect(RATING_POINTS['aham-dh-1'].ratedAtTempC).toBeCloseTo(26.667, 3);
    expect(RATING_POINTS['aham-dh-1'].ratedAtRelativeHumidityPct).toBe(60);
  });

  test('a machine labelled at 18.3 C removes its label divided by 0.658 at 26.7 C', () => {
    const cold: Dehumidifier = { ...labelled, ...RATING_POINTS['doe-portable'] };
    expect(dehumidifierRemovalKgPerH(cold, { airTempC: 26.7, relativeHumidityPct: 60 }, false) * 24).toBeCloseTo(20 / 0.658, 1);
  });
});

describe('the EnergyPlus example curve gives the test values that the Modelica Buildings library of LBNL publishes for it', () => {
  test('raw at 26.7 C, 60 %: removal 0.980619, energy factor 0.975010', () => {
    expect(dehumidifierCurveValue('energyplus-removal', 26.7, 60)).toBeCloseTo(0.980619, 6);
    expect(dehumidifierCurveValue('energyplus-energy-factor', 26.7, 60)).toBeCloseTo(0.97501, 5);
  });

  test('removal at 21 C, 40 %, over that at the rating point: 0.349', () => {
    const share = dehumidifierCurveValue('energyplus-removal', 21, 40) / dehumidifierCurveValue('energyplus-removal', 26.7, 60);
    expect(share).toBeCloseTo(0.349, 3);
    // And 0.34926 as computed for the physics guidance.
    expect(share).toBeCloseTo(0.34926, 5);
  });
});
