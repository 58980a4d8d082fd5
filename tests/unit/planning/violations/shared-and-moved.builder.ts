/**
 * A plan made by hand in which things share a bath, lie frozen for a while, are carried to another site and give off less
 * water as they dry. Every slot and unit can be checked by reading.
 */
import type { Plan, PlanAssignment, PlanItem, PlanOption, PlanProblem } from '#planning';
import { step } from '../support/day.builder.js';
import { item, SLOTS, smallProblem } from '../support/small.builder.js';

const bath = (units: number): PlanOption => ({
  disposition: 'treat',
  steps: [
    step('rinse', { zone: 'dirty', durationSlots: 2, skill: 'rinsing', batch: { group: 'cotton', units, mostUnits: 3 } }),
    step('dry', { durationSlots: 10, crew: 0, drying: { areaDm2: 4, loadGPerSlot: 6, falling: [{ fromSlot: 2, loadGPerSlot: 3 }, { fromSlot: 5, loadGPerSlot: 0 }] }, stabilises: 'start' }),
  ],
});

/** Frozen in passing, thawed for two slots, carried for three, then dried at the school; safe only when it dries. */
const journey: PlanOption = {
  disposition: 'treat',
  steps: [
    step('freeze', { zone: 'cold', durationSlots: 0, crew: 0, noStation: true, freezer: { volumeCl: 30, leastSlots: 5 } }),
    step('thaw', { durationSlots: 2, crew: 0, noStation: true }),
    step('carry', { durationSlots: 3, crew: 0, noStation: true, services: [{ serviceId: 'van', units: 2 }], notAfterSlot: 14 }),
    step('dry', { siteId: 'school', durationSlots: 10, crew: 0, drying: { areaDm2: 4, loadGPerSlot: 5 }, stabilises: 'start' }),
  ],
};

function assign(of: PlanItem, position: number, startSlot: number, uses: Partial<PlanAssignment>): PlanAssignment {
  const { disposition, steps } = of.options[0]!;
  const { step: kind, durationSlots } = steps[position]!;
  return { itemId: of.id, option: 0, position, step: kind, disposition, batchId: null, stationId: null, personIds: [], dryingPlaceId: null, freezerId: null, startSlot, endSlot: startSlot + durationSlots, ...uses };
}

/** `a` and `b` share the tub at slot 0; `c` lies frozen from 0 to 10, thaws, leaves at 12 and dries from 15 on, ten slots after its deadline but for the frost. */
export function sharedAndMoved(): { problem: PlanProblem; plan: Plan } {
  const [a, b, c] = [item('a', { options: [bath(1)] }), item('b', { options: [bath(2)] }), item('c', { options: [journey], deadlineSlot: 5 })] as const;
  const day = [{ from: 0, to: SLOTS }];
  const small = smallProblem([a, b, c]);
  const problem: PlanProblem = {
    ...small,
    // Two things that dry at once fit only because both have dried for two slots when the limit falls, and for five when there is none.
    rooms: [{ id: 'loft', siteId: 'hall', removalGPerSlot: [{ from: 0, to: 4, limit: 12 }, { from: 4, to: 7, limit: 6 }] }, { id: 'gym', siteId: 'school', removalGPerSlot: [{ ...day[0]!, limit: 5 }] }],
    places: [...small.places, { id: 'wall-bars', roomId: 'gym', areaDm2: 4, open: day }],
    freezers: [{ id: 'chest', siteId: 'hall', volumeCl: 30, open: [{ from: 0, to: 10 }] }],
    services: [{ id: 'van', kind: 'courier', capacity: 2, open: [{ from: 12, to: 15 }] }],
    previous: { holdBeforeSlot: 2, steps: [{ itemId: 'c', disposition: 'treat', step: 'dry', stationId: null, dryingPlaceId: 'wall-bars', personIds: [], freezerId: null, startSlot: 15, endSlot: 25 }] },
  };
  const tub = { stationId: 'tub', personIds: ['ada'], batchId: 'first' };
  const plan: Plan = {
    seed: 0, iterations: 0, unplanned: [],
    assignments: [
      assign(a, 0, 0, tub), assign(b, 0, 0, tub), assign(a, 1, 2, { dryingPlaceId: 'rack' }), assign(b, 1, 2, { dryingPlaceId: 'rack' }),
      assign(c, 0, 0, { freezerId: 'chest' }), assign(c, 1, 10, {}), assign(c, 2, 12, {}), assign(c, 3, 15, { dryingPlaceId: 'wall-bars' }),
    ],
    // Weight 5 each: stabilised at 2, 2 and 15.
    objective: [0, 0, 0, 95],
  };
  return structuredClone({ problem, plan });
}
