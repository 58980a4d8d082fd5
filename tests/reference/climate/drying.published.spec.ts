import { describe, expect, test } from '@jest/globals';
import { Celsius, constantRateFluxKgPerM2H, dryingLaw, dryingTimeH, moistAir, moistureAfter, saturationPressurePa, wetBulbC, type DryingLaw } from '#climate';

const M2_PER_FT2 = 0.09290304;
const W_PER_BTU_H = 0.29307107;
const PA_PER_INHG = 3386.389;
const MS_PER_FTMIN = 0.00508;

/** The film coefficient that the library uses, W/(m2 Pa), read back from its own flux. */
function filmCoefficient(airSpeedMPerS: number): number {
  const air = { airTempC: 20, relativeHumidityPct: 50, airSpeedMPerS };
  const tw = wetBulbC(moistAir(air));
  const latent = 2.501e6 - 2361 * tw;
  return ((constantRateFluxKgPerM2H({ ...air, airReach: 'fan-across' }) / 3600) * latent) / (saturationPressurePa(tw) - 0.5 * saturationPressurePa(Celsius(20)));
}

describe('the pool equation in inch-pound units (ASHRAE Transactions 1998, 104-1A, as quoted there) gives our SI constants within 1 %', () => {
  test('P1: 95 Btu/(h ft2 inHg) in still air', () => {
    const converted = (95 * W_PER_BTU_H) / M2_PER_FT2 / PA_PER_INHG;
    expect(converted).toBeCloseTo(0.0885, 4);
    expect(Math.abs(filmCoefficient(0) / converted - 1)).toBeLessThan(0.01);
  });

  test('P2: 0.425 more per ft/min', () => {
    const converted = (0.425 * W_PER_BTU_H) / M2_PER_FT2 / PA_PER_INHG / MS_PER_FTMIN;
    expect(converted).toBeCloseTo(0.0779, 4);
    expect(Math.abs((filmCoefficient(1) - filmCoefficient(0)) / converted - 1)).toBeLessThan(0.01);
  });
});

describe('two shirts weighed while drying on an outdoor line (informal published measurement) keep the shape within 4 g', () => {
  const grams = (law: DryingLaw, dryG: number, startG: number, minutes: number): number => dryG * (1 + moistureAfter(law, startG / dryG - 1, minutes / 60));

  test('P4: cotton; constant rate 116 g/h, Xc 0.20 and Xe 0.041 are fitted, the curve is the test', () => {
    const law = { ratePerH: 116 / 158, criticalX: 0.2, equilibriumX: 0.041 };
    const modelled = [0, 15, 30, 45, 60, 75, 90].map((minutes) => grams(law, 158, 280, minutes));
    [280, 251, 220, 193, 172, 167, 164].forEach((measured, i) => expect(Math.abs(modelled[i]! - measured)).toBeLessThan(4));
    [280, 251, 222, 193, 173.6, 167.4, 165.4].forEach((computed, i) => expect(Math.abs(modelled[i]! - computed)).toBeLessThan(0.1));
  });

  test('P5: merino; constant rate 140 g/h, Xc 0.30, Xe 0.0846', () => {
    const law = { ratePerH: 140 / 130, criticalX: 0.3, equilibriumX: 0.0846 };
    const modelled = [0, 15, 30, 45, 60].map((minutes) => grams(law, 130, 220, minutes));
    [220, 185, 156, 145, 141].forEach((measured, i) => expect(Math.abs(modelled[i]! - measured)).toBeLessThan(4));
    [220, 185, 155.2, 145.1, 142.2].forEach((computed, i) => expect(Math.abs(modelled[i]! - computed)).toBeLessThan(0.1));
  });

  test('the level is of the measured order: the shirt lost 0.10-0.12 kg/(m2 h), the model gives 0.099 at 20 C, 50 %, 1 m/s', () => {
    expect(constantRateFluxKgPerM2H({ airTempC: 20, relativeHumidityPct: 50, airSpeedMPerS: 1, airReach: 'fan-across' })).toBeCloseTo(0.099, 3);
  });
});

describe('P8: fabrics of one area lose the same mass an hour until Xc (Fourt, Sookne, Frishman, Harris, The Rate of Drying of Fabrics, abstract)', () => {
  test('a light cotton and a heavy wool', () => {
    const shared = { airTempC: 20, relativeHumidityPct: 50, exposedAreaM2: 2 };
    const cotton = dryingLaw({ ...shared, dryMassKg: 0.3, material: 'cotton' });
    const wool = dryingLaw({ ...shared, dryMassKg: 1.2, material: 'wool' });
    const lossKg = (law: DryingLaw, dryMassKg: number): number => dryMassKg * (1.5 - moistureAfter(law, 1.5, 2));
    expect(lossKg(cotton, 0.3)).toBeCloseTo(lossKg(wool, 1.2), 12);
  });
});

describe('constant-rate flux at P 101325 Pa, kE 1 (computed twice, by independent programs, for the physics guidance)', () => {
  test.each([
    ['E1', 20, 50, 0.1, 13.78, 0.05746],
    ['E2', 20, 65, 0.1, 15.8, 0.03891],
    ['E3', 25, 40, 0.5, 16.21, 0.10773],
    ['E4', 30, 30, 1, 17.97, 0.19263],
  ])('%s: %d C, %d %%, %d m/s', (_name, airTempC, relativeHumidityPct, airSpeedMPerS, tw, flux) => {
    const air = { airTempC, relativeHumidityPct, airSpeedMPerS };
    expect(wetBulbC(moistAir(air))).toBeCloseTo(tw, 2);
    expect(Math.abs(constantRateFluxKgPerM2H({ ...air, airReach: 'fan-across' }) - flux)).toBeLessThan(5.1e-6);
  });

  const e1 = constantRateFluxKgPerM2H({ airTempC: 20, relativeHumidityPct: 50, airSpeedMPerS: 0.1, airReach: 'fan-across' });
  const film = 0.089 + 0.0782 * 0.1;

  test('E9: the surface is not at air temperature, which would be 2.9 times too fast', () => {
    const trap = ((film * 0.5 * saturationPressurePa(Celsius(20))) / (2.501e6 - 2361 * 20)) * 3600;
    expect(Math.abs(trap - 0.16611)).toBeLessThan(0.0003);
    expect(trap / e1).toBeCloseTo(2.9, 1);
  });

  test('E10: the independent Penman combination, linearised midway between air and wet bulb, gives 0.05844, 1.7 % above', () => {
    const mid = (20 + wetBulbC(moistAir({ airTempC: 20, relativeHumidityPct: 50 }))) / 2;
    const latent = 2.501e6 - 2361 * mid;
    const gamma = (1006 * 101325) / (0.621945 * latent);
    const slope = (saturationPressurePa(Celsius(mid + 0.01)) - saturationPressurePa(Celsius(mid - 0.01))) / 0.02;
    const penman = ((film * gamma * 0.5 * saturationPressurePa(Celsius(20))) / ((slope + gamma) * latent)) * 3600;
    // The guidance does not say where it linearised; 0.5 % covers the choice.
    expect(Math.abs(penman / 0.05844 - 1)).toBeLessThan(0.005);
    expect(Math.abs(penman / e1 - 1.017)).toBeLessThan(0.005);
  });

  test.each([[0, 0.05746], [0.5, 0.07054], [1, 0.08063]])('with radiation share %d from a warm room: %d kg/(m2 h)', (radiationFactor, flux) => {
    expect(Math.abs(constantRateFluxKgPerM2H({ airTempC: 20, relativeHumidityPct: 50, airSpeedMPerS: 0.1, airReach: 'fan-across', radiationFactor }) - flux)).toBeLessThan(2e-5);
  });
});

describe('drying times of a cotton cover, 2.4 kg dry, 4 m2 with two faces, X 1.2 to 0.085 at 20 C (computed for the physics guidance)', () => {
  const cover = { airTempC: 20, relativeHumidityPct: 50, dryMassKg: 2.4, exposedAreaM2: 8, material: 'cotton' as const };

  test.each([
    ['open rack, 0.1 m/s', 'open-rack' as const, 0.1, 10.49],
    ['packed rack, 0.1 m/s', 'packed-rack' as const, 0.1, 19.48],
    ['fan at 1 m/s', 'fan-across' as const, 1, 3.95],
  ])('%s', (_name, airReach, airSpeedMPerS, hours) => {
    expect(dryingTimeH(dryingLaw({ ...cover, airReach, airSpeedMPerS }), 1.2, 0.085)).toBeCloseTo(hours, 2);
  });

  test('at 80 % it never dries', () => {
    expect(dryingTimeH(dryingLaw({ ...cover, relativeHumidityPct: 80 }), 1.2, 0.085)).toBeNull();
  });

  test('the closed forms invert each other to 1e-9', () => {
    const law = dryingLaw(cover);
    const hours = dryingTimeH(law, 1.2, 0.085);
    expect(hours).not.toBeNull();
    expect(Math.abs(moistureAfter(law, 1.2, hours!) - 0.085)).toBeLessThan(1e-9);
  });
});
