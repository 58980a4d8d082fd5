import { createRequire } from 'node:module';
import { describe, expect, test } from '@jest/globals';
import { dewPointC, enthalpyKjPerKg, humidityRatio, saturationPressurePa, specificVolumeM3PerKg, standardPressurePa, vapourPressurePa, wetBulbC } from '#climate';

/** The part of npm psychrolib 1.1.1 (MIT; ASHRAE Fundamentals 2017) that is compared with. It ships no types. */
interface Oracle {
  SI: number;
  SetUnitSystem(system: number): void;
  GetSatVapPres(airTempC: number): number;
  GetHumRatioFromTWetBulb(airTempC: number, wetBulbC: number, pressurePa: number): number;
  GetStandardAtmPressure(altitudeM: number): number;
  CalcPsychrometricsFromRelHum(airTempC: number, relHum: number, pressurePa: number): [w: number, wetBulb: number, dewPoint: number, pa: number, hJ: number, v: number, mu: number];
}

const oracle = createRequire(import.meta.url)('psychrolib') as Oracle;
// Its unit system is one global variable, without which every call throws.
oracle.SetUnitSystem(oracle.SI);

describe('an independent implementation agrees over the whole grid of hall conditions', () => {
  const temps = Array.from({ length: 23 }, (_, i) => -10 + i * 2.5);
  const humidities = [1, 5, 10, 20, 30, 40, 50, 60, 65, 70, 80, 90, 95, 99, 100];

  test.each([101325, 89875])('at %d Pa', (pressurePa) => {
    const worst = { wetBulb: 0, definition: 0, dew: 0, relative: 0 };
    for (const airTempC of temps) {
      for (const relativeHumidityPct of humidities) {
        const air = { airTempC, relativeHumidityPct, pressurePa };
        const [w, wetBulb, dewPoint, pa, hJ, v] = oracle.CalcPsychrometricsFromRelHum(airTempC, relativeHumidityPct / 100, pressurePa);
        const ours = wetBulbC(air);
        // Close to 0 C the definition has one answer over water and one over ice, and the oracle may land on either.
        if (Math.abs(ours) > 0.5 || Math.abs(wetBulb) > 0.5) worst.wetBulb = Math.max(worst.wetBulb, Math.abs(ours - wetBulb));
        worst.definition = Math.max(worst.definition, Math.abs(oracle.GetHumRatioFromTWetBulb(airTempC, Math.min(ours, airTempC), pressurePa) - w));
        worst.dew = Math.max(worst.dew, Math.abs(dewPointC(air) - dewPoint));
        const relative = [humidityRatio(air) / w, vapourPressurePa(air) / pa, specificVolumeM3PerKg(air) / v].map((ratio) => Math.abs(ratio - 1));
        worst.relative = Math.max(worst.relative, ...relative, Math.abs(enthalpyKjPerKg(air) - hJ / 1000) / 100);
      }
    }
    // The oracle stops its own bisections at 0.001 K.
    expect(worst.wetBulb).toBeLessThan(2e-3);
    expect(worst.definition).toBeLessThan(1e-9);
    expect(worst.dew).toBeLessThan(2e-3);
    expect(worst.relative).toBeLessThan(1e-9);
  });

  test('saturation pressure from -60 to 150 C and standard pressure to 3000 m', () => {
    for (let t = -60; t <= 150; t += 0.5) expect(saturationPressurePa(t) / oracle.GetSatVapPres(t)).toBeCloseTo(1, 9);
    for (let z = 0; z <= 3000; z += 250) expect(standardPressurePa(z)).toBeCloseTo(oracle.GetStandardAtmPressure(z), 1);
  });
});
