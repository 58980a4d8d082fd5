/** A plan that people are working to, through a thousand things that go otherwise. */
import { describe, expect, test } from '@jest/globals';
import { buildPlan, movedSteps, type Plan, type PlanAssignment, type PlanItem, type PlanProblem, type PreviousStep, validatePlan } from '#planning';
import { adoptPlan, applyEvent, eventScript, generateIncident, startWork } from '../../../../libs/testing/src/salvage/index.js';

const EVENTS = 1_000;

/** What was to begin within the hold and has not begun, by item. */
function soonOf({ previous, items }: PlanProblem): Map<string, PreviousStep[]> {
  const soon = new Map<string, PreviousStep[]>();
  const known = new Set(items.map(({ id }) => id));
  for (const step of previous?.steps ?? []) {
    if (!known.has(step.itemId) || step.startSlot < 0) continue;
    soon.set(step.itemId, [...(soon.get(step.itemId) ?? []), step]);
  }
  for (const [id, steps] of soon) if (!steps.some(({ startSlot }) => startSlot < previous!.holdBeforeSlot)) soon.delete(id);
  return soon;
}

function stays(was: PreviousStep, now: readonly PlanAssignment[]): boolean {
  return now.some(({ step, startSlot, stationId, dryingPlaceId, personIds }) =>
    step === was.step && startSlot === was.startSlot && stationId === was.stationId && dryingPlaceId === was.dryingPlaceId && personIds.length === was.personIds.length);
}

/** The item's assignments as they were, if one of its routes still is what it was to go. */
function asBefore(item: PlanItem, steps: readonly PreviousStep[]): PlanAssignment[] | null {
  const ordered = [...steps].sort((a, b) => a.startSlot - b.startSlot || a.endSlot - b.endSlot);
  const option = item.options.findIndex((one) => one.disposition === ordered[0]!.disposition && one.steps.length === ordered.length && one.steps.every(({ step }, k) => step === ordered[k]!.step));
  if (option < 0) return null;
  return ordered.map(({ itemId, step, disposition, stationId, personIds, dryingPlaceId, freezerId, startSlot, endSlot }, position) =>
    ({ itemId, option, position, step, disposition, batchId: null, stationId, personIds, dryingPlaceId, freezerId, startSlot, endSlot }));
}

/** Whether the item could have stayed beside all else that stayed. */
function couldStay(problem: PlanProblem, plan: Plan, stayed: ReadonlySet<string>, item: PlanItem, before: PlanAssignment[]): boolean {
  const items = problem.items.filter(({ id }) => stayed.has(id) || id === item.id);
  const assignments = [...plan.assignments.filter(({ itemId }) => stayed.has(itemId)), ...before];
  const { previous: _, ...alone } = problem;
  return validatePlan({ ...alone, items }, { ...plan, assignments, unplanned: [] }).every(({ rule }) => rule === 'objective');
}

describe('a plan in force', () => {
  test(`through ${EVENTS} events nothing that was to begin within the hour moves unless what it needs has gone, and what has begun stays`, () => {
    const { problem } = generateIncident({ preset: 'overload-1.5', items: 60, seed: 7 });
    let state = startWork(problem);
    const met = { events: 0, held: 0, moved: 0, otherRoute: 0 };
    for (const event of eventScript({ seed: 7, length: EVENTS, problem })) {
      const plan = buildPlan(state.problem, { seed: 1, iterations: 8 });
      expect(validatePlan(state.problem, plan)).toEqual([]);
      const soon = soonOf(state.problem);
      const now = groups(plan);
      const hold = state.problem.previous?.holdBeforeSlot ?? 0;
      const stayed = new Set([...soon].filter(([id, steps]) => steps.filter(({ startSlot }) => startSlot < hold).every((step) => stays(step, now.get(id) ?? []))).map(([id]) => id));
      for (const [id, steps] of soon) {
        met.held += 1;
        if (stayed.has(id)) continue;
        met.moved += 1;
        const item = state.problem.items.find((one) => one.id === id)!;
        const before = asBefore(item, steps);
        if (before === null) met.otherRoute += 1;
        else expect([id, couldStay(state.problem, plan, stayed, item, before)]).toEqual([id, false]);
      }
      met.events += 1;
      state = applyEvent(adoptPlan(state, plan), event);
    }
    expect(met.events).toBe(EVENTS);
    expect(met.held).toBeGreaterThan(200);
    expect(met.otherRoute).toBeLessThanOrEqual(met.moved);
    process.stdout.write(`held work: ${JSON.stringify(met)}\n`);
  });

  test('with nothing changed is the plan again, and no step moves', () => {
    const { problem } = generateIncident({ preset: 'overload-1.5', items: 120, seed: 3 });
    const plan = buildPlan(problem, { seed: 1, iterations: 60 });
    const steps = plan.assignments.map(({ itemId, disposition, step, stationId, dryingPlaceId, personIds, freezerId, startSlot, endSlot }) => ({ itemId, disposition, step, stationId, dryingPlaceId, personIds, freezerId, startSlot, endSlot }));
    const again = buildPlan({ ...problem, previous: { steps, holdBeforeSlot: 4 } }, { seed: 1, iterations: 0 });
    expect(again.objective.slice(0, 3)).toEqual([plan.objective[0], plan.objective[1], 0]);
    expect(movedSteps({ ...problem, previous: { steps, holdBeforeSlot: 4 } }, again)).toMatchObject({ movedSteps: 0, withdrawnItemIds: [] });
  });
});

function groups({ assignments }: Plan): Map<string, PlanAssignment[]> {
  const byItem = new Map<string, PlanAssignment[]>();
  for (const assignment of assignments) byItem.set(assignment.itemId, [...(byItem.get(assignment.itemId) ?? []), assignment]);
  return byItem;
}
