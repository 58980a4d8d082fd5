/** The planner: a first plan by rejection, improved by ruin and recreate, then filled with what is safe already. */
import type { Plan, PlanAssignment, PlanProblem, UnplannedItem } from './types.js';
import { compile, type Compiled, type CompiledItem } from './compile.js';
import { Diagnostician } from './diagnose.js';
import { improve } from './improve.js';
import type { Placement } from './place-item.js';
import { PlanState } from './plan-state.js';
import { assertBudget, assertProblem } from './problem-check.js';
import { NONE } from './timetable.js';

/** How long to look: the plan is bit-identical for equal problem, seed and iterations. */
export interface PlanBudget {
  /** Any whole number in [-2^31, 2^31). */
  seed: number;
  /** Rounds of improvement, 0 or more; 0 gives the first plan. */
  iterations: number;
}

/**
 * Builds a plan. An item that cannot be stabilised in time by any of its care routes is not planned late: it is
 * listed with the resource that stands in its way. Items already stabilised are planned after all others.
 * @throws MalformedPlanProblem when the problem or the budget is malformed; the error lists every fault.
 */
export function buildPlan(problem: PlanProblem, budget: PlanBudget): Plan {
  assertProblem(problem);
  assertBudget(budget);
  const compiled = compile(problem);
  const diagnostician = new Diagnostician(compiled.resources);
  const hopeless = Uint8Array.from(compiled.items, (item) => (item.urgent && diagnostician.isHopeless(item) ? 1 : 0));
  const state = new PlanState(compiled);
  for (const item of inOrder(compiled.items.filter((entry) => entry.urgent && hopeless[entry.index] === 0))) state.offer(item);
  if (budget.iterations > 0) improve(state, hopeless, budget.seed, budget.iterations);
  const { objective } = state;
  for (const item of inOrder(compiled.items.filter((entry) => !entry.urgent))) state.offer(item);
  return {
    seed: budget.seed,
    iterations: budget.iterations,
    assignments: toAssignments(compiled, state.placed),
    unplanned: toUnplanned(state, diagnostician, hopeless),
    objective: [...objective],
  };
}

function inOrder(items: CompiledItem[]): CompiledItem[] {
  return items.sort((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : a.index - b.index));
}

function toUnplanned(state: PlanState, diagnostician: Diagnostician, hopeless: Uint8Array): UnplannedItem[] {
  return state.compiled.items
    .filter((item) => state.placed[item.index] === null)
    .map((item) => {
      const diagnosis = hopeless[item.index] === 1 ? diagnostician.hopeless(item) : diagnostician.item(state.timetable, item);
      return { itemId: item.id, weight: item.weight, blockedBy: diagnosis.blocker };
    });
}

/** Placements in index form as assignments, by start, then item id, then position. */
function toAssignments({ resources, items }: Compiled, placed: readonly (Placement | null)[]): PlanAssignment[] {
  const assignments: PlanAssignment[] = [];
  for (const placement of placed) {
    if (placement === null) continue;
    const item = items[placement.item]!;
    const option = item.options[placement.option]!;
    placement.steps.forEach((step, position) => assignments.push({
      itemId: item.id,
      position,
      step: option.steps[position]!.kind,
      disposition: option.disposition,
      stationId: step.station === NONE ? null : resources.stations[step.station]!.id,
      personIds: step.people.map((person) => resources.people[person]!.id).sort(),
      dryingPlaceId: step.place === NONE ? null : resources.places[step.place]!.id,
      freezerId: step.freezer === NONE ? null : resources.freezers[step.freezer]!.id,
      startSlot: step.start,
      endSlot: step.end,
    }));
  }
  // The items are in id order and the sort is stable, so only the start decides.
  return assignments.sort((a, b) => a.startSlot - b.startSlot);
}
