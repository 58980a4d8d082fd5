import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { ClimateRangeError, dryingLaw, moistureAfter, weighingDecision, WEIGHING_CODES, type AirReading, type Weighing, type WeighingQuestion } from '#climate';
import { number } from './arbitraries.js';

const H = 3_600_000;
const T0 = Date.UTC(2026, 4, 9, 7);
const air = (relativeHumidityPct: number, hours = 200): AirReading[] => Array.from({ length: hours }, (_, i) => ({ atMs: T0 + i * H, airTempC: 20, relativeHumidityPct }));

interface Story {
  hours: readonly number[];
  relativeHumidityPct?: number;
  divisionKg?: number;
  dryMassKg?: number | null;
  build?: 'thin' | 'thick' | 'closed';
  startX?: number;
  /** True factor of the rack; the question knows the general one only. */
  factor?: number;
}

/** A cotton cover of 2.4 kg on 8 m2 of faces, as it really dries, weighed at these hours. The question is asked at the last one. */
function asked({ hours, relativeHumidityPct = 50, divisionKg = 0.005, dryMassKg = 2.4, build = 'thin', startX = 1.2, factor = 0.65 }: Story): WeighingQuestion {
  const law = dryingLaw({ airTempC: 20, relativeHumidityPct, dryMassKg: 2.4, exposedAreaM2: 8, material: 'cotton', arrangementFactor: factor });
  const weighings = hours.map((at): Weighing => ({ atMs: T0 + Math.round(at * H), massKg: Math.round((2.4 * (1 + moistureAfter(law, startX, at))) / divisionKg) * divisionKg, scaleDivisionKg: divisionKg }));
  return { nowMs: T0 + Math.round(hours.at(-1)! * H), material: 'cotton', build, dryMassKg, exposedAreaM2: 8, weighings, air: air(relativeHumidityPct), airReach: 'open-rack' };
}
const at = (ms: number | null): number | null => (ms === null ? null : (ms - T0) / H);

describe('a thing whose dry mass is known', () => {
  test('is not yet ready while it weighs more, and is to be weighed when it is likely ready', () => {
    const answer = weighingDecision(asked({ hours: [0] }));
    expect(answer).toMatchObject({ decision: 'not-yet', code: 'above-target' });
    expect(answer.targetMassKg).toBeCloseTo(2.4 * 1.085, 9);
    // The guidance's cover: 10.49 h on an open rack at 50 %.
    expect(at(answer.readyAtMs.likely)).toBeCloseTo(10.49, 1);
    expect(at(answer.weighAgainAtMs)).toBeCloseTo(10.49, 1);
    expect(at(answer.readyAtMs.earliest)!).toBeLessThan(10);
    expect(at(answer.readyAtMs.latest)!).toBeGreaterThan(12);
  });

  test('is ready once it weighs less than its target by more than the scale can be wrong', () => {
    expect(weighingDecision(asked({ hours: [0, 14] }))).toMatchObject({ decision: 'ready', code: 'at-target', weighAgainAtMs: null, waterLeftKg: 0 });
  });

  test('at its target to within the scale it is weighed again', () => {
    expect(weighingDecision(asked({ hours: [0, 10.49], divisionKg: 0.01 }))).toMatchObject({ decision: 'weigh-again', code: 'near-target' });
  });

  test('a guessed dry mass does not make it ready by itself', () => {
    const guess = { ...asked({ hours: [0, 14] }), dryMassErrorFraction: 0.3 };
    expect(weighingDecision(guess).decision).not.toBe('ready');
    const rested = { ...asked({ hours: [0, 14, 40] }), dryMassErrorFraction: 0.3 };
    expect(weighingDecision(rested)).toMatchObject({ decision: 'ready', code: 'at-rest' });
  });

  test('a fitted factor moves the time and narrows the band', () => {
    const plain = weighingDecision(asked({ hours: [0] }));
    const fitted = weighingDecision({ ...asked({ hours: [0] }), arrangementFactor: 0.5, factorBand: { low: 0.47, high: 0.53 } });
    expect(fitted.readyAtMs.likely!).toBeGreaterThan(plain.readyAtMs.likely!);
    expect(fitted.readyAtMs.latest! - fitted.readyAtMs.earliest!).toBeLessThan(plain.readyAtMs.latest! - plain.readyAtMs.earliest!);
  });
});

describe('a thing whose dry mass nobody knows', () => {
  test('one weighing cannot tell', () => {
    const answer = weighingDecision(asked({ hours: [0], dryMassKg: null }));
    expect(answer).toMatchObject({ decision: 'weigh-again', code: 'one-weighing', targetMassKg: null });
    expect(answer.weighAgainAtMs!).toBeGreaterThan(T0);
  });

  test('is not ready while it falls, and ready when it stands still for long enough to tell', () => {
    expect(weighingDecision(asked({ hours: [0, 4], dryMassKg: null }))).toMatchObject({ decision: 'not-yet', code: 'still-falling' });
    const soon = weighingDecision(asked({ hours: [24, 24.5], dryMassKg: null }));
    expect(soon).toMatchObject({ decision: 'weigh-again', code: 'interval-too-short' });
    expect(weighingDecision(asked({ hours: [24, at(soon.weighAgainAtMs)! + 0.01], dryMassKg: null }))).toMatchObject({ decision: 'ready', code: 'at-rest' });
  });

  test('at rest in damp air is not dry', () => {
    expect(weighingDecision(asked({ hours: [60, 100], relativeHumidityPct: 80, dryMassKg: null }))).toMatchObject({ decision: 'not-yet', code: 'air-too-damp', weighAgainAtMs: null });
  });

  test('standing still in air that nobody read tells nothing', () => {
    const unread = { ...asked({ hours: [24, 40], dryMassKg: null }), air: [] };
    expect(weighingDecision(unread)).toMatchObject({ decision: 'weigh-again', code: 'air-not-known' });
  });

  test('a scale that cannot show the last of the water says so', () => {
    expect(weighingDecision(asked({ hours: [24, 60], dryMassKg: null, divisionKg: 0.1 }))).toMatchObject({ decision: 'weigh-again', code: 'scale-too-coarse', weighAgainAtMs: null });
  });
});

describe('whatever is done', () => {
  test('a thing that is still damp is never called ready by rest, on racks down to the slow end of the factor', () => {
    fc.assert(fc.property(number(0.46, 1.2), number(30, 62), number(1, 40), number(0.5, 30), fc.constantFrom(0.002, 0.005, 0.01, 0.02), (factor, relativeHumidityPct, first, between, divisionKg) => {
      const question = asked({ hours: [first, first + between], relativeHumidityPct, divisionKg, dryMassKg: null, factor });
      const law = dryingLaw({ airTempC: 20, relativeHumidityPct, dryMassKg: 2.4, exposedAreaM2: 8, material: 'cotton', arrangementFactor: factor });
      const trueX = moistureAfter(law, 1.2, first + between);
      // A hair: the dry mass is taken from the mass at hand.
      if (weighingDecision(question).decision === 'ready') expect(trueX).toBeLessThanOrEqual(0.0855);
    }), { numRuns: 400 });
  });

  test('weight that goes up is questioned before anything else', () => {
    const story = asked({ hours: [0, 14] });
    const heavier = { ...story, weighings: [story.weighings[1]!, { ...story.weighings[1]!, atMs: story.nowMs, massKg: 2.9 }] };
    expect(weighingDecision(heavier)).toMatchObject({ decision: 'weigh-again', code: 'weight-went-up' });
  });

  test('thick and closed goods get a least time only, by their own fall, and are weighed half way to it', () => {
    const thick = weighingDecision(asked({ hours: [0, 6], build: 'thick', factor: 0.2 }));
    expect(thick).toMatchObject({ decision: 'not-yet', code: 'above-target' });
    expect(thick.readyAtMs).toMatchObject({ likely: null, latest: null });
    expect(at(thick.readyAtMs.earliest)!).toBeCloseTo(29.2, 1);
    // Half way would be 17.6 h on the clock: within half a day of now.
    expect(at(thick.weighAgainAtMs)).toBeCloseTo(17.6, 1);
    const rested = { hours: [60, 70], dryMassKg: null } as const;
    expect(weighingDecision(asked(rested)).decision).toBe('ready');
    expect(weighingDecision(asked({ ...rested, build: 'closed' })).decision).toBe('weigh-again');
  });

  test('air too damp to dry in is said, with no time to wait for', () => {
    expect(weighingDecision(asked({ hours: [0], relativeHumidityPct: 80 }))).toMatchObject({ decision: 'not-yet', code: 'air-too-damp', weighAgainAtMs: null, readyAtMs: { earliest: null, likely: null, latest: null } });
  });

  test('the next weighing is never in the past and at the latest half a day away while a target is known', () => {
    fc.assert(fc.property(number(0.2, 1.2), number(30, 64), number(0, 60), fc.constantFrom('thin' as const, 'thick' as const), (factor, relativeHumidityPct, hours, build) => {
      const question = asked({ hours: [0, hours], relativeHumidityPct, factor, build });
      const answer = weighingDecision(question);
      expect(WEIGHING_CODES).toContain(answer.code);
      if (answer.weighAgainAtMs !== null) expect(answer.weighAgainAtMs).toBeGreaterThanOrEqual(question.nowMs);
      if (answer.code === 'above-target') expect(answer.weighAgainAtMs!).toBeLessThanOrEqual(question.nowMs + 12 * H);
    }));
  });

  test.each([
    ['no weighing', { weighings: [] }, /at least one/],
    ['a weighing after now', { nowMs: T0 - 1 }, /later than now/],
    ['an unknown build', { build: JSON.parse('"fluffy"') }, /thin, thick, closed/],
    ['a negative mass', { weighings: [{ atMs: T0, massKg: -1, scaleDivisionKg: 0.01 }] }, /massKg/],
  ])('%s is refused', (_name, change, words) => {
    const question = { ...asked({ hours: [0] }), ...change };
    expect(() => weighingDecision(question)).toThrow(ClimateRangeError);
    expect(() => weighingDecision(question)).toThrow(words);
  });
});
