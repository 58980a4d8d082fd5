/**
 * Values computed for the physics guidance (sections 1.2, 2.2, 2.4, 3.3, 3.4), which no publication states: they fix our
 * arithmetic. Published values stand in the files called `.published`.
 */
import { describe, expect, test } from '@jest/globals';
import {
  Celsius, constantRateFluxKgPerM2H, DEHUMIDIFIER_CURVES, dehumidifierCurveValue, equilibriumMoistureX, humidityRatio, linearRoomHumidity, MATERIAL_TABLE, moistAir, RATING_POINTS, saturationPressurePa, specificVolumeM3PerKg, waterActivity, wetBulbC, wetMassKg,
} from '#climate';

describe('1.2 moist air', () => {
  test.each([[5, 0.005402], [25, 0.020081], [50, 0.086327]])('humidity ratio at saturation, %d C: %d', (airTempC, w) => {
    expect(humidityRatio(moistAir({ airTempC, relativeHumidityPct: 100 }))).toBeCloseTo(w, 6);
  });

  test('wet bulb at 80 F, 60 %: 69.65 F', () => {
    expect(wetBulbC(moistAir({ airTempC: (80 - 32) / 1.8, relativeHumidityPct: 60 })) * 1.8 + 32).toBeCloseTo(69.65, 2);
  });

  /** Saturation pressure by IAPWS-IF97, region 4: another formula, coefficients from memory. Pa, of kelvin. */
  const if97 = (k: number): number => {
    const n = [1167.0521452767, -724213.16703206, -17.073846940092, 12020.82470247, -3232555.0322333, 14.91510861353, -4823.2657361591, 405113.40542057, -0.23855557567849, 650.17534844798] as const;
    const theta = k + n[8] / (k - n[9]);
    const [a, b, c] = [theta ** 2 + n[0] * theta + n[1], n[2] * theta ** 2 + n[3] * theta + n[4], n[5] * theta ** 2 + n[6] * theta + n[7]];
    return 1e6 * ((2 * c) / (-b + Math.sqrt(b * b - 4 * a * c))) ** 4;
  };

  test('the remembered IAPWS-IF97 coefficients reproduce its own check value, 3536.58941 Pa at 300 K, and 611.657 Pa at 0.01 C', () => {
    expect(Math.abs(if97(300) - 3536.58941)).toBeLessThan(1e-4);
    expect(if97(273.16)).toBeCloseTo(611.657, 2);
  });

  test('our saturation pressure stays within 3 parts in 10 000 of it from 0.01 to 100 C', () => {
    for (let t = 0.01; t <= 100; t += 0.49) expect(Math.abs(saturationPressurePa(Celsius(t)) / if97(t + 273.15) - 1)).toBeLessThan(3e-4);
  });
});

describe('2.2 the pool equation as an indoor film coefficient', () => {
  const gamma = (1006 * 101325) / (0.621945 * (2.501e6 - 2361 * 15));
  const still = constantRateFluxKgPerM2H({ airTempC: 20, relativeHumidityPct: 50, airSpeedMPerS: 0, airReach: 'fan-across' });

  test('psychrometric constant 66.47 Pa/K at 15 C; film 5.92 + 5.20 V W/(m2 K)', () => {
    expect(gamma).toBeCloseTo(66.47, 2);
    expect(0.089 * gamma).toBeCloseTo(5.92, 2);
    expect(0.0782 * gamma).toBeCloseTo(5.2, 2);
  });

  test('the short form 4e-5 kg/(s m2 kPa) is 4.03e-5 at 0.1 m/s and 2400 kJ/kg', () => {
    expect((0.089 + 0.0782 * 0.1) / 2400).toBeCloseTo(4.03e-5, 7);
  });

  /** Laminar natural convection on a vertical plate (Churchill and Chu, from memory), 1 m, air at 17 C, buoyancy with vapour. */
  const naturalFilm = ((): number => {
    const rayleigh = (9.81 * 5.76) / (290 * 1.48e-5 * 2.08e-5);
    return 0.0255 * (0.68 + (0.67 * rayleigh ** 0.25) / (1 + (0.492 / 0.711) ** (9 / 16)) ** (4 / 9));
  })();

  test('natural convection on a 1 m wet sheet gives 2.10 W/(m2 K), 0.35 of the pool value', () => {
    expect(naturalFilm).toBeCloseTo(2.1, 1);
    expect(2.1 / 5.92).toBeCloseTo(0.35, 2);
  });

  test('flux 0.0187 kg/(m2 h) without radiation gain and 0.0346 with all of it; open rack 0.0346/0.0528 = 0.65', () => {
    const packed = { airTempC: 20, relativeHumidityPct: 50, airSpeedMPerS: 0, arrangementFactor: 2.1 / 5.92 };
    expect(still).toBeCloseTo(0.0528, 4);
    expect(constantRateFluxKgPerM2H(packed)).toBeCloseTo(0.0187, 4);
    expect(Math.abs(constantRateFluxKgPerM2H({ ...packed, radiationFactor: 1 }) - 0.0346)).toBeLessThan(2e-4);
    expect(Math.abs(0.0346 / still - 0.65)).toBeLessThan(0.006);
  });

  test.each([[0, 13.78], [0.5, 14.66], [1, 15.31]])('with radiation share %d the surface is at %d C', (radiationFactor, surfaceC) => {
    const flux = constantRateFluxKgPerM2H({ airTempC: 20, relativeHumidityPct: 50, airSpeedMPerS: 0.1, airReach: 'fan-across', radiationFactor });
    const pa = 0.5 * saturationPressurePa(Celsius(20));
    const atSurface = (t: number): number => (3600 * (0.089 + 0.0782 * 0.1) * (saturationPressurePa(Celsius(t)) - pa)) / (2.501e6 - 2361 * t);
    expect(Math.abs(atSurface(surfaceC) - flux)).toBeLessThan(atSurface(surfaceC + 0.006) - atSurface(surfaceC));
  });
});

describe('2.3 sorption', () => {
  test('Xe through the 65 % regain, activity back again', () => {
    expect(equilibriumMoistureX('cotton', 50)).toBeCloseTo(0.075 * (50 / 65), 12);
    expect(equilibriumMoistureX('cotton', 80)).toBeCloseTo(0.075 + 0.165 * (15 / 35) ** 2, 12);
    expect(waterActivity('cotton', 0.1)).toBeCloseTo(0.65 + 0.35 * Math.sqrt(0.025 / 0.165), 12);
  });
});

describe('3.1 and 3.5 air holds little', () => {
  test('60 m3 of saturated air at 20 C hold about 1 kg of vapour', () => {
    const air = moistAir({ airTempC: 20, relativeHumidityPct: 100 });
    expect((60 / specificVolumeM3PerKg(air)) * humidityRatio(air)).toBeCloseTo(1, 1);
  });

  test('a linear room of 72 kg air with K 200 answers within 0.3051 h', () => {
    expect(linearRoomHumidity({ dryAirKg: 72, airChangesPerH: 0.5, outdoorHumidityRatio: 0.006, sourceKgPerH: 200, sourceHumidityRatio: 0.011, removalKgPerH: 0.3, startHumidityRatio: 0.006, hours: 0 }).timeConstantH).toBeCloseTo(0.3051, 4);
  });
});

describe('3.3 rating points and 3.4 curves', () => {
  test('80, 65 and 73 F', () => {
    expect(RATING_POINTS['aham-dh-1'].ratedAtTempC).toBeCloseTo(26.7, 1);
    expect(RATING_POINTS['doe-portable'].ratedAtTempC).toBeCloseTo(18.3, 1);
    expect(RATING_POINTS['doe-whole-home'].ratedAtTempC).toBeCloseTo(22.8, 1);
  });

  test('raw values at 26.7 C, 60 %: NREL 0.987298, EnergyPlus 0.9806193', () => {
    expect(dehumidifierCurveValue('nrel-removal', 26.7, 60)).toBeCloseTo(0.987298, 6);
    expect(dehumidifierCurveValue('energyplus-removal', 26.7, 60)).toBeCloseTo(0.9806193, 7);
  });

  test.each([[18.33, 60, 0.808], [20, 50, 0.6], [20, 60, 0.808], [20, 80, 1.101], [25, 50, 0.755], [15, 60, 0.808], [30, 60, 1.081]])('the EnergyPlus example held to its box at %d C, %d %%: %d', (t, rh, share) => {
    const x = Math.min(32.22, Math.max(21, t));
    const value = dehumidifierCurveValue('energyplus-removal', x, Math.min(80, Math.max(40, rh))) / dehumidifierCurveValue('energyplus-removal', 26.7, 60);
    expect(Math.abs(value - share)).toBeLessThan(6e-4);
  });

  test('every curve names its source', () => {
    for (const { cite } of Object.values(DEHUMIDIFIER_CURVES)) expect(cite).toMatch(/NREL|EnergyPlus/);
  });
});

describe('5.1 weight', () => {
  test('wet mass is dry mass times 1 + X', () => {
    expect(wetMassKg(2, 0.8)).toBeCloseTo(3.6, 12);
  });

  test('trade regains from memory are not called published', () => {
    const remembered = { nylon: 0.045, acrylic: 0.015, polyester: 0.004, viscose: 0.11, acetate: 0.065 } as const;
    for (const [material, value] of Object.entries(remembered)) {
      expect(MATERIAL_TABLE[material as keyof typeof remembered].commercialRegainX).toMatchObject({ value, mark: 'from-memory' });
    }
  });
});
