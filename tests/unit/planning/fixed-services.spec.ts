/** What a courier or specialist has begun takes its units, as what has begun elsewhere does. */
import { describe, expect, test } from '@jest/globals';
import { buildPlan, checkProblem, loadSeries, type PlanProblem, type PlanStep, suggestChanges, validatePlan } from '#planning';

const REFER: PlanStep = { step: 'refer', zone: 'dirty', durationSlots: 8, crew: 0, skill: null, barredRestrictions: [], noStation: true, services: [{ serviceId: 'studio', units: 1 }], drying: null, freezer: null, stabilises: 'start' };

function problem(deadlineSlot: number, capacity = 1): PlanProblem {
  return {
    originMs: 0, slotMinutes: 15, horizonSlots: 96, stations: [], people: [], rooms: [], places: [], freezers: [],
    services: [{ id: 'studio', kind: 'specialist', capacity, open: [{ from: 0, to: 96 }] }],
    fixed: [{ itemId: 'there', step: 'refer', stationId: null, personIds: [], dryingPlaceId: null, areaDm2: 0, loadGPerSlot: 0, freezerId: null, volumeCl: 0, services: [{ serviceId: 'studio', units: 1 }], interval: { from: 0, to: 10 } }],
    items: [{ id: 'next', siteId: 'hall', releaseSlot: 0, deadlineSlot, weight: 5, stabilised: false, options: [{ disposition: 'refer', steps: [REFER] }] }],
  };
}

const planOf = (one: PlanProblem) => {
  expect(checkProblem(one)).toEqual([]);
  const plan = buildPlan(one, { seed: 1, iterations: 5 });
  expect(validatePlan(one, plan)).toEqual([]);
  return plan;
};

describe('a fixed use of a service', () => {
  test('keeps the next thing waiting until it ends, and no longer', () => {
    expect(planOf(problem(40)).assignments).toMatchObject([{ itemId: 'next', startSlot: 10, endSlot: 18 }]);
    expect(planOf(problem(40, 2)).assignments).toMatchObject([{ startSlot: 0 }]);
  });

  test('is what stands in the way of what cannot wait, and one more unit is suggested', () => {
    const one = problem(9);
    const plan = planOf(one);
    expect(plan.unplanned).toMatchObject([{ itemId: 'next', blockedBy: { kind: 'service', what: 'studio' } }]);
    const changes = suggestChanges(one, plan, { volunteers: { from: 0, to: 16 }, dehumidifierGPerSlot: new Map() }).flat();
    expect(changes).toContainEqual({ kind: 'service-units', serviceId: 'studio', units: 1 });
    // A service is on no site, where nobody could be asked to come.
    expect(changes.every((change) => change.kind !== 'people' || change.siteId === 'hall')).toBe(true);
  });

  test('is found by the validator where a plan forgets it', () => {
    const one = problem(40);
    const plan = planOf({ ...one, fixed: [] });
    expect(plan.assignments).toMatchObject([{ startSlot: 0 }]);
    expect(validatePlan(one, plan)).toMatchObject([{ rule: 'service-capacity', resourceId: 'studio', slot: 0 }]);
  });

  test('counts in the load of the service', () => {
    const one = problem(40);
    const series = loadSeries(one, planOf(one), 'service', 'studio', '');
    expect(series).not.toBeNull();
    expect([series!.used[0], series!.used[9], series!.used[10], series!.used[17], series!.used[18]]).toEqual([1, 1, 1, 1, 0]);
  });

  test('of a service that the problem does not have is a fault', () => {
    const one = problem(40);
    one.fixed[0]!.services = [{ serviceId: 'nobody', units: 1 }, { serviceId: 'studio', units: -1 }];
    expect(checkProblem(one).map(({ path }) => path)).toEqual(expect.arrayContaining(['fixed[0].services[0].serviceId', 'fixed[0].services[1].units']));
  });
});
