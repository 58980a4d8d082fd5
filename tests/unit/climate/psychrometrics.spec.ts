import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { AltitudeM, Celsius, ClimateRangeError, dewPointC, humidityRatio, latentHeatJPerKg, moistAir, saturationPressurePa, standardPressurePa, wetBulbC } from '#climate';
import { number } from './arbitraries.js';

const anyAir = fc.record({ airTempC: number(-30, 60), relativeHumidityPct: number(0.5, 100), pressurePa: number(70000, 108000) }).map(moistAir);

describe('moist air', () => {
  test('saturation pressure rises with temperature', () => {
    fc.assert(fc.property(number(-100, 199), number(0.02, 1), (t, step) => saturationPressurePa(Celsius(t + step)) > saturationPressurePa(Celsius(t))));
  });

  test('dew point <= wet bulb <= dry bulb', () => {
    fc.assert(
      fc.property(anyAir, (air) => {
        const [dew, wet] = [dewPointC(air), wetBulbC(air)];
        // Over ice the wet bulb of nearly saturated air meets the frost point to within the approximation of the constants.
        expect(dew).toBeLessThanOrEqual(wet + 1e-3);
        expect(wet).toBeLessThanOrEqual(air.airTempC + 1e-9);
      }),
      { numRuns: 500 },
    );
  });

  test('saturated air above freezing has one temperature', () => {
    fc.assert(
      fc.property(number(0.1, 60), (airTempC) => {
        const air = moistAir({ airTempC, relativeHumidityPct: 100 });
        expect(wetBulbC(air)).toBeCloseTo(airTempC, 6);
        expect(dewPointC(air)).toBe(airTempC);
      }),
    );
  });

  test('a wetter air has a higher wet bulb', () => {
    fc.assert(
      fc.property(number(-20, 50), number(1, 98), number(0.5, 2), (airTempC, rh, more) => {
        expect(wetBulbC(moistAir({ airTempC, relativeHumidityPct: rh + more }))).toBeGreaterThanOrEqual(wetBulbC(moistAir({ airTempC, relativeHumidityPct: rh })));
      }),
    );
  });

  test('air cooled to its dew point is saturated with the water it had', () => {
    fc.assert(
      fc.property(anyAir, (air) => {
        expect(humidityRatio(moistAir({ ...air, airTempC: Math.max(-50, dewPointC(air)), relativeHumidityPct: 100 }))).toBeGreaterThanOrEqual(humidityRatio(air) * (1 - 1e-6));
      }),
    );
  });
});

describe('a reading that cannot be right is refused with a sentence that says what to fix', () => {
  const good = { airTempC: 20, relativeHumidityPct: 50 };

  test.each([
    ['Kelvin for Celsius', () => wetBulbC(moistAir({ ...good, airTempC: 293 })), 'airTempC', /Celsius/],
    ['above saturation', () => humidityRatio(moistAir({ ...good, relativeHumidityPct: 101 })), 'relativeHumidityPct', /percentage/],
    ['negative humidity', () => humidityRatio(moistAir({ ...good, relativeHumidityPct: -1 })), 'relativeHumidityPct', /0 to 100/],
    ['not a number', () => dewPointC(moistAir({ ...good, airTempC: Number.NaN })), 'airTempC', /finite/],
    ['hectopascal for pascal', () => wetBulbC(moistAir({ ...good, pressurePa: 1013 })), 'pressurePa', /pascal/],
    ['dry air has no dew point', () => dewPointC(moistAir({ ...good, relativeHumidityPct: 0 })), 'relativeHumidityPct', /no dew point/],
    ['altitude in feet', () => standardPressurePa(AltitudeM(12000)), 'altitudeM', /metres/],
    ['colder than the equation of saturation', () => saturationPressurePa(Celsius(-120)), 'airTempC', /-100 to 200/],
    ['infinite', () => saturationPressurePa(Celsius(Number.POSITIVE_INFINITY)), 'tempC', /finite/],
    ['beyond the fit', () => latentHeatJPerKg(Celsius(80)), 'surfaceTempC', /-10 to 45/],
  ])('%s', (_name, act, parameter, words) => {
    const thrown = ((): unknown => {
      try {
        return act();
      } catch (error) {
        return error;
      }
    })();
    expect(thrown).toBeInstanceOf(ClimateRangeError);
    expect(thrown).toBeInstanceOf(RangeError);
    expect(thrown).toMatchObject({ parameter, message: expect.stringMatching(words) });
  });

  test('text is refused even when it looks like a number', () => {
    expect(() => saturationPressurePa(Celsius(JSON.parse('"20"')))).toThrow(/the text "20"/);
  });
});
