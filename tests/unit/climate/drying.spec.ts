import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import {
  AIR_REACHES,
  arrangementFactor,
  calibrate,
  ClimateRangeError,
  constantRateFluxKgPerM2H,
  dryingForecast,
  dryingLaw,
  dryingTimeH,
  exposedAreaM2,
  extrapolateDryingH,
  fitArrangementFactor,
  moistureAfter,
  type DryingLaw,
} from '#climate';
import { fibre, hallAir, number } from './arbitraries.js';

const law: fc.Arbitrary<DryingLaw> = fc.record({ ratePerH: number(0.001, 5), criticalX: number(0.05, 0.5), equilibriumX: number(0, 0.45) });
const cover = { airTempC: 20, relativeHumidityPct: 50, dryMassKg: 2.4, exposedAreaM2: 8, material: 'cotton' as const };

describe('constant-rate flux', () => {
  test('is never negative and zero in saturated air', () => {
    fc.assert(fc.property(hallAir, number(0, 2), (air, airSpeedMPerS) => {
      expect(constantRateFluxKgPerM2H({ ...air, airSpeedMPerS })).toBeGreaterThanOrEqual(0);
      expect(constantRateFluxKgPerM2H({ ...air, relativeHumidityPct: 100, airSpeedMPerS })).toBeCloseTo(0, 9);
    }));
  });

  test('rises with air speed and falls with humidity', () => {
    fc.assert(fc.property(hallAir, number(0, 1.9), (air, airSpeedMPerS) => {
      const base = constantRateFluxKgPerM2H({ ...air, airSpeedMPerS });
      expect(constantRateFluxKgPerM2H({ ...air, airSpeedMPerS: airSpeedMPerS + 0.1 })).toBeGreaterThan(base);
      expect(constantRateFluxKgPerM2H({ ...air, relativeHumidityPct: air.relativeHumidityPct + 1, airSpeedMPerS })).toBeLessThan(base);
    }));
  });

  test('unknown arrangement counts as the slowest', () => {
    const slowest = Math.min(...AIR_REACHES.map((airReach) => arrangementFactor({ airReach })));
    expect(arrangementFactor({})).toBe(slowest);
  });

  test('faces breathe by placement: mesh 1.7, single line 2, heap 0.2', () => {
    expect(exposedAreaM2(2, 'flat-on-mesh')).toBeCloseTo(3.4, 12);
    expect(exposedAreaM2(2, 'hung-single')).toBe(4);
    expect(exposedAreaM2(2, 'heap')).toBeCloseTo(0.4, 12);
    expect(exposedAreaM2(2, 'heap', calibrate({ facesHeap: 0.3 }))).toBeCloseTo(0.6, 12);
  });
});

describe('drying curve', () => {
  test('no time dries goods if and only if the target is at or below rest', () => {
    fc.assert(fc.property(law, number(0.001, 0.5), number(0.001, 2), (curve, targetX, more) => {
      expect(dryingTimeH(curve, targetX + more, targetX) === null).toBe(targetX <= curve.equilibriumX);
    }));
  });

  test('after the drying time the moisture is the target', () => {
    fc.assert(fc.property(law, number(0.001, 1), number(0.001, 2), (curve, margin, more) => {
      const targetX = curve.equilibriumX + margin;
      const hours = dryingTimeH(curve, targetX + more, targetX);
      expect(Math.abs(moistureAfter(curve, targetX + more, hours!) - targetX)).toBeLessThan(1e-9);
    }));
  });

  test('stopping and going on gives the same as going through', () => {
    fc.assert(fc.property(law, number(0, 3), number(0, 50), number(0, 50), (curve, startX, first, second) => {
      expect(moistureAfter(curve, moistureAfter(curve, startX, first), second)).toBeCloseTo(moistureAfter(curve, startX, first + second), 9);
    }));
  });

  test('wet goods never pass their rest and never gain water', () => {
    fc.assert(fc.property(law, number(0, 2), number(0, 200), (curve, above, hours) => {
      const startX = curve.equilibriumX + above;
      const x = moistureAfter(curve, startX, hours);
      expect(x).toBeLessThanOrEqual(startX + 1e-12);
      expect(x).toBeGreaterThanOrEqual(curve.equilibriumX - 1e-12);
    }));
  });

  test('bone-dry goods take up water from the room, up to rest', () => {
    const curve = dryingLaw({ ...cover, relativeHumidityPct: 65 });
    const x = moistureAfter(curve, 0.02, 5);
    expect(x).toBeGreaterThan(0.02);
    expect(x).toBeLessThanOrEqual(0.075);
  });

  test('already dry takes no time, and saturated air takes for ever', () => {
    expect(dryingTimeH(dryingLaw(cover), 0.08, 0.085)).toBe(0);
    expect(dryingTimeH(dryingLaw({ ...cover, relativeHumidityPct: 100 }), 1, 0.3)).toBeNull();
  });

  test('damper air never dries faster', () => {
    fc.assert(fc.property(fibre, number(5, 60), number(0.1, 5), (material, rh, more) => {
      const hours = (relativeHumidityPct: number): number => dryingForecast({ ...cover, material, relativeHumidityPct, build: 'thin', startX: 1 }).hours ?? Infinity;
      expect(hours(rh + more)).toBeGreaterThanOrEqual(hours(rh));
    }));
  });
});

describe('what people are told', () => {
  test('thin goods get an estimate inside its band', () => {
    const forecast = dryingForecast({ ...cover, airReach: 'open-rack', build: 'thin', startX: 1.2 });
    expect(forecast.earliestH).toBeLessThan(forecast.hours!);
    expect(forecast.latestH).toBeGreaterThan(forecast.hours!);
  });

  test.each(['thick', 'closed'] as const)('%s goods get a band, no number, and the reason', (build) => {
    const forecast = dryingForecast({ ...cover, build, startX: 1.2 });
    expect(forecast.hours).toBeNull();
    expect(forecast.latestH! / forecast.earliestH!).toBeGreaterThan(4);
    expect(forecast.advice).toMatch(/false precision.*[Ww]eigh/s);
  });

  test('too damp a room is said, not counted', () => {
    expect(dryingForecast({ ...cover, relativeHumidityPct: 80, build: 'thin', startX: 1.2 })).toMatchObject({ hours: null, earliestH: null, latestH: null, tooDamp: true });
  });
});

describe('fitting from weighings', () => {
  test('two weighings give back the arrangement factor they were made with', () => {
    fc.assert(fc.property(number(0.1, 2), number(30, 60), (factor, relativeHumidityPct) => {
      const air = { ...cover, relativeHumidityPct };
      const curve = dryingLaw({ ...air, arrangementFactor: factor });
      const massKg = (hours: number): number => 2.4 * (1 + moistureAfter(curve, 1.5, hours));
      expect(fitArrangementFactor({ ...air, firstMassKg: massKg(0), secondMassKg: massKg(1), hoursBetween: 1 })).toBeCloseTo(factor, 9);
    }));
  });

  test('a weighing of nearly dry goods is refused with the reason', () => {
    expect(() => fitArrangementFactor({ ...cover, firstMassKg: 4, secondMassKg: 2.6, hoursBetween: 5 })).toThrow(/clearly wet/);
  });

  test('goods that did not lose weight are refused', () => {
    expect(() => fitArrangementFactor({ ...cover, firstMassKg: 4, secondMassKg: 4, hoursBetween: 5 })).toThrow(ClimateRangeError);
    expect(() => extrapolateDryingH({ firstMassKg: 4, secondMassKg: 4, hoursBetween: 5, targetMassKg: 3 })).toThrow(/not drying/);
  });

  test('two weighings of a thick quilt give a least time', () => {
    expect(extrapolateDryingH({ firstMassKg: 5, secondMassKg: 4, hoursBetween: 6, targetMassKg: 2.3 }).atLeastH).toBeCloseTo(10.2, 9);
  });
});

describe('refusals', () => {
  test.each([
    ['below freezing', () => constantRateFluxKgPerM2H({ airTempC: 0, relativeHumidityPct: 50 }), /freeze/],
    ['a gale', () => constantRateFluxKgPerM2H({ airTempC: 20, relativeHumidityPct: 50, airSpeedMPerS: 9 }), /2 m\/s/],
    ['no area', () => dryingLaw({ ...cover, exposedAreaM2: 0 }), /square metres/],
    ['an unknown placement', () => exposedAreaM2(1, JSON.parse('"floating"')), /flat-on-board/],
    ['an unknown build', () => dryingForecast({ ...cover, build: JSON.parse('"fluffy"'), startX: 1 }), /thin, thick, closed/],
    ['a curve that is not one', () => moistureAfter({ ratePerH: Number.NaN, criticalX: 0.2, equilibriumX: 0 }, 1, 1), /ratePerH/],
    ['negative time', () => moistureAfter({ ratePerH: 1, criticalX: 0.2, equilibriumX: 0 }, 1, -1), /hours/],
  ])('%s', (_name, act, words) => {
    expect(act).toThrow(ClimateRangeError);
    expect(act).toThrow(words);
  });
});
