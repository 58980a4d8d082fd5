import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { ClimateRangeError, LIFT_CIRCUMSTANCES, LIFT_COUPLINGS, LIFT_DURATIONS, liftAnswer, liftDurationOf, liftMultipliers, peopleForLift, recommendedWeightKg, spellLiftsPerMin, WET_BUNDLE, wetBundleKg, type LiftQuestion, type LiftTask } from '#climate';
import { number } from './arbitraries.js';

const lift = (loadKg: number, more: Partial<LiftQuestion> = {}) => liftAnswer({ loadKg, task: WET_BUNDLE, ...more });
const codes = (notes: readonly { code: string }[]) => notes.map(({ code }) => code);
const task: fc.Arbitrary<LiftTask> = fc.record({ horizontalCm: number(0, 80), verticalCm: number(0, 190), originCm: number(0, 190), travelCm: number(0, 190), asymmetryDeg: number(0, 150), liftsPerMin: number(0, 20), duration: fc.constantFrom(...LIFT_DURATIONS), coupling: fc.constantFrom(...LIFT_COUPLINGS) });

describe('the limit of one person', () => {
  test('never passes 23 kg, and each multiplier stays from 0 to 1', () => {
    fc.assert(fc.property(task, (each) => {
      expect(recommendedWeightKg(each)).toBeLessThanOrEqual(23);
      for (const factor of Object.values(liftMultipliers(each))) {
        expect(factor).toBeGreaterThanOrEqual(0);
        expect(factor).toBeLessThanOrEqual(1);
      }
    }));
  });

  test('falls, or stays, with reach, way, turn, pace and hours', () => {
    fc.assert(fc.property(task, number(0, 30), (each, more) => {
      const limit = recommendedWeightKg(each) + 1e-12;
      for (const harder of [{ horizontalCm: each.horizontalCm + more }, { travelCm: each.travelCm + more }, { asymmetryDeg: Math.min(180, each.asymmetryDeg + more) }, { liftsPerMin: each.liftsPerMin + more }, { duration: 'long' as const }]) {
        expect(recommendedWeightKg({ ...each, ...harder })).toBeLessThanOrEqual(limit);
      }
    }));
  });

  test('a number that cannot be is refused by its name', () => {
    expect(() => recommendedWeightKg({ ...WET_BUNDLE, horizontalCm: Number.NaN })).toThrow(/horizontalCm/);
    expect(() => recommendedWeightKg({ ...WET_BUNDLE, coupling: JSON.parse('"glued"') })).toThrow(/good, fair, poor/);
    expect(() => spellLiftsPerMin(10, 16)).toThrow(ClimateRangeError);
  });
});

describe('the crew', () => {
  test('a heavier load never takes fewer people', () => {
    fc.assert(fc.property(number(0, 60), number(0, 60), number(0, 23), (a, b, limit) => {
      const [light, heavy] = [peopleForLift(Math.min(a, b), limit), peopleForLift(Math.max(a, b), limit)];
      expect(heavy ?? 4).toBeGreaterThanOrEqual(light ?? 4);
    }));
  });

  test('is one within the limit of one, and the answer says what is too heavy and what to do instead', () => {
    expect(lift(6)).toMatchObject({ people: 1, aid: false, reading: 'within', outside: [] });
    expect(lift(11)).toMatchObject({ people: 2, aid: false, reading: 'raised' });
    expect(codes(lift(11).notes)).toEqual(['too_heavy_for_one', 'air_not_told', 'upper_screen']);
    expect(lift(15)).toMatchObject({ people: null, aid: true });
    expect(codes(lift(15).notes)).toEqual(['use_an_aid', 'fourth_adds_nothing', 'air_not_told', 'upper_screen']);
    expect(codes(lift(5, { airTempC: 21, relativeHumidityPct: 45 }).notes)).toEqual(['upper_screen']);
  });

  test('where nothing may be lifted no number of people helps', () => {
    const far = lift(2, { task: { ...WET_BUNDLE, horizontalCm: 70 } });
    expect(far).toMatchObject({ limitKg: { lower: 0 }, liftingIndex: null, reading: 'very-high', people: null, aid: true });
    expect(codes(far.notes)).toContain('nothing_may_be_lifted');
  });

  test('where the load is put down with care, the lower of both ends counts', () => {
    const shelf = lift(6, { placedAtCm: 160, placedReachCm: 55 });
    expect(shelf.limitKg!.destination!).toBeLessThan(shelf.limitKg!.origin);
    expect(shelf.limitKg!.lower).toBe(shelf.limitKg!.destination);
    expect(shelf.people).toBe(2);
  });
});

describe('outside of the equation', () => {
  test.each(LIFT_CIRCUMSTANCES)('%s: no number, an aid or a trained person', (circumstance) => {
    const answer = lift(3, { circumstances: [circumstance] });
    expect(answer).toMatchObject({ limitKg: null, liftingIndex: null, people: null, teamKg: null, aid: true });
    expect(answer.outside).toHaveLength(1);
    expect(codes(answer.notes)).toEqual(['use_an_aid']);
  });

  test.each<[string, Partial<LiftQuestion>, string[]]>([
    ['friction below 0.4', { floorFriction: 0.39 }, ['slippery_floor']], ['told twice, said once', { floorFriction: 0.3, circumstances: ['slippery-floor'] }, ['slippery_floor']],
    ['cold and damp', { airTempC: 12, relativeHumidityPct: 80 }, ['air_too_cold', 'air_too_damp']], ['hot and dry', { airTempC: 31, relativeHumidityPct: 20 }, ['air_too_hot', 'air_too_dry']],
  ])('%s', (_name, more, expected) => expect(codes(lift(3, more).outside)).toEqual(expected));

  test.each<[string, Partial<LiftQuestion>]>([['19 C and 35 %', { airTempC: 19, relativeHumidityPct: 35 }], ['26 C and 50 %', { airTempC: 26, relativeHumidityPct: 50 }], ['friction of 0.4', { floorFriction: 0.4 }]])('%s is still inside', (_name, more) => {
    expect(lift(3, more).outside).toEqual([]);
  });
});

describe('the day', () => {
  test.each<[string, [number, number][], string | null, number]>([
    ['an hour with an hour of rest', [[60, 60]], 'short', 0], ['an hour without rest', [[60, 0]], 'short', 60], ['61 minutes', [[61, 0]], 'moderate', 18.3], ['two hours with 36 minutes of rest, twice', [[120, 36], [120, 36]], 'moderate', 0],
    ['two hours with 35 minutes, twice: they add up', [[120, 35], [120, 36]], 'long', 0], ['five hours', [[300, 0]], 'long', 0], ['nine hours', [[540, 60]], null, 0], ['nothing', [], 'short', 0],
  ])('%s', (_name, spells, duration, recoveryNeededMin) => {
    const found = liftDurationOf(spells.map(([liftingMin, recoveryMin]) => ({ liftingMin, recoveryMin })));
    expect(found.duration).toBe(duration);
    expect(found.recoveryNeededMin).toBeCloseTo(recoveryNeededMin, 9);
  });
});

describe('a wet bundle', () => {
  test('is heavier by its water, and says what it weighs once drained and blotted', () => {
    const quilt = wetBundleKg({ dryMassKg: 2.1, stage: 'dripping', padded: true });
    expect(quilt.massKg).toBeCloseTo(2.1 * 3.5, 9);
    expect(quilt.lighter.map(({ stage }) => stage)).toEqual(['drained', 'blotted']);
    expect(wetBundleKg({ dryMassKg: 2.1, stage: 'blotted', padded: true }).lighter).toEqual([]);
  });
});
