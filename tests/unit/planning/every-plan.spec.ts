import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { bindingResources, buildPlan, checkProblem, explainItem, validatePlan, type Objective, type Plan, type PlanAssignment, type PlanItem, type PlanProblem } from '#planning';
import { salvageDay } from './support/day.builder.js';
import { randomProblem } from './support/random-problem.arbitrary.js';

const seeds = fc.integer({ min: -(2 ** 31), max: 2 ** 31 - 1 });

/** The same problem with every list in another order. */
function shuffled(problem: PlanProblem, order: (list: readonly unknown[]) => unknown[]): PlanProblem {
  const mix = <T>(list: readonly T[]): T[] => order(list) as T[];
  return {
    ...problem,
    stations: mix(problem.stations).map((station) => ({ ...station, steps: mix(station.steps), open: mix(station.open) })),
    people: mix(problem.people).map((person) => ({ ...person, skills: mix(person.skills), restrictions: mix(person.restrictions), shifts: mix(person.shifts) })),
    rooms: mix(problem.rooms).map((room) => ({ ...room, removalGPerSlot: mix(room.removalGPerSlot) })),
    places: mix(problem.places), freezers: mix(problem.freezers), items: mix(problem.items), fixed: mix(problem.fixed),
    ...(problem.services === undefined ? {} : { services: mix(problem.services) }),
    ...(problem.previous === undefined ? {} : { previous: { ...problem.previous, steps: mix(problem.previous.steps) } }),
  };
}

function atMost(a: Objective, b: Objective): boolean {
  const part = a.findIndex((value, i) => value !== b[i]);
  return part === -1 || a[part]! < b[part]!;
}

/** Every way to do a one-step item at a given start that the validator accepts. */
function acceptedAt(problem: PlanProblem, item: PlanItem, start: number): boolean {
  const only = item.options[0]!.steps[0]!;
  const pick = (list: readonly { id: string }[], needed: boolean): (string | null)[] => (needed ? list.map(({ id }) => id) : [null]);
  for (const stationId of pick(problem.stations, only.drying === null && only.noStation !== true)) {
    for (const dryingPlaceId of pick(problem.places, only.drying !== null)) {
      for (const freezerId of pick(problem.freezers, only.freezer !== null)) {
        for (const personIds of crews(problem.people.map(({ id }) => id), only.crew)) {
          const assignment: PlanAssignment = { itemId: item.id, option: 0, position: 0, step: only.step, disposition: item.options[0]!.disposition, batchId: null, stationId, personIds, dryingPlaceId, freezerId, startSlot: start, endSlot: start + only.durationSlots };
          const moment = only.stabilises === 'start' ? start : start + only.durationSlots;
          const plan: Plan = { seed: 0, iterations: 0, assignments: [assignment], unplanned: [], objective: [0, 0, 0, item.stabilised ? 0 : item.weight * moment] };
          if (validatePlan(problem, plan).length === 0) return true;
        }
      }
    }
  }
  return false;
}

function crews(ids: readonly string[], size: number): string[][] {
  if (size === 0) return [[]];
  return ids.flatMap((id, i) => crews(ids.slice(i + 1), size - 1).map((rest) => [id, ...rest]));
}

describe('every plan', () => {
  test('breaks no rule of the validator, before and after improvement', () => {
    fc.assert(fc.property(randomProblem(14), seeds, (problem, seed) => {
      expect(checkProblem(problem)).toEqual([]);
      expect(validatePlan(problem, buildPlan(problem, { seed, iterations: 0 }))).toEqual([]);
      expect(validatePlan(problem, buildPlan(problem, { seed, iterations: 60 }))).toEqual([]);
    }), { numRuns: 300 });
  });

  test('is the same for the same problem, seed and iterations, whatever the order of the input', () => {
    fc.assert(fc.property(randomProblem(12), seeds, (problem, seed) => {
      const budget = { seed, iterations: 40 };
      const plan = buildPlan(problem, budget);
      expect(buildPlan(problem, budget)).toEqual(plan);
      expect(buildPlan(shuffled(problem, (list) => [...list].reverse()), budget)).toEqual(plan);
      expect(buildPlan(shuffled(problem, (list) => [...list.slice(1), ...list.slice(0, 1)]), budget)).toEqual(plan);
    }), { numRuns: 100 });
  });

  test('leaves its input untouched', () => {
    fc.assert(fc.property(randomProblem(8), seeds, (problem, seed) => {
      const before = structuredClone(problem);
      const plan = buildPlan(problem, { seed, iterations: 10 });
      const planBefore = structuredClone(plan);
      validatePlan(problem, plan);
      for (const { id } of problem.items) explainItem(problem, plan, id);
      bindingResources(problem, plan);
      expect(problem).toEqual(before);
      expect(plan).toEqual(planBefore);
    }), { numRuns: 60 });
  });

  test('never gets a worse objective from more iterations', () => {
    fc.assert(fc.property(randomProblem(16), seeds, (problem, seed) => {
      const objectives = [0, 5, 20, 80].map((iterations) => buildPlan(problem, { seed, iterations }).objective);
      for (let i = 1; i < objectives.length; i += 1) expect(atMost(objectives[i]!, objectives[i - 1]!)).toBe(true);
    }), { numRuns: 100 });
  });

  test('never gets a worse objective from one more iteration, even where the search has wandered from its best', () => {
    const problem = salvageDay(80, 3);
    problem.stations.forEach((station) => { station.capacity = 1; });
    problem.people = problem.people.slice(0, 6);
    let before = buildPlan(problem, { seed: 5, iterations: 0 }).objective;
    for (let iterations = 1; iterations <= 80; iterations += 1) {
      const { objective } = buildPlan(problem, { seed: 5, iterations });
      expect(atMost(objective, before)).toBe(true);
      before = objective;
    }
  });

  test('gains weight from improvement on an overloaded day, so that iterations are not idle', () => {
    const problem = salvageDay(300, 3);
    problem.stations.forEach((station) => { station.capacity = 1; });
    const [first, improved] = [0, 300].map((iterations) => buildPlan(problem, { seed: 11, iterations }));
    expect(improved!.objective[0]).toBeLessThan(first!.objective[0]);
    expect(validatePlan(problem, improved!)).toEqual([]);
    expect(buildPlan(problem, { seed: 12, iterations: 300 }).assignments).not.toEqual(improved!.assignments);
  });

  test('puts a single step at the earliest start the validator accepts, and rejects it only when there is none', () => {
    let planned = 0;
    let rejected = 0;
    fc.assert(fc.property(randomProblem(6), (random) => {
      const item = random.items.find(({ options }) => options[0]?.steps.some((entry) => entry.stabilises !== null));
      if (item === undefined) return;
      const option = item.options[0]!;
      const { siteId: _, ...first } = option.steps.find((entry) => entry.stabilises !== null)!;
      const { pinned: __, ...free } = item;
      const only: PlanItem = { ...free, options: [{ ...option, steps: [first] }] };
      const { previous: ___, late: ____, ...rest } = random;
      const problem: PlanProblem = { ...rest, items: [only] };
      const plan = buildPlan(problem, { seed: 1, iterations: 3 });
      const start = plan.assignments[0]?.startSlot ?? problem.horizonSlots;
      for (let slot = 0; slot < start; slot += 1) expect(acceptedAt(problem, only, slot)).toBe(false);
      if (plan.assignments.length > 0) planned += 1;
      else rejected += 1;
    }), { numRuns: 200 });
    expect(Math.min(planned, rejected)).toBeGreaterThan(10);
  });
});
