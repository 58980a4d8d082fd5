import { describe, expect, test } from '@jest/globals';
import { clothingAdditionC, CLOTHING_ADDITION_C, heatIndexBand, heatIndexC, heatIndexF, heatLimitC, HOOD_ADDITION_C, longestUnwatchedMin, METABOLIC_RATE_W, nextSpellMin, REST_RATE_W, shiftSharePct, SHORT_SLEEVES_ADDITION_C, sustainableRateW, wbgtFromThermometersC, wbgtIndoorC, wbgtOutdoorScreeningC, workMinutesPerHour, type HeatClothing } from '#climate';

// Published: US National Weather Service, heat index equation; rounded values as used in a meteorology library's tests.
describe('the heat index', () => {
  test.each([[80, 40, 80], [88, 100, 121], [92, 70, 112], [110, 40, 136], [86, 88, 104], [96, 65, 121]])('%d F at %d %% feels like %d F', (t, rh, index) => {
    expect(Math.round(heatIndexF(t, rh))).toBe(index);
  });

  test.each([[100, 10, 94.12, 2], [75, 50, 74.78, 2], [75, 50, 74.8, 1], [80, 40, 79.8, 1], [84, 90, 98.3, 1], [86, 70, 95.1, 1], [90, 50, 94.6, 1], [90, 70, 105.9, 1], [95, 60, 113.1, 1], [100, 10, 94.1, 1], [100, 55, 123.6, 1]])(
    '%d F at %d %% (computed): %d F', (t, rh, index, places) => expect(heatIndexF(t, rh).toFixed(places)).toBe(index.toFixed(places)),
  );

  test('the same air in Celsius', () => {
    expect(heatIndexC({ airTempC: 35, relativeHumidityPct: 60 })).toBeCloseTo(((heatIndexF(95, 60) - 32) * 5) / 9, 12);
  });

  test('bands from 80, 90 and 105 F up to 130 F and beyond (as read in a web calculator)', () => {
    expect([79.9, 80, 90, 105, 130, 130.1].map(heatIndexBand)).toEqual(['none', 'caution', 'extreme-caution', 'danger', 'danger', 'extreme-danger']);
  });
});

describe('the wet-bulb globe temperature', () => {
  // Weights published (ISO 7243, as read in a copy); the two values computed in the project's guidance (care 3c).
  test('in the sun 0.7, 0.2 and 0.1, without sun 0.7 and 0.3', () => {
    expect(wbgtFromThermometersC({ naturalWetBulbC: 25, globeC: 45, airTempC: 32, inSun: true })).toBeCloseTo(29.7, 12);
    expect(wbgtFromThermometersC({ naturalWetBulbC: 25, globeC: 32, airTempC: 32, inSun: false })).toBeCloseTo(27.1, 12);
  });

  // Computed in the guidance (physics 6.2): the hall estimate is ours, the outdoor one common practice.
  test.each([[24, 60, 20.22, 24.59], [32, 60, 27.49, 33.3]])('estimated at %d C and %d %%: %d in a hall, %d outdoors', (airTempC, relativeHumidityPct, hall, outdoors) => {
    expect(wbgtIndoorC({ airTempC, relativeHumidityPct })).toBeCloseTo(hall, 2);
    expect(wbgtOutdoorScreeningC({ airTempC, relativeHumidityPct })).toBeCloseTo(outdoors, 2);
  });
});

// NIOSH 2016-106: formulas and classes published, as read in copies.
describe('limits', () => {
  test.each([['light', 180, 30.76, 28.1], ['moderate', 300, 28.21, 24.97], ['heavy', 415, 26.59, 22.99], ['very-heavy', 520, 25.47, 21.6]] as const)('%s work of %d W (computed): REL %d, RAL %d', (effort, watts, rel, ral) => {
    expect(METABOLIC_RATE_W[effort]).toBe(watts);
    expect([heatLimitC(watts, true).toFixed(2), heatLimitC(watts, false).toFixed(2)]).toEqual([rel.toFixed(2), ral.toFixed(2)]);
  });

  // 234 and 349 W computed by a third party as well; 465 and 580 W are tops of classes from memory.
  test.each([[234, 29.45], [349, 27.46], [465, 26.02], [580, 24.92]])('REL at %d W: %d', (watts, rel) => expect(heatLimitC(watts, true)).toBeCloseTo(rel, 2));

  test('table 5-1, rounded, reads 30, 28, 26 and 25 from light to very heavy: the equation at the tops of the classes is within 0.6 of it', () => {
    for (const [top, printed] of [[234, 30], [349, 28], [465, 26], [580, 25]] as const) expect(Math.abs(heatLimitC(top, true) - printed)).toBeLessThan(0.6);
  });

  test('turned round, a limit gives its metabolic rate; resting takes 115 W', () => {
    for (const acclimatised of [true, false]) expect(sustainableRateW(heatLimitC(300, acclimatised), acclimatised)).toBeCloseTo(300, 9);
    expect(REST_RATE_W).toBe(115);
  });
});

describe('clothing', () => {
  // Published: OSHA heat hazard recognition table, as read in a copy; hood and short sleeves: a national table after ISO 7243, as read in a copy.
  test('what each layer adds', () => {
    expect(CLOTHING_ADDITION_C).toEqual({ 'work-clothes': 0, 'cloth-coverall': 0, 'sms-coverall': 0.5, 'film-coverall': 1, 'double-layer': 3, 'vapour-barrier': 11 });
    expect([HOOD_ADDITION_C, SHORT_SLEEVES_ADDITION_C]).toEqual([1, -1]);
  });

  test('a hood adds to any of them; short sleeves take off ordinary work clothes only', () => {
    expect(clothingAdditionC({ clothing: 'vapour-barrier', hood: true })).toBe(12);
    expect(clothingAdditionC({ clothing: 'work-clothes', shortSleeves: true })).toBe(-1);
    expect(clothingAdditionC({ clothing: 'film-coverall', shortSleeves: true })).toBe(1);
  });

  // Computed in the guidance (physics 6.3).
  test.each<[HeatClothing, number, number]>([['work-clothes', 60, 60], ['sms-coverall', 60, 60], ['film-coverall', 60, 60], ['double-layer', 60, 60], ['vapour-barrier', 0, 15]])(
    'moderate work at 24 C and 60 %% in %s: %d minutes an hour, %d when used to heat', (clothing, unacclimatised, acclimatised) => {
      const work = { wbgtC: wbgtIndoorC({ airTempC: 24, relativeHumidityPct: 60 }), clothing, effort: 'moderate' as const };
      expect([workMinutesPerHour({ ...work, acclimatised: false }), workMinutesPerHour({ ...work, acclimatised: true })]).toEqual([unacclimatised, acclimatised]);
    },
  );
});

describe('people', () => {
  // Published: NIOSH, as read in a copy.
  test('new people are ramped up by 20 % a day, returning ones from 50 %', () => {
    expect([1, 2, 3, 4, 5, 9].map((day) => shiftSharePct('new', day))).toEqual([20, 40, 60, 80, 100, 100]);
    expect([1, 2, 3, 4, 5].map((day) => shiftSharePct('returning', day))).toEqual([50, 60, 80, 100, 100]);
  });

  // Published: NIOSH/OSHA/USCG/EPA guidance manual (1985), as read in copies.
  test.each([[90, 15, 45], [88, 30, 60], [85, 60, 90], [80, 90, 120], [75, 120, 150], [71, 120, null], [69, null, null]])('first monitoring at an adjusted %d F: after %p minutes in a suit, %p in ordinary clothes', (tempF, suit, clothes) => {
    const airTempC = ((tempF - 32) * 5) / 9 + 1e-9;
    expect([longestUnwatchedMin({ airTempC, sunshineShare: 0 }, true), longestUnwatchedMin({ airTempC, sunshineShare: 0 }, false)]).toEqual([suit, clothes]);
  });

  test('full sunshine adds 13 F', () => {
    expect(longestUnwatchedMin({ airTempC: 25.01, sunshineShare: 1 }, true)).toBe(15);
    expect(longestUnwatchedMin({ airTempC: 25.01, sunshineShare: 0 }, true)).toBe(120);
  });

  test('a pulse above 110 at the start of the rest makes the next spell a third shorter', () => {
    expect([nextSpellMin(45, 110), nextSpellMin(45, 111), nextSpellMin(15, 120)]).toEqual([45, 30, 10]);
  });
});
