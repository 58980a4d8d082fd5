import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import {
  AirPressurePa, AltitudeM, Celsius, ClimateRangeError, dewPointC, enthalpyKjPerKg, EnthalpyKjPerKg, humidityRatio, HumidityRatioKgPerKg, LatentHeatJPerKg, latentHeatJPerKg, moistAir, RelativeHumidityPct,
  saturationPressurePa, SpecificVolumeM3PerKg, specificVolumeM3PerKg, standardPressurePa, vapourPressurePa, VapourPressurePa, wetBulbC, type MoistAir, type QuantityOf,
} from '#climate';
import { number } from './arbitraries.js';

const RANGES: [QuantityOf<number>, name: string, least: number, most: number, unit: string][] = [
  [Celsius, 'tempC', -130, 200, 'C'],
  [RelativeHumidityPct, 'relativeHumidityPct', 0, 100, '%'],
  [AirPressurePa, 'pressurePa', 50_000, 110_000, 'Pa'],
  [VapourPressurePa, 'vapourPressurePa', 0, 1_600_000, 'Pa'],
  [HumidityRatioKgPerKg, 'humidityRatioKgPerKg', 0, 0.5, 'kg/kg'],
  [EnthalpyKjPerKg, 'enthalpyKjPerKg', -60, 1_200, 'kJ/kg'],
  [SpecificVolumeM3PerKg, 'specificVolumeM3PerKg', 0.5, 3.5, 'm3/kg'],
  [AltitudeM, 'altitudeM', -500, 5_000, 'm'],
  [LatentHeatJPerKg, 'latentHeatJPerKg', 2_300_000, 2_600_000, 'J/kg'],
];

function refusal(make: () => unknown): ClimateRangeError {
  try {
    make();
  } catch (error) {
    if (error instanceof ClimateRangeError) return error;
  }
  throw new Error('It was not refused.');
}

describe('a quantity', () => {
  test.each(RANGES)('%p of %s takes the ends of its range as they are, and refuses what lies beyond by name, value, range and unit', (make, name, least, most, unit) => {
    expect([make(least), make(most)]).toEqual([least, most]);
    for (const value of [least - 0.01, most + 0.01]) {
      const error = refusal(() => make(value));
      expect(error).toBeInstanceOf(RangeError);
      expect(error.parameter).toBe(name);
      expect(error.message).toContain(`${name} is ${value}; it must be from ${least} to ${most} ${unit}.`);
    }
    for (const value of [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]) expect(refusal(() => make(value)).message).toContain(`${name} must be a finite number in ${unit}`);
  });

  test('is refused under the name that its caller has for it', () => {
    expect(refusal(() => Celsius(293.15, 'surfaceTempC'))).toMatchObject({ parameter: 'surfaceTempC', message: expect.stringMatching(/^surfaceTempC is 293\.15; it must be from -130 to 200 C/) });
  });

  test('costs nothing once made: it is the number', () => {
    expect(typeof Celsius(20)).toBe('number');
    expect(moistAir({ airTempC: 20, relativeHumidityPct: 50, pressurePa: 90_000 })).toEqual({ airTempC: 20, relativeHumidityPct: 50, pressurePa: 90_000 });
  });
});

test('every answer about air, from one end of its ranges to the other, lies in the range of its own unit', () => {
  const anyAir = fc.record({ airTempC: number(-50, 60), relativeHumidityPct: number(0.01, 100), pressurePa: number(50_000, 110_000) });
  const ends = [-50, 60].flatMap((airTempC) => [0.01, 100].flatMap((relativeHumidityPct) => [50_000, 110_000].map((pressurePa) => [{ airTempC, relativeHumidityPct, pressurePa }] as [{ airTempC: number; relativeHumidityPct: number; pressurePa: number }])));
  fc.assert(
    fc.property(anyAir, (measured) => {
      const air = moistAir(measured);
      const plain = (value: number): number => value;
      expect(() => [
        Celsius(plain(wetBulbC(air))), Celsius(plain(dewPointC(air))), VapourPressurePa(plain(vapourPressurePa(air))), HumidityRatioKgPerKg(plain(humidityRatio(air))),
        EnthalpyKjPerKg(plain(enthalpyKjPerKg(air))), SpecificVolumeM3PerKg(plain(specificVolumeM3PerKg(air))),
      ]).not.toThrow();
    }),
    { numRuns: 1_000, examples: ends },
  );
  for (const surfaceTempC of [-10, 45]) expect(() => LatentHeatJPerKg(latentHeatJPerKg(Celsius(surfaceTempC)) + 0)).not.toThrow();
  for (const altitudeM of [-500, 5_000]) expect(() => AirPressurePa(standardPressurePa(AltitudeM(altitudeM)) + 0)).not.toThrow();
  for (const tempC of [-100, 200]) expect(() => VapourPressurePa(saturationPressurePa(Celsius(tempC)) + 0)).not.toThrow();
});

/** Held by the compiler (`npm run check:types`): each line below it would be an error of its own if it compiled. Never run. */
export function wrongUnitsDoNotCompile(tempC: Celsius, humidityPct: RelativeHumidityPct, pressurePa: AirPressurePa, air: MoistAir): unknown[] {
  return [
    // @ts-expect-error a humidity is no temperature
    saturationPressurePa(humidityPct),
    // @ts-expect-error nor is a plain number, whose unit nobody told
    saturationPressurePa(20),
    // @ts-expect-error temperature and humidity the wrong way round
    { airTempC: humidityPct, relativeHumidityPct: tempC } satisfies MoistAir,
    // @ts-expect-error air as it was measured, not yet checked
    wetBulbC({ airTempC: 20, relativeHumidityPct: 50 }),
    // @ts-expect-error the pressure of the vapour is not that of the air
    { airTempC: tempC, relativeHumidityPct: humidityPct, pressurePa: vapourPressurePa(air) } satisfies MoistAir,
    // @ts-expect-error a pressure is no altitude
    standardPressurePa(pressurePa),
    // @ts-expect-error a humidity ratio is no relative humidity
    { ...air, relativeHumidityPct: humidityRatio(air) } satisfies MoistAir,
    // @ts-expect-error a sum has no unit until its maker says which
    latentHeatJPerKg(tempC + 1),
    // @ts-expect-error what is known to be a humidity is not to be called a temperature
    Celsius(humidityPct),
    // What is right does compile.
    saturationPressurePa(wetBulbC(air)),
    standardPressurePa(AltitudeM(250)),
    { airTempC: dewPointC(air), relativeHumidityPct: humidityPct, pressurePa: standardPressurePa(AltitudeM(250)) } satisfies MoistAir,
    Celsius(tempC + 1),
  ];
}
