/** The objective of a plan, reckoned again from the problem and the assignments; shares no code with the planner. */
import type { Objective, Plan, PlanAssignment, PlanProblem, PlanStep, PlanViolation, PreviousStep } from './types.js';
import { type ItemRoute, stabilisedBy } from './validate-route.js';

/** Rule: objective. */
export function objectiveViolations(problem: PlanProblem, plan: Plan, routes: ReadonlyMap<string, ItemRoute>): PlanViolation[] {
  const reckoned = reckonedObjective(problem, routes);
  if (plan.objective.length === reckoned.length && reckoned.every((part, i) => part === plan.objective[i])) return [];
  return [{ rule: 'objective', itemId: null, resourceId: null, slot: null, text: `The objective is [${reckoned.join(', ')}] when recomputed, not [${plan.objective.join(', ')}].` }];
}

/** All four parts. A route that is not followed whole counts as not planned. */
export function reckonedObjective(problem: PlanProblem, routes: ReadonlyMap<string, ItemRoute>): Objective {
  const capSlots = problem.tardinessCapSlots ?? problem.horizonSlots;
  let lateWeight = 0;
  let tardiness = 0;
  let completion = 0;
  for (const { id, weight, stabilised, deadlineSlot } of problem.items) {
    if (stabilised) continue;
    const route = routes.get(id);
    const found = route === undefined || route.option === null ? null : stabilisedBy(route.option, route.ordered);
    const lateSlots = found === null ? capSlots : Math.max(0, found.momentSlot - deadlineSlot - found.frozenSlots);
    if (found === null || lateSlots > 0) lateWeight += weight;
    tardiness += weight * Math.min(capSlots, lateSlots);
    if (found !== null && route !== undefined) completion += weight * (found.momentSlot + (route.ordered[0]?.option ?? 0) * problem.horizonSlots);
  }
  return [lateWeight, tardiness, instability(problem, routes), completion];
}

/** Whether a step of the previous plan is still where and when it was, within a quarter of an hour. */
export function staysPut(problem: PlanProblem, was: PreviousStep, route: ItemRoute | undefined): boolean {
  const toleranceSlots = Math.floor(15 / problem.slotMinutes);
  return route !== undefined && route.ordered.some((now) =>
    sameStep(was, now) && sameService(was, route.option?.steps[now.position]) && now.stationId === was.stationId && now.dryingPlaceId === was.dryingPlaceId && Math.abs(now.startSlot - was.startSlot) <= toleranceSlots);
}

/** A route may have a step more than once; any of the same kind will do. */
export function sameStep(was: PreviousStep, now: PlanAssignment): boolean {
  return now.step === was.step && now.disposition === was.disposition;
}

/** Another courier or specialist is another promise to somebody outside. */
function sameService({ serviceId }: PreviousStep, step: PlanStep | undefined): boolean {
  return serviceId === undefined || (step?.services?.[0]?.serviceId ?? null) === serviceId;
}

/**
 * What moves soon weighs more: 1024 now, half of it with every five and a half hours, in whole numbers. That is the decay
 * with a time constant of eight hours that the guidance on re-planning proposes (8 h * ln 2 = 333 min); our own calibration.
 */
function instability(problem: PlanProblem, routes: ReadonlyMap<string, ItemRoute>): number {
  if (problem.previous === undefined) return 0;
  const halfLifeSlots = Math.max(1, Math.round(330 / problem.slotMinutes));
  const items = new Set(problem.items.map(({ id }) => id));
  let sum = 0;
  for (const was of problem.previous.steps) {
    if (was.startSlot < 0 || !items.has(was.itemId) || staysPut(problem, was, routes.get(was.itemId))) continue;
    const halvings = Math.floor(was.startSlot / halfLifeSlots);
    if (halvings < 31) sum += 1024 >> halvings;
  }
  return sum;
}
