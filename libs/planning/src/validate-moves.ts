/** How calm a plan is against the one that people are working to; shares no code with the planner. */
import type { Plan, PlanItem, PlanProblem } from './types.js';
import { sameStep, staysPut } from './validate-objective.js';
import { type ItemRoute, latenessOf, routesOf } from './validate-route.js';

/** What became of the steps that the previous plan had for the next eight hours. */
export interface MovedSteps {
  /** Steps that were to begin in the next eight hours, have not begun and are still asked for by a route of their item. */
  totalSteps: number;
  /** Of them those no longer planned, or at another station or drying place, or more than a quarter of an hour away. */
  movedSteps: number;
  /** Mean distance between old and new start, over those of them that are still planned; 0 when there are none. */
  meanShiftSlots: number;
  /** Urgent items of the previous plan that this one does not stabilise in time, in id order. */
  withdrawnItemIds: string[];
}

const HOURS = 8;

/** All zero and empty when there was no plan before. O(previous steps + assignments). */
export function movedSteps(problem: PlanProblem, plan: Plan): MovedSteps {
  const items = new Map(problem.items.map((item) => [item.id, item]));
  const routes = routesOf(items, plan);
  const begun = new Set(problem.fixed.map(({ itemId, step }) => `${itemId} ${step}`));
  const shifts: number[] = [];
  let totalSteps = 0;
  let moved = 0;
  for (const was of problem.previous?.steps ?? []) {
    const item = items.get(was.itemId);
    if (item === undefined || was.startSlot < 0 || was.startSlot * problem.slotMinutes >= HOURS * 60) continue;
    if (begun.has(`${was.itemId} ${was.step}`) || !asksFor(item, was)) continue;
    totalSteps += 1;
    const route = routes.get(was.itemId);
    if (!staysPut(problem, was, route)) moved += 1;
    const distances = (route?.ordered ?? []).filter((now) => sameStep(was, now)).map(({ startSlot }) => Math.abs(startSlot - was.startSlot));
    if (distances.length > 0) shifts.push(Math.min(...distances));
  }
  return { totalSteps, movedSteps: moved, meanShiftSlots: shifts.length === 0 ? 0 : shifts.reduce((a, b) => a + b, 0) / shifts.length, withdrawnItemIds: withdrawn(problem, items, routes) };
}

function asksFor(item: PlanItem, was: { disposition: string; step: string }): boolean {
  return item.options.some(({ disposition, steps }) => disposition === was.disposition && steps.some(({ step }) => step === was.step));
}

function withdrawn(problem: PlanProblem, items: ReadonlyMap<string, PlanItem>, routes: ReadonlyMap<string, ItemRoute>): string[] {
  const promised = new Set((problem.previous?.steps ?? []).map(({ itemId }) => itemId));
  return [...promised].filter((id) => {
    const item = items.get(id);
    const route = routes.get(id);
    return item !== undefined && !item.stabilised && (route === undefined || latenessOf(route) !== 0);
  }).sort();
}
