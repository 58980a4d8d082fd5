import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { clothingOf, STEP_KINDS, WET_STATES, type CareStep, type WetState } from '#care';
import { calibrate, clothingAdditionC, STANDARD_ITEM_KINDS } from '#climate';
import { extentOf, type ItemRecord } from '#application';
import { stepAtHand } from '../../../libs/application/src/care/hands-on.js';
import { dayIn, minutesWithin } from '../../../libs/application/src/care/worked-time.js';

const step = (more: Partial<CareStep> = {}): CareStep => ({ step: 'rinse', zone: 'dirty', minutesPerPiece: 4, crew: 1, skill: 'rinsing', barredRestrictions: [], ppe: ['waterproof rubber gloves'], cautions: [], stabilises: false, ...more });
const item = (sizeClass: (typeof STANDARD_ITEM_KINDS)[number], count = 1) => ({ sizeClass, count, ...extentOf(sizeClass, count) }) as ItemRecord;
const air = (outdoorAirTempC: number | null, outdoorRelativeHumidityPct: number | null = 90) => ({ outdoorAirTempC, outdoorRelativeHumidityPct });
const wet = (wetState: WetState) => ({ wetState });

describe('what one lift of a step weighs', () => {
  const lift = (sizeClass: Parameters<typeof item>[0], wetState: WetState, more: Partial<CareStep> = {}, count = 1) => stepAtHand(step(more), item(sizeClass, count), wet(wetState), air(24)).lift;

  // Dry mass and water held: care guidance, quilts at 450 g/m2; dripping 250 %, padded and blotted 125 % (own calibration of `climate`).
  test.each([['queen-quilt', 'dripping', 9.8, 2], ['double-quilt', 'dripping', 7.35, 1], ['queen-quilt', 'damp', 6.3, 1], ['queen-quilt', 'dry', 2.8, 1]] as const)('a %s, %s: %d kg for %d', (sizeClass, wetState, kg, people) => {
    const found = lift(sizeClass, wetState, { step: 'wrap' });
    expect(found?.loadKg).toBeCloseTo(kg, 6);
    expect(found?.peopleNeeded).toBe(people);
  });

  test('what is rinsed comes dripping out of the bath, however dry it went in', () => {
    expect(lift('queen-quilt', 'dry', { step: 'rinse' })?.loadKg).toBeCloseTo(9.8, 6);
  });

  test('a lot is lifted piece by piece, and a look lifts nothing', () => {
    expect(lift('garment', 'wet', { step: 'wrap' }, 200)?.loadKg).toBeCloseTo(lift('garment', 'wet', { step: 'wrap' })?.loadKg ?? 0, 6);
    for (const look of ['tag', 'photograph', 'assess', 'colour-test'] as const) expect(lift('queen-quilt', 'dripping', { step: look })).toBeNull();
  });

  test('wetter is never lighter, and nobody knowing is as dripping', () => {
    const order: WetState[] = ['dry', 'damp', 'wet', 'dripping'];
    fc.assert(fc.property(fc.constantFrom(...STANDARD_ITEM_KINDS), fc.constantFrom(...STEP_KINDS), fc.integer({ min: 1, max: 300 }), (sizeClass, kind, count) => {
      const loads = order.map((state) => lift(sizeClass, state, { step: kind }, count)?.loadKg ?? 0);
      expect(loads).toEqual([...loads].sort((a, b) => a - b));
      expect(lift(sizeClass, 'unknown', { step: kind }, count)).toEqual(lift(sizeClass, 'dripping', { step: kind }, count));
    }));
  });
});

describe('the heat of a step', () => {
  const minutes = (tempC: number | null, more: Partial<CareStep> = {}, wetState: WetState = 'wet') => stepAtHand(step(more), item('queen-quilt'), wet(wetState), air(tempC)).heat?.workMinutesPerHour ?? null;

  test('the temperature that is told holds what the clothing adds, as the sentence beside it says', () => {
    const told = (ppe: CareStep['ppe']) => stepAtHand(step({ ppe }), item('garment'), wet('wet'), air(26, 70)).heat!.wbgtC;
    const dressed: CareStep['ppe'] = ['waterproof coveralls'];
    expect(clothingAdditionC({ clothing: clothingOf(dressed) })).toBeGreaterThan(0);
    expect(told(dressed) - told([])).toBeCloseTo(clothingAdditionC({ clothing: clothingOf(dressed) }) - clothingAdditionC({ clothing: clothingOf([]) }), 9);
  });

  test('it goes by the margin for still air that the network works with', () => {
    const told = (wbgtStillAirMarginC: number) => stepAtHand(step(), item('garment'), wet('wet'), air(28), calibrate({ wbgtStillAirMarginC })).heat!;
    expect(told(2).wbgtC - told(0.5).wbgtC).toBeCloseTo(1.5, 9);
    expect(told(3).workMinutesPerHour).toBeLessThan(told(0).workMinutesPerHour);
  });

  test('nobody knows it where nobody has measured the air', () => {
    expect(minutes(null)).toBeNull();
    expect(stepAtHand(step(), item('garment'), wet('wet'), air(30, null)).heat).toBeNull();
  });

  test('the test incident at 24 °C and 90 % lets people work on; the same air in a vapour-barrier suit stops them', () => {
    expect(minutes(24, { step: 'wrap' })).toBe(60);
    expect(minutes(24, { step: 'wrap', ppe: ['vapour-barrier suit'] })).toBe(0);
  });

  test('looking is lighter than rinsing, and rinsing lighter than hauling what is too heavy for one', () => {
    expect(minutes(28, { step: 'assess' })).toBeGreaterThan(minutes(28, { step: 'wrap' }, 'damp') ?? 60);
    expect(minutes(26, { step: 'wrap' }, 'damp')).toBeGreaterThan(minutes(26, { step: 'wrap' }, 'dripping') ?? 60);
  });

  test('every step in every wet state is reckoned without a fault', () => {
    for (const kind of STEP_KINDS) for (const state of WET_STATES) for (const sizeClass of STANDARD_ITEM_KINDS) expect(stepAtHand(step({ step: kind }), item(sizeClass), wet(state), air(40, 100)).heat?.workMinutesPerHour).toBeGreaterThanOrEqual(0);
  });
});

describe('time at work', () => {
  const span = (from: number, to: number) => ({ fromMs: from * 60_000, toMs: to * 60_000 });

  test.each([
    ['nothing', [], 0], ['one stretch', [span(10, 25)], 15], ['what overlaps once', [span(10, 25), span(20, 30), span(12, 14)], 20], ['only what lies within', [span(-30, 5), span(55, 90)], 10], ['nothing before or after', [span(-30, -5), span(70, 90)], 0],
  ])('counts %s', (_what, spans, expected) => {
    expect(minutesWithin(spans, 0, 60 * 60_000)).toBe(expected);
    expect(minutesWithin([...spans].reverse(), 0, 60 * 60_000)).toBe(expected);
  });

  test('the day is that of the place; UTC where its zone is not known here', () => {
    const lateEvening = Date.parse('2026-05-09T23:30:00Z');
    expect(dayIn('UTC', lateEvening)).toBe('2026-05-09');
    expect(dayIn('Pacific/Auckland', lateEvening)).toBe('2026-05-10');
    expect(dayIn('America/Los_Angeles', lateEvening)).toBe('2026-05-09');
    expect(dayIn('Nowhere/Nothing', lateEvening)).toBe('2026-05-09');
  });
});
