/**
 * Checks a plan against the problem alone. Written apart from the planner and sharing no code with it, so that a
 * mistake in one shows in the other.
 */
import type { Plan, PlanAssignment, PlanItem, PlanProblem, PlanViolation } from './types.js';
import { objectiveViolations } from './validate-objective.js';
import { resourceViolations } from './validate-resources.js';
import { type ItemRoute, routesOf, stabilisedBy } from './validate-route.js';

/**
 * Everything that is wrong with a plan; empty when it may be issued. The problem must pass `checkProblem`.
 * Rules: unknown-item, item-twice, item-missing, option-not-followed, step-twice, step-duration, step-order,
 * release, not-after, horizon, late, pin, weight, objective, and those of `resourceViolations`.
 * O(assignments + resources), and once over its own stretch of slots for each resource.
 */
export function validatePlan(problem: PlanProblem, plan: Plan): PlanViolation[] {
  const violations: PlanViolation[] = [];
  const items = new Map(problem.items.map((item) => [item.id, item]));
  const routes = routesOf(items, plan);
  const freeFrom = begunUntil(problem);
  const unknown = new Set(plan.assignments.filter(({ itemId }) => !items.has(itemId)).map(({ itemId }) => itemId));
  for (const id of unknown) violations.push(violation('unknown-item', id, null, 'is planned but is not part of the problem'));
  listedViolations(violations, items, routes, plan);
  for (const item of problem.items) {
    const route = routes.get(item.id);
    if (route === undefined) continue;
    stepViolations(violations, problem, item, route, Math.max(item.releaseSlot, freeFrom.get(item.id) ?? 0));
    promiseViolations(violations, problem, item, route);
  }
  for (const one of resourceViolations(problem, routes)) violations.push(one);
  for (const one of objectiveViolations(problem, plan, routes)) violations.push(one);
  return violations;
}

function listedViolations(violations: PlanViolation[], items: ReadonlyMap<string, PlanItem>, routes: ReadonlyMap<string, ItemRoute>, plan: Plan): void {
  const listed = new Set<string>();
  for (const { itemId, weight, blockedBy } of plan.unplanned) {
    const item = items.get(itemId);
    if (item === undefined) violations.push(violation('unknown-item', itemId, null, 'is listed as unplanned but is not part of the problem'));
    else if (item.weight !== weight) violations.push(violation('weight', itemId, null, `weighs ${item.weight}, not ${weight} as listed`));
    if (item?.pinned !== undefined && blockedBy.kind !== 'pin') violations.push(violation('pin', itemId, null, 'is listed with another reason than that it cannot be done as it was asked for'));
    if (listed.has(itemId)) violations.push(violation('item-twice', itemId, null, 'is listed twice as unplanned'));
    if (routes.has(itemId)) violations.push(violation('item-twice', itemId, null, 'is both planned and listed as unplanned'));
    listed.add(itemId);
  }
  for (const id of items.keys()) {
    if (!routes.has(id) && !listed.has(id)) violations.push(violation('item-missing', id, null, 'is neither planned nor listed as unplanned'));
  }
}

/** The steps one by one: the whole route, in order, in time and as long as they take. */
function stepViolations(violations: PlanViolation[], problem: PlanProblem, item: PlanItem, { ordered, option }: ItemRoute, freeFrom: number): void {
  if (option === null) violations.push(violation('option-not-followed', item.id, null, 'does not follow one of its care routes from the first step to the last'));
  let free = freeFrom;
  for (let k = 0; k < ordered.length; k += 1) {
    const { startSlot, endSlot, position } = ordered[k]!;
    const step = option?.steps[position];
    const slots = endSlot - startSlot;
    if (k > 0 && ordered[k - 1]!.position === position) violations.push(violation('step-twice', item.id, startSlot, `has step ${position} twice`));
    if (!Number.isInteger(startSlot) || !Number.isInteger(endSlot) || startSlot < 0 || endSlot > problem.horizonSlots || slots < 0 || (slots === 0 && step?.durationSlots !== 0)) {
      violations.push(violation('horizon', item.id, startSlot, `has step ${position} outside the horizon`));
    }
    if (startSlot < free) violations.push(violation(k === 0 ? 'release' : 'step-order', item.id, startSlot, `begins step ${position} at ${startSlot}, before it is free at ${free}`));
    if (step !== undefined && slots !== step.durationSlots) {
      violations.push(violation('step-duration', item.id, startSlot, `takes ${slots} slots for step ${position} instead of ${step.durationSlots}`));
    }
    if (step?.notAfterSlot !== undefined && startSlot > step.notAfterSlot) {
      violations.push(violation('not-after', item.id, startSlot, `begins step ${position} at ${startSlot}, which may not begin after ${step.notAfterSlot}`));
    }
    free = endSlot;
  }
}

/** What was promised for the item as a whole: that it is in time, and done as a coordinator asked. */
function promiseViolations(violations: PlanViolation[], problem: PlanProblem, item: PlanItem, { ordered, option }: ItemRoute): void {
  if (option !== null && !item.stabilised) {
    const stabilised = stabilisedBy(option, ordered);
    if (stabilised === null) violations.push(violation('late', item.id, null, 'is urgent but planned on a care route that never stabilises it'));
    else if (problem.late !== 'plan' && stabilised.momentSlot > item.deadlineSlot + stabilised.frozenSlots) {
      violations.push(violation('late', item.id, stabilised.momentSlot, `is planned but not stabilised by its deadline at ${item.deadlineSlot + stabilised.frozenSlots}`));
    }
  }
  if (item.pinned !== undefined && !asPinned(item.pinned, ordered)) violations.push(violation('pin', item.id, ordered[0]!.startSlot, 'is not planned as it was asked for'));
}

/** The name of a batch may be another, as names only tell batches of one plan apart. */
function asPinned(pinned: readonly PlanAssignment[], ordered: readonly PlanAssignment[]): boolean {
  return pinned.length === ordered.length && ordered.every((now) => {
    const asked = pinned.find(({ position }) => position === now.position);
    return asked !== undefined && asked.option === now.option && asked.startSlot === now.startSlot && asked.endSlot === now.endSlot &&
      asked.stationId === now.stationId && asked.dryingPlaceId === now.dryingPlaceId && asked.freezerId === now.freezerId &&
      asked.personIds.length === now.personIds.length && now.personIds.every((id) => asked.personIds.includes(id));
  });
}

/** Per item the end of what has already begun with it and cannot be interrupted; lying in a freezer can. */
function begunUntil(problem: PlanProblem): Map<string, number> {
  const until = new Map<string, number>();
  for (const { itemId, stationId, dryingPlaceId, personIds, interval } of problem.fixed) {
    if (stationId !== null || dryingPlaceId !== null || personIds.length > 0) until.set(itemId, Math.max(until.get(itemId) ?? 0, interval.to));
  }
  return until;
}

function violation(rule: string, itemId: string, slot: number | null, what: string): PlanViolation {
  return { rule, itemId, resourceId: null, slot, text: `Item ${itemId} ${what}.` };
}
