/** Worked by hand on a house of one of everything, open in slots 10-20, 30-40 and 50-60 of 60. */
import { describe, expect, test } from '@jest/globals';
import type { PlanItem, PlanProblem, PlanStep } from '#planning';
import { Alone } from '../../../../libs/testing/src/salvage/alone.js';

const HOURS = [{ from: 10, to: 20 }, { from: 30, to: 40 }, { from: 50, to: 60 }];
const ALL = [{ from: 0, to: 60 }];
const step = (kind: PlanStep['step'], durationSlots: number, change: Partial<PlanStep> = {}): PlanStep => ({ step: kind, zone: 'clean', durationSlots, crew: 1, skill: 'blotting', barredRestrictions: [], drying: null, freezer: null, stabilises: null, ...change });
const dry = step('dry', 8, { crew: 0, skill: null, drying: { areaDm2: 5, loadGPerSlot: 4 }, stabilises: 'start' });
const treat = { disposition: 'treat' as const, steps: [step('blot', 4), dry, step('pack', 2)] };
const frozen = { disposition: 'hold-frozen' as const, steps: [step('freeze', 1, { crew: 0, skill: null, freezer: { volumeCl: 9, leastSlots: 4 } }), step('thaw', 2, { crew: 0, skill: null, noStation: true }), ...treat.steps] };
const item = (change: Partial<PlanItem>): PlanItem => ({ id: 'a', siteId: 'hall', releaseSlot: 0, deadlineSlot: 60, weight: 1, stabilised: false, options: [treat], ...change });

function house(change: Partial<PlanProblem> = {}): PlanProblem {
  const station = (id: PlanStep['step'] & string) => ({ id, siteId: 'hall', zone: 'clean' as const, steps: [id as 'blot'], capacity: 1, open: HOURS });
  return {
    originMs: 0, slotMinutes: 15, horizonSlots: 60, items: [], fixed: [], stations: [station('blot'), station('pack'), { ...station('freeze'), open: ALL }],
    people: [{ id: 'ada', siteId: 'hall', skills: ['blotting'], restrictions: [], shifts: HOURS }],
    rooms: [{ id: 'loft', siteId: 'hall', removalGPerSlot: [{ from: 0, to: 60, limit: 9 }] }], places: [{ id: 'rack', roomId: 'loft', areaDm2: 5, open: ALL }],
    freezers: [{ id: 'chest', siteId: 'hall', volumeCl: 9, open: ALL }], ...change,
  };
}

describe('alone in the house', () => {
  test('an item is blotted when the house opens, begins to dry at once, and is packed after it', () => {
    expect(new Alone(house()).earliest(item({}), treat)).toBe(14);
    expect(new Alone(house()).earliest(item({ releaseSlot: 17 }), treat)).toBe(34);
  });

  test('an item is late one slot before that and in time at it', () => {
    const alone = new Alone(house());
    expect(alone.isLate(item({ deadlineSlot: 13 }))).toBe(true);
    expect(alone.isLate(item({ deadlineSlot: 14 }))).toBe(false);
  });

  test('an item whose last step finds no time within the horizon is late', () => {
    // Blotted 36-40, dry at 48, packed 50-52; or blotted 50-54, and dry only at 62.
    expect(new Alone(house()).isLate(item({ releaseSlot: 36 }))).toBe(false);
    expect(new Alone(house()).isLate(item({ releaseSlot: 37 }))).toBe(true);
  });

  test('drying waits for air that is dry enough all the while', () => {
    const damp = house({ rooms: [{ id: 'loft', siteId: 'hall', removalGPerSlot: [{ from: 0, to: 18, limit: 9 }, { from: 18, to: 21, limit: 3 }, { from: 21, to: 60, limit: 9 }] }] });
    expect(new Alone(damp).earliest(item({}), treat)).toBe(21);
  });

  test('the clock stands while it lies frozen: what counts is the way from the thaw to drying', () => {
    const alone = new Alone(house());
    // Frozen 20-21; thawed 28-30, blotted 30-34: six slots from the thaw to drying.
    const late = { releaseSlot: 20, options: [frozen] };
    expect(alone.isLate(item({ ...late, deadlineSlot: 27 }))).toBe(false);
    expect(alone.isLate(item({ ...late, deadlineSlot: 26 }))).toBe(true);
    expect(new Alone(house({ freezers: [] })).isLate(item({ ...late, deadlineSlot: 27 }))).toBe(true);
  });
});
