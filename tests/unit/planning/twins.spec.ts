/** Several routes of one way: where a thing is, and over the sites that it can be carried to. */
import { describe, expect, test } from '@jest/globals';
import { buildPlan, checkProblem, type PlanItem, type PlanProblem, type PlanStep, type PreviousStep, validatePlan } from '#planning';

const step = (kind: PlanStep['step'], change: Partial<PlanStep> = {}): PlanStep => ({ step: kind, zone: 'dirty', durationSlots: 2, crew: 1, skill: null, barredRestrictions: [], drying: null, freezer: null, stabilises: null, ...change });
const carryTo = (serviceId: string): PlanStep => step('carry', { crew: 0, noStation: true, services: [{ serviceId, units: 1 }] });
const RINSE = step('rinse', { stabilises: 'end' });
const at = (siteId: string): PlanStep => ({ ...RINSE, siteId });
const OVER = { disposition: 'treat' as const, steps: [carryTo('to-b'), at('b')] };

function problem(previous: PreviousStep[], options: PlanItem['options'], change: Partial<PlanProblem> = {}): PlanProblem {
  const sites = ['a', 'b', 'c'];
  return {
    originMs: 0, slotMinutes: 15, horizonSlots: 96, rooms: [], places: [], freezers: [], fixed: [],
    stations: sites.map((siteId) => ({ id: `bath-${siteId}`, siteId, zone: 'dirty', steps: ['rinse'], capacity: 2, open: [{ from: 0, to: 96 }] })),
    people: sites.map((siteId) => ({ id: `hand-${siteId}`, siteId, skills: [], restrictions: [], shifts: [{ from: 0, to: 96 }] })),
    services: ['to-b', 'to-c'].map((id) => ({ id, kind: 'courier', capacity: 5, open: [{ from: 0, to: 96 }] })),
    items: [{ id: 'thing', siteId: 'a', releaseSlot: 0, deadlineSlot: 40, weight: 5, stabilised: false, options }],
    previous: { steps: previous, holdBeforeSlot: 20 }, ...change,
  };
}

const was = (kind: PreviousStep['step'], startSlot: number, change: Partial<PreviousStep> = {}): PreviousStep => ({ itemId: 'thing', disposition: 'treat', step: kind, stationId: null, dryingPlaceId: null, personIds: [], freezerId: null, startSlot, endSlot: startSlot + 2, ...change });
const HERE = { disposition: 'treat' as const, steps: [RINSE] };
const TO_C = { disposition: 'treat' as const, steps: [carryTo('to-c'), at('c')] };
const rinsedAt = (bath: string, hand: string, startSlot: number) => was('rinse', startSlot, { stationId: bath, personIds: [hand] });

function planned(one: PlanProblem): string[] {
  expect(checkProblem(one)).toEqual([]);
  const plan = buildPlan(one, { seed: 1, iterations: 0 });
  expect(validatePlan(one, plan)).toEqual([]);
  return plan.assignments.map(({ step: kind, stationId, startSlot }) => `${kind} ${stationId ?? '-'} ${startSlot}`);
}

describe('a plan in force is kept on the route that it took', () => {
  test('with its journey, although the thing could stay where it is', () => {
    expect(planned(problem([was('carry', 4, { serviceId: 'to-b' }), rinsedAt('bath-b', 'hand-b', 6)], [HERE, OVER, TO_C]))).toEqual(['carry - 4', 'rinse bath-b 6']);
  });

  test('to the same site of several', () => {
    expect(planned(problem([was('carry', 4, { serviceId: 'to-c' }), rinsedAt('bath-c', 'hand-c', 6)], [HERE, OVER, TO_C]))).toEqual(['carry - 4', 'rinse bath-c 6']);
  });

  test('to the same site where nobody kept what carries it', () => {
    expect(planned(problem([was('carry', 4), rinsedAt('bath-c', 'hand-c', 6)], [HERE, OVER, TO_C]))).toEqual(['carry - 4', 'rinse bath-c 6']);
  });

  test('where it is, when it was to stay, whichever route stands first', () => {
    expect(planned(problem([rinsedAt('bath-a', 'hand-a', 9)], [OVER, TO_C, HERE]))).toEqual(['rinse bath-a 9']);
  });

  test('with another journey, when the one that was planned has not been made', () => {
    expect(planned(problem([was('carry', -3, { serviceId: 'to-b' }), rinsedAt('bath-b', 'hand-b', 6)], [HERE, TO_C, OVER]))).toEqual(['carry - 0', 'rinse bath-b 6']);
  });

  test('at the same time with what still goes there, when its service has gone', () => {
    expect(planned(problem([was('carry', 4, { serviceId: 'gone' }), rinsedAt('bath-b', 'hand-b', 6)], [HERE, OVER]))).toEqual(['carry - 4', 'rinse bath-b 6']);
  });
});

test('another journey at the same time counts as moved', () => {
  const before = [was('carry', 4, { serviceId: 'to-c' }), rinsedAt('bath-b', 'hand-b', 6)];
  const one = problem(before, [OVER]);
  const plan = buildPlan(one, { seed: 1, iterations: 0 });
  expect(plan.assignments.map(({ startSlot }) => startSlot)).toEqual([4, 6]);
  const kept = buildPlan(problem([{ ...before[0]!, serviceId: 'to-b' }, before[1]!], [OVER]), { seed: 1, iterations: 0 });
  expect(kept.objective[2]).toBe(0);
  expect(plan.objective[2]).toBeGreaterThan(0);
  expect(validatePlan(one, plan)).toEqual([]);
});
