/** What the validator reads out of the assignments of one item; shares no code with the planner. */
import type { Interval, Plan, PlanAssignment, PlanItem, PlanOption, PlanProblem, PlanStep } from './types.js';

/** The assignments of one item by position, and the route that they follow whole, if there is one. */
export interface ItemRoute { item: PlanItem; ordered: readonly PlanAssignment[]; option: PlanOption | null }

/** When an item is stabilised, and by how many slots its deadline has moved until then. */
export interface Stabilised { momentSlot: number; frozenSlots: number }

/** Routes by item id, of the items of the problem that the plan names. */
export function routesOf(items: ReadonlyMap<string, PlanItem>, plan: Plan): Map<string, ItemRoute> {
  const routes = new Map<string, ItemRoute>();
  for (const [id, assignments] of groupByItem(plan.assignments)) {
    const item = items.get(id);
    if (item === undefined) continue;
    if (!isOrdered(assignments)) assignments.sort((a, b) => a.position - b.position || a.startSlot - b.startSlot);
    routes.set(id, { item, ordered: assignments, option: followed(item, assignments) });
  }
  return routes;
}

/** The step that an assignment stands for; undefined where its item has no such step. */
export function stepOf(item: PlanItem, { option, position, step, disposition }: PlanAssignment): PlanStep | undefined {
  const route = item.options[option];
  const found = route?.steps[position];
  return route?.disposition === disposition && found?.step === step ? found : undefined;
}

/** `null` when the route stabilises nothing. The stays of a route end where its next step begins, so those before a step count whole. */
export function stabilisedBy(option: PlanOption, ordered: readonly PlanAssignment[]): Stabilised | null {
  let frozenSlots = 0;
  for (let k = 0; k < option.steps.length; k += 1) {
    const { stabilises, freezer } = option.steps[k]!;
    const { startSlot, endSlot } = ordered[k]!;
    if (stabilises !== null) return { momentSlot: stabilises === 'start' ? startSlot : endSlot, frozenSlots };
    if (freezer !== null && k + 1 < ordered.length) frozenSlots += Math.max(0, ordered[k + 1]!.startSlot - endSlot);
  }
  return null;
}

/** Slots of lateness; 0 when in time, `null` when never stabilised. */
export function latenessOf({ item, option, ordered }: ItemRoute): number | null {
  const stabilised = option === null ? null : stabilisedBy(option, ordered);
  return stabilised === null ? null : Math.max(0, stabilised.momentSlot - item.deadlineSlot - stabilised.frozenSlots);
}

/** How long a thing lies frozen after the `k`-th of its assignments: until the next step of its route, at the last to the horizon. */
export function stayAfter(problem: PlanProblem, ordered: readonly PlanAssignment[], k: number): Interval {
  return { from: ordered[k]!.endSlot, to: ordered[k + 1]?.startSlot ?? problem.horizonSlots };
}

function followed(item: PlanItem, ordered: readonly PlanAssignment[]): PlanOption | null {
  const index = ordered[0]!.option;
  const option = item.options[index];
  if (option === undefined || option.steps.length !== ordered.length) return null;
  for (let k = 0; k < ordered.length; k += 1) {
    const assignment = ordered[k]!;
    if (assignment.position !== k || assignment.option !== index || stepOf(item, assignment) === undefined) return null;
  }
  return option;
}

/** Most plans come in the order of their starts. */
function isOrdered(assignments: readonly PlanAssignment[]): boolean {
  for (let k = 1; k < assignments.length; k += 1) if (assignments[k - 1]!.position >= assignments[k]!.position) return false;
  return true;
}

function groupByItem(assignments: readonly PlanAssignment[]): Map<string, PlanAssignment[]> {
  const groups = new Map<string, PlanAssignment[]>();
  for (const assignment of assignments) {
    const group = groups.get(assignment.itemId);
    if (group === undefined) groups.set(assignment.itemId, [assignment]);
    else group.push(assignment);
  }
  return groups;
}
