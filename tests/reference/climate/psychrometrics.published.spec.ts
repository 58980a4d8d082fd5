import { describe, expect, test } from '@jest/globals';
import {
  AltitudeM,
  Celsius,
  dewPointC,
  enthalpyKjPerKg,
  humidityRatio,
  latentHeatJPerKg,
  moistAir,
  saturationPressurePa,
  specificVolumeM3PerKg,
  standardPressurePa,
  vapourPressurePa,
  wetBulbC,
  type MoistAir,
} from '#climate';

const ASHRAE_3 = 'ASHRAE Fundamentals 2017 ch. 1 table 3, via the tests of PsychroLib';
const IF97 = 'IAPWS-IF97, coefficients from memory, validated on its own check value';
const fahrenheit = (f: number): number => ((f - 32) * 5) / 9;

describe('saturation pressure agrees with published tables within 3 parts in 10 000', () => {
  test.each([
    [-20, 103.24, ASHRAE_3],
    [-5, 401.74, ASHRAE_3],
    [5, 872.6, ASHRAE_3],
    [20, 2339.21, IF97],
    [25, 3169.7, ASHRAE_3],
    [30, 4246.69, IF97],
    [50, 12351.3, ASHRAE_3],
    [100, 101418, ASHRAE_3],
  ])('%d C is %d Pa (%s)', (tempC, expected) => {
    expect(Math.abs(saturationPressurePa(Celsius(tempC)) / expected - 1)).toBeLessThan(3e-4);
  });

  test('the triple point is 611.657 Pa within 0.2 Pa (value from memory)', () => {
    expect(Math.abs(saturationPressurePa(Celsius(0.01)) - 611.657)).toBeLessThan(0.2);
  });
});

describe('humidity ratio at saturation lies a little below the real-gas table (ASHRAE 2017 table 2, via PsychroLib tests)', () => {
  test.each([
    [5, 0.005425, 0.005],
    [25, 0.020173, 0.005],
    [50, 0.086863, 0.01],
  ])('%d C is %d kg/kg', (airTempC, table, share) => {
    const ours = humidityRatio(moistAir({ airTempC, relativeHumidityPct: 100 }));
    expect(ours).toBeLessThan(table);
    expect(1 - ours / table).toBeLessThan(share);
  });
});

describe('ASHRAE Fundamentals 2017 ch. 1 example 1: 40 C dry bulb, 20 C wet bulb (chart readings)', () => {
  // The example is given by its wet bulb; the humidity that yields it is found by halving.
  const air = ((): MoistAir => {
    let [low, high] = [1, 100];
    for (let i = 0; i < 60; i += 1) {
      const mid = (low + high) / 2;
      if (wetBulbC(moistAir({ airTempC: 40, relativeHumidityPct: mid })) < 20) low = mid;
      else high = mid;
    }
    return moistAir({ airTempC: 40, relativeHumidityPct: low });
  })();

  test('relative humidity 14 % within 1 %', () => expect(Math.abs(air.relativeHumidityPct - 14)).toBeLessThan(1));
  test('humidity ratio 6.5 g/kg within 0.1', () => expect(Math.abs(humidityRatio(air) * 1000 - 6.5)).toBeLessThanOrEqual(0.1));
  test('enthalpy 56.7 kJ/kg within 0.1', () => expect(Math.abs(enthalpyKjPerKg(air) - 56.7)).toBeLessThan(0.1));
  test('specific volume 0.896 m3/kg within 0.001', () => expect(Math.abs(specificVolumeM3PerKg(air) - 0.896)).toBeLessThan(0.001));
  test('dew point 7 C within 0.5 K', () => expect(Math.abs(dewPointC(air) - 7)).toBeLessThan(0.5));
});

describe('wet bulb', () => {
  test('the ANSI/AHAM DH-1 rating point 80 F, 60 % has a wet bulb of 69.6 F within 0.1 F (P3)', () => {
    const wetBulbF = wetBulbC(moistAir({ airTempC: fahrenheit(80), relativeHumidityPct: 60 })) * 1.8 + 32;
    expect(Math.abs(wetBulbF - 69.6)).toBeLessThan(0.1);
  });

  test('20 C, 50 % is within 1 C of the 13.70 of the Stull fit (a fit, not a definition) and 13.783 by definition', () => {
    const ours = wetBulbC(moistAir({ airTempC: 20, relativeHumidityPct: 50 }));
    expect(Math.abs(ours - 13.7)).toBeLessThan(1);
    expect(Math.abs(ours - 13.783)).toBeLessThan(1e-3);
  });
});

describe('regression values, computed for the physics guidance', () => {
  test('25 C, 50 %', () => {
    const air = moistAir({ airTempC: 25, relativeHumidityPct: 50 });
    expect(humidityRatio(air)).toBeCloseTo(0.009881, 7);
    expect(wetBulbC(air)).toBeCloseTo(17.889, 3);
    expect(dewPointC(air)).toBeCloseTo(13.864, 3);
    expect(enthalpyKjPerKg(air)).toBeCloseTo(50.32, 2);
    expect(specificVolumeM3PerKg(air)).toBeCloseTo(0.85804, 5);
  });

  test('30 C, 40 %', () => {
    const air = moistAir({ airTempC: 30, relativeHumidityPct: 40 });
    expect(wetBulbC(air)).toBeCloseTo(20.064, 3);
    expect(humidityRatio(air)).toBeCloseTo(0.0106028, 7);
    expect(dewPointC(air)).toBeCloseTo(14.936, 3);
  });

  test.each([[-20, 103.26], [-5, 401.764], [5, 872.487], [20, 2338.804], [25, 3169.216], [30, 4246.03], [50, 12349.86], [100, 101418.7]])(
    'saturation pressure at %d C is %d Pa to the digits given',
    (tempC, pa) => expect(Math.abs(saturationPressurePa(Celsius(tempC)) / pa - 1)).toBeLessThan(1e-5),
  );
});

describe('standard pressure (ASHRAE Fundamentals 2017 ch. 1 table 1, via PsychroLib tests) within 1 Pa', () => {
  test.each([[0, 101325], [500, 95461], [1000, 89875]])('%d m is %d Pa', (altitudeM, pa) => {
    expect(Math.abs(standardPressurePa(AltitudeM(altitudeM)) - pa)).toBeLessThan(1);
  });
});

test('latent heat is the linear fit 2.501 MJ/kg less 2361 J per degree', () => {
  expect(latentHeatJPerKg(Celsius(0))).toBe(2.501e6);
  expect(latentHeatJPerKg(Celsius(20))).toBeCloseTo(2453780, 0);
});

test('vapour pressure is the share of saturation that relative humidity says', () => {
  expect(vapourPressurePa(moistAir({ airTempC: 20, relativeHumidityPct: 50 }))).toBeCloseTo(2338.804 / 2, 2);
});
