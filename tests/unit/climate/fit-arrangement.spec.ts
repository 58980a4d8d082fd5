import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { arrangementFactor, calibrate, ClimateRangeError, constantRateFluxKgPerM2H, fitArrangement, fitArrangementFactor, type AirReading, type WeighingSeries } from '#climate';
import { number } from './arbitraries.js';

const H = 3_600_000;
const T0 = Date.UTC(2026, 4, 9, 7);
const hourly = (airTempC: number, relativeHumidityPct: number, hours: number): AirReading[] => Array.from({ length: hours + 1 }, (_, i) => ({ atMs: T0 + i * H, airTempC, relativeHumidityPct }));
const rounded = (massKg: number, divisionKg: number): number => Math.round(massKg / divisionKg) * divisionKg;

interface Simulated {
  factor: number;
  times?: readonly number[];
  relativeHumidityPct?: number;
  divisionKg?: number;
  /** Errors of the weighings in divisions. */
  errors?: readonly number[];
  id?: string;
}

/** A cotton cover of 2.4 kg dry on 8 m2 of faces, weighed at hours after hanging at X 1.5, while clearly wet. */
function weighed({ factor, times = [0, 2], relativeHumidityPct = 55, divisionKg = 0.005, errors = [], id = 'cover' }: Simulated): WeighingSeries {
  const lossKgPerH = 8 * constantRateFluxKgPerM2H({ airTempC: 20, relativeHumidityPct, arrangementFactor: factor });
  return {
    id, material: 'cotton', dryMassKg: 2.4, exposedAreaM2: 8, air: hourly(20, relativeHumidityPct, 30),
    weighings: times.map((hours, i) => ({ atMs: T0 + hours * H, massKg: rounded(6 - lossKgPerH * hours + (errors[i] ?? 0) * divisionKg, divisionKg), scaleDivisionKg: divisionKg })),
  };
}
const fit = (series: WeighingSeries[], values?: ReturnType<typeof calibrate>) => fitArrangement({ airReach: 'open-rack', series }, values);
const width = ({ interval95 }: { interval95: { low: number; high: number } }): number => Math.log(interval95.high / interval95.low);

describe('a fit from weigh-ins', () => {
  test('two weighings already narrow what was believed before, and lie around what was weighed', () => {
    const two = fit([weighed({ factor: 0.5 })]);
    expect(width(two)).toBeLessThan(0.5 * width(two.prior));
    expect(two.interval95.low).toBeLessThan(0.5);
    expect(two.interval95.high).toBeGreaterThan(0.5);
    expect(two.informative).toBe(true);
    expect(two.used).toHaveLength(1);
  });

  test('many weighings of many things give back the factor that they were made with', () => {
    fc.assert(fc.property(number(0.2, 1.2), number(40, 70), (factor, relativeHumidityPct) => {
      const errors = [0.4, -0.3, 0.2, -0.4];
      const series = Array.from({ length: 8 }, (_, i) => weighed({ factor, times: [0, 1, 2, 3], relativeHumidityPct, errors: [...errors.slice(i % 4), ...errors.slice(0, i % 4)], id: `cover ${i}` }));
      const answer = fit(series);
      expect(Math.abs(answer.factor / factor - 1)).toBeLessThan(0.08);
      expect(answer.interval95.low).toBeLessThan(factor);
      expect(answer.interval95.high).toBeGreaterThan(factor);
    }), { numRuns: 30 });
  });

  test('the 80 % interval holds the truth about as often as it says, over things that scatter as stated', () => {
    let inside = 0;
    const gauss = seeded(7);
    for (let trial = 0; trial < 150; trial += 1) {
      const truth = 0.65 * Math.exp(0.4 * gauss());
      const spread = Math.abs(0.15 * gauss());
      const series = Array.from({ length: 4 }, (_, i) => weighed({ factor: truth * Math.exp(spread * gauss()), times: [0, 1, 2], divisionKg: 0.01, errors: [gauss() * 0.4, gauss() * 0.4, gauss() * 0.4], id: `cover ${i}` }));
      const { interval80 } = fit(series);
      if (interval80.low <= truth && truth <= interval80.high) inside += 1;
    }
    // Wider than 80 % is meant: the interval is never narrower than the scales allow, and hygrometer error is counted too.
    expect(inside / 150).toBeGreaterThan(0.78);
    expect(inside / 150).toBeLessThanOrEqual(0.97);
  });

  test('more data do not widen it on average', () => {
    const gauss = seeded(11);
    const mean = (n: number): number => {
      let sum = 0;
      for (let trial = 0; trial < 30; trial += 1) {
        sum += width(fit(Array.from({ length: n }, (_, i) => weighed({ factor: 0.5 * Math.exp(0.1 * gauss()), errors: [gauss() * 0.5, gauss() * 0.5], id: `cover ${i}` }))));
      }
      return sum / 30;
    };
    const widths = [1, 2, 4, 8].map(mean);
    for (let i = 1; i < widths.length; i += 1) expect(widths[i]!).toBeLessThan(widths[i - 1]!);
  });

  test('it is never narrower than scale and prior allow', () => {
    fc.assert(fc.property(number(0.2, 1.5), number(0.001, 0.5), number(0.5, 4), (factor, divisionKg, hours) => {
      const series = weighed({ factor, times: [0, hours], divisionKg });
      const answer = fit([series]);
      const run = answer.used[0];
      if (run === undefined) return;
      const scaleSpread = run.scaleError / answer.factor;
      expect(width(answer)).toBeGreaterThanOrEqual(2 * 1.95 * Math.min(0.4, scaleSpread));
    }), { numRuns: 60 });
  });

  test('a scale too coarse for the loss leaves the general factor standing, and says so', () => {
    const coarse = fit([weighed({ factor: 0.2, times: [0, 1], divisionKg: 0.5 })]);
    expect(coarse.informative).toBe(false);
    expect(coarse.advice.code).toBe('fit-says-little');
    expect(Math.abs(Math.log(coarse.factor / arrangementFactor({ airReach: 'open-rack' })))).toBeLessThan(0.3);
  });

  test('damp air, where the hygrometer decides, tells less than dry air', () => {
    expect(width(fit([weighed({ factor: 0.5, relativeHumidityPct: 88, times: [0, 8] })]))).toBeGreaterThan(width(fit([weighed({ factor: 0.5, relativeHumidityPct: 45, times: [0, 3] })])));
  });

  test('units: all masses and areas times a thousand change nothing', () => {
    const small = weighed({ factor: 0.6 });
    const large: WeighingSeries = { ...small, dryMassKg: 2400, exposedAreaM2: 8000, weighings: small.weighings.map((one) => ({ ...one, massKg: one.massKg * 1000, scaleDivisionKg: one.scaleDivisionKg * 1000 })) };
    expect(fit([large]).factor).toBeCloseTo(fit([small]).factor, 9);
  });

  test('the slope of two fine weighings is the factor of the plain two-weighing formula', () => {
    const series = weighed({ factor: 0.6, divisionKg: 1e-6 });
    const [first, second] = series.weighings;
    const plain = fitArrangementFactor({ airTempC: 20, relativeHumidityPct: 55, firstMassKg: first!.massKg, secondMassKg: second!.massKg, hoursBetween: 2, dryMassKg: 2.4, exposedAreaM2: 8, material: 'cotton' });
    expect(fit([series]).used[0]!.factor).toBeCloseTo(plain, 9);
  });

  test('thick goods keep wider bounds', () => {
    const thin = weighed({ factor: 0.3 });
    expect(width(fit([{ ...thin, build: 'thick' }]))).toBeGreaterThan(1.3 * width(fit([thin])));
  });

  test('without weighings the answer is what was believed before', () => {
    const none = fit([]);
    expect(none.factor).toBe(0.65);
    expect(none.advice.code).toBe('fit-no-data');
    expect(none.interval95).toEqual(none.prior.interval95);
  });
});

describe('what is left out is named with its reason', () => {
  const base = weighed({ factor: 0.6, times: [0, 2, 4] });
  const reasons = (series: WeighingSeries): [number, string][] => fit([series]).leftOut.map((left) => [(left.atMs - T0) / H, left.reason]);
  const withMass = (i: number, massKg: number): WeighingSeries => ({ ...base, weighings: base.weighings.map((one, at) => (at === i ? { ...one, massKg } : one)) });

  test('below critical moisture, where goods slow down by themselves', () => {
    expect(reasons(withMass(2, 2.7))).toEqual([[4, 'below-critical']]);
    expect(fit([withMass(2, 2.7)]).used[0]!.weighings).toBe(2);
  });

  test('a guessed dry mass asks for clearly wetter goods', () => {
    expect(reasons({ ...withMass(2, 3.4), dryMassErrorFraction: 0.3 })).toEqual([[4, 'below-critical']]);
    expect(reasons(withMass(2, 3.4))).toEqual([]);
  });

  test('weight that went up beyond the scale; a rise within it is the scale', () => {
    expect(reasons(withMass(1, 6.2))).toEqual([[2, 'weight-went-up'], [0, 'no-partner']]);
    expect(fit([withMass(1, 6.2)]).used[0]!.fromMs).toBe(T0 + 2 * H);
    expect(reasons(withMass(1, 6.004))).toEqual([]);
  });

  test('air that nobody read, was outside the model, or dries nothing', () => {
    expect(reasons({ ...base, air: hourly(20, 55, 0) })).toEqual([[4, 'air-not-known']]);
    expect(reasons({ ...base, air: [] })).toEqual([[2, 'air-not-known'], [4, 'air-not-known'], [0, 'no-partner']]);
    expect(reasons({ ...base, air: hourly(-2, 55, 5) })[0]).toEqual([2, 'air-outside-model']);
    expect(reasons({ ...base, air: hourly(20, 100, 5) })[0]).toEqual([2, 'air-dries-nothing']);
  });

  test('an unknown dry mass, one weighing alone, two at one time', () => {
    expect(reasons({ ...base, dryMassKg: null }).map(([, reason]) => reason)).toEqual(['dry-mass-not-known', 'dry-mass-not-known', 'dry-mass-not-known']);
    expect(reasons({ ...base, weighings: base.weighings.slice(0, 1) })).toEqual([[0, 'no-partner']]);
    expect(reasons({ ...base, weighings: [base.weighings[0]!, base.weighings[0]!, base.weighings[1]!] })).toEqual([[0, 'same-time']]);
  });

  test.each([
    ['weighings out of order', { ...base, weighings: [...base.weighings].reverse() }, /sort them/],
    ['readings out of order', { ...base, air: [...base.air].reverse() }, /sort them/],
    ['no area', { ...base, exposedAreaM2: 0 }, /square metres/],
    ['a scale without division', { ...base, weighings: base.weighings.map((one) => ({ ...one, scaleDivisionKg: 0 })) }, /smallest step/],
  ])('%s: refused', (_name, series, words) => {
    expect(() => fit([series])).toThrow(ClimateRangeError);
    expect(() => fit([series])).toThrow(words);
  });
});

/** Normal deviates from a fixed seed (Box and Muller over a small generator), so that every run sees the same. */
function seeded(seed: number): () => number {
  let state = seed;
  const uniform = (): number => {
    state = (state * 1664525 + 1013904223) % 4294967296;
    return (state + 0.5) / 4294967296;
  };
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}
