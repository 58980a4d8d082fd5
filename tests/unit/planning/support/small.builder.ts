/** A problem small enough to check by hand: one hall, one of everything, a day of 40 slots. */
import type { PlanItem, PlanOption, PlanProblem } from '#planning';
import { step } from './day.builder.js';

export const SLOTS = 40;

/** Rinse (2 slots, 1 rinser), dry (10 slots, 4 dm2, 5 g per slot), pack (1 slot, nobody in particular). */
export const treat: PlanOption = {
  disposition: 'treat',
  steps: [
    step('rinse', { zone: 'dirty', durationSlots: 2, skill: 'rinsing', barredRestrictions: ['no-wet-work'] }),
    step('dry', { durationSlots: 10, crew: 0, drying: { areaDm2: 4, loadGPerSlot: 5 }, stabilises: 'start' }),
    step('pack', { crew: 0 }),
  ],
};

/** Wrap and freeze (1 slot, 1 person, 30 cl), stabilised at the end. */
export const freeze: PlanOption = { disposition: 'hold-frozen', steps: [step('freeze', { zone: 'cold', freezer: { volumeCl: 30 }, stabilises: 'end' })] };

/** An item of weight 5 from slot 0 on with its deadline at 20 that may only be treated. */
export function item(id: string, overrides: Partial<PlanItem> = {}): PlanItem {
  return { id, siteId: 'hall', releaseSlot: 0, deadlineSlot: 20, weight: 5, stabilised: false, options: [treat], ...overrides };
}

/** One hall in which two items can dry at a time. */
export function smallProblem(items: PlanItem[], overrides: Partial<PlanProblem> = {}): PlanProblem {
  const day = [{ from: 0, to: SLOTS }];
  return {
    originMs: 0, slotMinutes: 30, horizonSlots: SLOTS, fixed: [], items,
    stations: [
      { id: 'tub', siteId: 'hall', zone: 'dirty', steps: ['rinse'], capacity: 1, open: day },
      { id: 'bench', siteId: 'hall', zone: 'clean', steps: ['pack'], capacity: 2, open: day },
      { id: 'wrap', siteId: 'hall', zone: 'cold', steps: ['freeze'], capacity: 1, open: day },
    ],
    people: [
      { id: 'ada', siteId: 'hall', skills: ['rinsing'], restrictions: [], shifts: day },
      { id: 'bo', siteId: 'hall', skills: ['freezer-wrapping'], restrictions: [], shifts: day },
      { id: 'cy', siteId: 'hall', skills: ['rinsing'], restrictions: ['no-wet-work'], shifts: day },
    ],
    rooms: [{ id: 'loft', siteId: 'hall', removalGPerSlot: [{ from: 0, to: SLOTS, limit: 10 }] }],
    places: [{ id: 'rack', roomId: 'loft', areaDm2: 8, open: day }],
    freezers: [{ id: 'chest', siteId: 'hall', volumeCl: 50, open: day }],
    ...overrides,
  };
}
