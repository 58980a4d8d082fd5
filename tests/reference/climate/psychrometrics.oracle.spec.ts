import { createRequire } from 'node:module';
import { describe, expect, test } from '@jest/globals';
import { AltitudeM, Celsius, dewPointC, enthalpyKjPerKg, humidityRatio, moistAir, saturationPressurePa, specificVolumeM3PerKg, standardPressurePa, vapourPressurePa, wetBulbC } from '#climate';

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

// 101 temperatures, 100 humidities, two pressures: 20 200 points.
const temps = Array.from({ length: 101 }, (_, i) => -10 + i * 0.55);
const humidities = Array.from({ length: 100 }, (_, i) => i + 1);

describe('an independent implementation agrees over a grid of 20 200 points from -10 to 45 C and 1 to 100 %', () => {
  test.each([101325, 89875])('at %d Pa', (pressurePa) => {
    const worst = { wetBulb: 0, definition: 0, dew: 0, relative: 0 };
    let points = 0;
    let twoAnswers = 0;
    for (const airTempC of temps) {
      for (const relativeHumidityPct of humidities) {
        points += 1;
        const air = moistAir({ airTempC, relativeHumidityPct, pressurePa });
        const [w, wetBulb, dewPoint, pa, hJ, v] = oracle.CalcPsychrometricsFromRelHum(airTempC, relativeHumidityPct / 100, pressurePa);
        const ours = wetBulbC(air);
        // Close to 0 C the definition has one answer over water and one over ice, and the oracle may land on either: up to 0.8 K apart in dry air.
        if (ours >= 0 !== wetBulb >= 0 && Math.abs(ours - wetBulb) < 0.8) twoAnswers += 1;
        else worst.wetBulb = Math.max(worst.wetBulb, Math.abs(ours - wetBulb));
        worst.definition = Math.max(worst.definition, Math.abs(oracle.GetHumRatioFromTWetBulb(airTempC, Math.min(ours, airTempC), pressurePa) - w));
        worst.dew = Math.max(worst.dew, Math.abs(dewPointC(air) - dewPoint));
        const relative = [humidityRatio(air) / w, vapourPressurePa(air) / pa, specificVolumeM3PerKg(air) / v].map((ratio) => Math.abs(ratio - 1));
        worst.relative = Math.max(worst.relative, ...relative, Math.abs(enthalpyKjPerKg(air) - hJ / 1000) / 100);
      }
    }
    expect(points).toBe(10_100);
    expect(twoAnswers).toBeLessThan(200);
    // The oracle stops its own bisections at 0.001 K.
    expect(worst.wetBulb).toBeLessThan(2e-3);
    expect(worst.definition).toBeLessThan(1e-9);
    expect(worst.dew).toBeLessThan(2e-3);
    expect(worst.relative).toBeLessThan(1e-9);
  });

  test('saturation pressure from -60 to 150 C and standard pressure to 3000 m', () => {
    for (let t = -60; t <= 150; t += 0.5) expect(saturationPressurePa(Celsius(t)) / oracle.GetSatVapPres(t)).toBeCloseTo(1, 9);
    for (let z = 0; z <= 3000; z += 250) expect(standardPressurePa(AltitudeM(z))).toBeCloseTo(oracle.GetStandardAtmPressure(z), 1);
  });
});
