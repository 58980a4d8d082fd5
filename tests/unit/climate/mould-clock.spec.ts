import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { calibrate, ClimateRangeError, mouldClock, mouldDose, mouldHoursLeft, mouldRatePerH, moistAir, roomState, surfaceConditions, wetBulbC, type ClockSegment } from '#climate';
import { number } from './arbitraries.js';

const segment: fc.Arbitrary<ClockSegment> = fc.record({ hours: number(0, 100), surfaceTempC: number(-30, 50), waterActivity: number(0, 1) });

describe('the mould clock', () => {
  test('never runs backwards, whatever happens', () => {
    fc.assert(fc.property(fc.array(segment), number(0, 2), (history, start) => {
      expect(mouldDose(history, 'sensitive', start)).toBeGreaterThanOrEqual(start);
    }));
  });

  test('stands still at and below 0 C, and below the critical humidity', () => {
    fc.assert(fc.property(number(-60, 0), number(0, 1), (t, aw) => mouldRatePerH(t, aw) === 0));
    fc.assert(fc.property(number(-60, 60), number(0, 0.799), (t, aw) => mouldRatePerH(t, aw) === 0));
  });

  test('is additive: a stretch cut in two counts the same', () => {
    fc.assert(fc.property(segment, number(0, 1), fc.array(segment), (whole, share, rest) => {
      const cut = [{ ...whole, hours: whole.hours * share }, { ...whole, hours: whole.hours * (1 - share) }, ...rest];
      expect(mouldDose(cut)).toBeCloseTo(mouldDose([whole, ...rest]), 9);
      expect(mouldDose(rest, 'sensitive', mouldDose([whole]))).toBeCloseTo(mouldDose([whole, ...rest]), 9);
    }));
  });

  test('runs no slower when wetter or warmer, and no faster above 35 C', () => {
    fc.assert(fc.property(number(0.1, 50), number(0.8, 1), number(0, 5), (t, aw, more) => {
      expect(mouldRatePerH(t + more, aw)).toBeGreaterThanOrEqual(mouldRatePerH(t, aw) * (1 - 1e-12));
      expect(mouldRatePerH(t, Math.min(1, aw + more / 50))).toBeGreaterThanOrEqual(mouldRatePerH(t, aw));
    }));
    expect(mouldRatePerH(45, 1)).toBe(mouldRatePerH(35, 1));
  });

  test('a freezer pauses it and thawing goes on from the same dose', () => {
    const wet = { surfaceTempC: 20, waterActivity: 1 };
    const before = mouldDose([{ hours: 20, ...wet }]);
    const frozen = mouldDose([{ hours: 24 * 90, surfaceTempC: -18, waterActivity: 1 }], 'sensitive', before);
    expect(frozen).toBe(before);
    expect(mouldClock(frozen, { surfaceTempC: -18, waterActivity: 1 }).statement).toMatch(/stands still.*goes on from here/);
    expect(mouldHoursLeft(frozen, wet)).toBeCloseTo(51.21 - 20, 2);
  });

  test('after the hours left it is red', () => {
    fc.assert(fc.property(number(0, 0.99), number(1, 40), number(0.98, 1), (dose, surfaceTempC, waterActivity) => {
      const now = { surfaceTempC, waterActivity };
      const hours = mouldHoursLeft(dose, now);
      if (hours === null) return;
      expect(mouldClock(mouldDose([{ hours: hours + 1e-6, ...now }], 'sensitive', dose), now).state).toBe('red');
    }));
  });

  test('says that it is a rule of practice and promises nothing', () => {
    for (const dose of [0, 0.6, 1.4]) expect(mouldClock(dose, { surfaceTempC: 20, waterActivity: 1 }).statement).toMatch(/rule-of-practice clock, not a forecast/);
    expect(mouldClock(1.4, { surfaceTempC: 20, waterActivity: 1 })).toMatchObject({ state: 'red', hoursLeft: 0 });
  });

  test('clean synthetics run slower, by the calibrated ratio', () => {
    expect(mouldRatePerH(20, 1, 'clean-synthetic') / mouldRatePerH(20, 1)).toBeCloseTo(0.578, 12);
    expect(mouldRatePerH(20, 1, 'clean-synthetic', calibrate({ cleanSyntheticFactor: 1 }))).toBe(mouldRatePerH(20, 1));
  });
});

describe('the surface of a thing', () => {
  const air = { airTempC: 20, relativeHumidityPct: 50 };

  test('is at the wet bulb and saturated while wet, at air temperature once drier', () => {
    expect(surfaceConditions(air, 'cotton', 0.8)).toEqual({ surfaceTempC: wetBulbC(moistAir(air)), waterActivity: 1 });
    const drying = surfaceConditions(air, 'cotton', 0.15);
    expect(drying.surfaceTempC).toBe(20);
    expect(drying.waterActivity).toBeLessThan(1);
  });

  test('room humidity never hides a wet thing, and a damp room never leaves a dry one alone', () => {
    expect(surfaceConditions({ ...air, relativeHumidityPct: 40 }, 'wool', 1).waterActivity).toBe(1);
    expect(surfaceConditions({ ...air, relativeHumidityPct: 92 }, 'cotton', 0.05).waterActivity).toBeCloseTo(0.92, 12);
  });

  test('unknown moisture counts as wet at air temperature, the fastest case', () => {
    const unknown = surfaceConditions(air, 'cotton', null);
    expect(unknown).toEqual({ surfaceTempC: 20, waterActivity: 1 });
    fc.assert(fc.property(number(0, 3), (x) => {
      const known = surfaceConditions(air, 'cotton', x);
      return mouldRatePerH(known.surfaceTempC, known.waterActivity) <= mouldRatePerH(unknown.surfaceTempC, unknown.waterActivity);
    }));
  });
});

describe('the state of a room', () => {
  test.each([
    [62, false, 'below-cap'],
    [71, false, 'near-cap'],
    [75, false, 'near-cap'],
    [76, true, 'over-cap'],
    [84, true, 'mould-possible'],
  ])('at 20 C and %d %% against the cap of 75 %%', (relativeHumidityPct, overCap, state) => {
    expect(roomState({ airTempC: 20, relativeHumidityPct })).toMatchObject({ overCap, state });
  });

  test('a cold store at 84 % is over the cap but grows nothing', () => {
    expect(roomState({ airTempC: 4, relativeHumidityPct: 84 })).toMatchObject({ overCap: true, state: 'over-cap' });
  });

  test('the cap of the place counts, not only the default', () => {
    expect(roomState({ airTempC: 20, relativeHumidityPct: 62, capPct: 55 }).overCap).toBe(true);
  });
});

describe('refusals', () => {
  test.each([
    ['water activity as a percentage', () => mouldRatePerH(20, 95)],
    ['history that runs backwards', () => mouldDose([{ hours: -1, surfaceTempC: 20, waterActivity: 1 }])],
    ['an unknown class', () => mouldRatePerH(20, 1, JSON.parse('"cheese"'))],
    ['a dose that is not a number', () => mouldHoursLeft(Number.NaN, { surfaceTempC: 20, waterActivity: 1 })],
    ['humidity above saturation', () => roomState({ airTempC: 20, relativeHumidityPct: 120 })],
  ])('%s', (_name, act) => expect(act).toThrow(ClimateRangeError));
});
