import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { calibrate, ClimateRangeError, CLOTHING_ADDITION_C, clothingAdditionC, heatAnswer, heatIndexF, METABOLIC_RATE_W, shiftSharePct, STILL_AIR_MARGIN_C, wbgtIndoorC, wbgtOf, workMinutesPerHour, type HeatClothing, type HeatQuestion, type WorkEffort } from '#climate';
import { number } from './arbitraries.js';

const HALL: HeatQuestion['heat'] = { from: 'hall-air', air: { airTempC: 24, relativeHumidityPct: 60 }, stillAir: false };
const judge = (more: Partial<HeatQuestion> = {}) => heatAnswer({ heat: HALL, wear: { clothing: 'work-clothes' }, effort: 'moderate', acclimatised: false, person: 'new', dayInHeat: 5, ...more });
const codes = (answer: { notes: readonly { code: string }[] }) => answer.notes.map(({ code }) => code);
const clothing = fc.constantFrom(...(Object.keys(CLOTHING_ADDITION_C) as HeatClothing[]));
const effort = fc.constantFrom(...(Object.keys(METABOLIC_RATE_W) as WorkEffort[]));

describe('minutes of work in an hour', () => {
  test('more heat or warmer clothing never gives more, harder work never more, and being used to heat never fewer', () => {
    fc.assert(fc.property(number(10, 45), number(0, 10), clothing, clothing, effort, fc.boolean(), fc.boolean(), (wbgtC, hotter, a, b, how, acclimatised, hood) => {
      const minutes = (change: object) => workMinutesPerHour({ wbgtC, clothing: a, effort: how, acclimatised, ...change });
      expect(minutes({ wbgtC: wbgtC + hotter })).toBeLessThanOrEqual(minutes({}));
      const [cool, warm] = CLOTHING_ADDITION_C[a] <= CLOTHING_ADDITION_C[b] ? [a, b] : [b, a];
      expect(minutes({ clothing: warm })).toBeLessThanOrEqual(minutes({ clothing: cool }));
      expect(minutes({ hood: true })).toBeLessThanOrEqual(minutes({ hood }));
      expect(minutes({ effort: 'very-heavy' })).toBeLessThanOrEqual(minutes({}));
      // The two formulas cross below the coldest WBGT that matters here.
      if (wbgtC >= 20) expect(minutes({ acclimatised: true })).toBeGreaterThanOrEqual(minutes({ acclimatised: false }));
    }));
  });

  test('come in quarters of an hour, rounded down', () => {
    fc.assert(fc.property(number(0, 60), clothing, effort, fc.boolean(), (wbgtC, what, how, acclimatised) => {
      expect([0, 15, 30, 45, 60]).toContain(workMinutesPerHour({ wbgtC, clothing: what, effort: how, acclimatised }));
    }));
  });
});

describe('a step and a person', () => {
  test('ordinary clothes in a mild hall: the whole hour, the estimate and its margin told', () => {
    const still = judge({ heat: { ...HALL, stillAir: true } as HeatQuestion['heat'] });
    expect(still).toMatchObject({ workMinutesPerHour: 60, stop: false, wbgt: { marginC: 0.5, mark: 'own-calibration' }, shiftSharePct: 100 });
    expect(still.wbgt.wbgtC).toBeCloseTo(wbgtIndoorC({ airTempC: 24, relativeHumidityPct: 60 }) + STILL_AIR_MARGIN_C, 12);
    expect(codes(still)).toEqual(['look_at_person', 'pulse_rule', 'drink', 'buddy', 'signs', 'estimate_meter_better', 'estimate_no_radiant_heat']);
  });

  test('a vapour-barrier suit in the same hall stops who is not used to heat; who is gets a quarter of an hour', () => {
    const suit = { wear: { clothing: 'vapour-barrier' as const } };
    expect(judge(suit)).toMatchObject({ workMinutesPerHour: 0, stop: true, clothingAdditionC: 11, longestUnwatchedMin: 120 });
    expect(codes(judge(suit))).toEqual(expect.arrayContaining(['heat_stop', 'rest_elsewhere', 'drink', 'buddy', 'signs']));
    expect(judge({ ...suit, acclimatised: true })).toMatchObject({ workMinutesPerHour: 15, restMinutesPerHour: 45, stop: false });
  });

  test('it stops exactly where no minute of work is left', () => {
    fc.assert(fc.property(number(5, 50), clothing, effort, fc.boolean(), fc.boolean(), (wbgtC, what, how, acclimatised, encapsulating) => {
      const answer = judge({ heat: { from: 'meter', wbgtC }, wear: { clothing: what }, effort: how, acclimatised, encapsulating });
      expect(answer.stop).toBe(answer.workMinutesPerHour === 0);
      expect(codes(answer).includes('heat_stop')).toBe(answer.stop && !encapsulating);
      expect(answer.workMinutesPerHour + answer.restMinutesPerHour).toBe(60);
      if (!encapsulating && answer.wbgtWithClothingC <= answer.limitC - 1e-9) expect(answer.workMinutesPerHour).toBe(60);
    }));
  });

  test('a suit that closes the body off is in no table, however cool it is', () => {
    const sealed = judge({ heat: { from: 'meter', wbgtC: 8 }, encapsulating: true });
    expect(sealed).toMatchObject({ stop: true, workMinutesPerHour: 0 });
    expect(codes(sealed)[0]).toBe('suit_outside_tables');
  });

  test('a high pulse takes a third off, a normal one nothing', () => {
    const warm = { heat: { from: 'meter' as const, wbgtC: 27 } };
    const minutes = judge(warm).workMinutesPerHour;
    expect([minutes, judge({ ...warm, pulsePerMin: 100 }).workMinutesPerHour, judge({ ...warm, pulsePerMin: 120 }).workMinutesPerHour]).toEqual([30, 30, 20]);
    expect(codes(judge({ ...warm, pulsePerMin: 120 }))).toContain('pulse_high');
  });

  test('who is new, or of whom nobody knows the day, gets the share of the first day', () => {
    expect(judge({ dayInHeat: null })).toMatchObject({ shiftSharePct: 20 });
    expect(codes(judge({ dayInHeat: null }))).toContain('ramp');
    expect(judge({ person: 'returning', dayInHeat: 1 })).toMatchObject({ shiftSharePct: 50 });
    fc.assert(fc.property(fc.constantFrom('new' as const, 'returning' as const, 'used' as const), fc.integer({ min: 1, max: 30 }), (person, day) => shiftSharePct(person, day + 1) >= shiftSharePct(person, day)));
  });

  test('people have died at moderate work from 21 C WBGT on: it is said, but not to who sorts papers', () => {
    const at = (wbgtC: number, how: WorkEffort) => codes(judge({ heat: { from: 'meter', wbgtC }, effort: how })).includes('strenuous_in_warmth');
    expect([at(21, 'moderate'), at(21.1, 'moderate'), at(27, 'light'), at(27, 'heavy')]).toEqual([false, true, false, true]);
  });

  test('a meter needs no margin and shows a heat index where the air is told beside it', () => {
    expect(judge({ heat: { from: 'meter', wbgtC: 24 } })).toMatchObject({ wbgt: { marginC: 0, mark: 'published' }, heatIndex: null, longestUnwatchedMin: null });
    expect(judge({ heat: { from: 'meter', wbgtC: 24, air: { airTempC: 35, relativeHumidityPct: 60 } } }).heatIndex).toMatchObject({ band: 'danger' });
  });
});

describe('the estimates', () => {
  test('their margins are ours and a network may raise them', () => {
    const outdoors = { from: 'outdoor-air', air: { airTempC: 30, relativeHumidityPct: 50 } } as const;
    expect(wbgtOf(outdoors, calibrate({ wbgtOutdoorMarginC: 2 })).wbgtC - wbgtOf(outdoors).wbgtC).toBeCloseTo(2, 12);
    expect(wbgtOf({ ...HALL, stillAir: true } as HeatQuestion['heat'], calibrate({ wbgtStillAirMarginC: 1 })).marginC).toBe(1);
    expect(wbgtOf(outdoors)).toMatchObject({ mark: 'common-practice' });
  });

  test.each<[string, () => unknown]>([
    ['a WBGT of 99 C', () => wbgtOf({ from: 'meter', wbgtC: 99 })],
    ['heat from nowhere', () => wbgtOf(JSON.parse('{"from":"guess"}'))],
    ['clothing that there is not', () => clothingAdditionC(JSON.parse('{"clothing":"armour"}'))],
    ['day 0', () => shiftSharePct('new', 0)],
    ['humidity of 130 %', () => heatIndexF(90, 130)],
  ])('%s is refused', (_name, act) => expect(act).toThrow(ClimateRangeError));
});

describe('the heat index', () => {
  test('rises with humidity where it is hot', () => {
    fc.assert(fc.property(number(88, 112), number(13, 80), number(0, 5), (t, rh, more) => heatIndexF(t, rh + more) >= heatIndexF(t, rh) - 1e-9));
  });
});
