/**
 * Checks a plan against the problem alone, slot by slot. Written apart from the planner and sharing no code with
 * it, so that a mistake in one shows in the other.
 */
import type { Plan, PlanAssignment, PlanItem, PlanOption, PlanProblem, PlanViolation } from './types.js';
import { resourceViolations } from './validate-resources.js';

/**
 * Everything that is wrong with a plan; empty when it may be issued. The problem must pass `checkProblem`.
 * Rules: unknown-item, item-twice, item-missing, option-not-followed, step-twice, step-duration, step-order,
 * release, horizon, late, weight, objective, and those of `resourceViolations`.
 */
export function validatePlan(problem: PlanProblem, plan: Plan): PlanViolation[] {
  const violations: PlanViolation[] = [];
  const byItem = groupByItem(plan.assignments);
  const items = new Map(problem.items.map((item) => [item.id, item]));
  for (const id of byItem.keys()) if (!items.has(id)) violations.push(violation('unknown-item', id, null, 'is planned but is not part of the problem'));
  violations.push(...listedViolations(items, byItem, plan));
  for (const item of problem.items) {
    const assignments = byItem.get(item.id);
    if (assignments !== undefined) violations.push(...itemViolations(problem, item, assignments));
  }
  violations.push(...resourceViolations(problem, plan));
  violations.push(...objectiveViolations(problem, plan, byItem));
  return violations;
}

function listedViolations(items: ReadonlyMap<string, PlanItem>, byItem: ReadonlyMap<string, PlanAssignment[]>, plan: Plan): PlanViolation[] {
  const violations: PlanViolation[] = [];
  const listed = new Set<string>();
  for (const { itemId, weight } of plan.unplanned) {
    const item = items.get(itemId);
    if (item === undefined) violations.push(violation('unknown-item', itemId, null, 'is listed as unplanned but is not part of the problem'));
    else if (item.weight !== weight) violations.push(violation('weight', itemId, null, `weighs ${item.weight}, not ${weight} as listed`));
    if (listed.has(itemId)) violations.push(violation('item-twice', itemId, null, 'is listed twice as unplanned'));
    if (byItem.has(itemId)) violations.push(violation('item-twice', itemId, null, 'is both planned and listed as unplanned'));
    listed.add(itemId);
  }
  for (const id of items.keys()) {
    if (!byItem.has(id) && !listed.has(id)) violations.push(violation('item-missing', id, null, 'is neither planned nor listed as unplanned'));
  }
  return violations;
}

function itemViolations(problem: PlanProblem, item: PlanItem, assignments: PlanAssignment[]): PlanViolation[] {
  const violations: PlanViolation[] = [];
  const ordered = [...assignments].sort((a, b) => a.position - b.position || a.startSlot - b.startSlot);
  const option = optionOf(item, ordered);
  if (option === null) violations.push(violation('option-not-followed', item.id, null, 'does not follow one of its care routes from the first step to the last'));
  let free = Math.max(item.releaseSlot, begunUntil(problem, item.id));
  ordered.forEach((assignment, k) => {
    const { startSlot, endSlot, position } = assignment;
    if (k > 0 && ordered[k - 1]!.position === position) violations.push(violation('step-twice', item.id, startSlot, `has step ${position} twice`));
    if (!Number.isInteger(startSlot) || !Number.isInteger(endSlot) || startSlot < 0 || endSlot > problem.horizonSlots || endSlot <= startSlot) {
      violations.push(violation('horizon', item.id, startSlot, `has step ${position} outside the horizon`));
    }
    if (startSlot < free) violations.push(violation(k === 0 ? 'release' : 'step-order', item.id, startSlot, `begins step ${position} at ${startSlot}, before it is free at ${free}`));
    const step = option?.steps[position];
    if (step !== undefined && endSlot - startSlot !== step.durationSlots) {
      violations.push(violation('step-duration', item.id, startSlot, `takes ${endSlot - startSlot} slots for step ${position} instead of ${step.durationSlots}`));
    }
    free = endSlot;
  });
  if (option !== null && !item.stabilised) {
    const moment = stabilisedAt(option, ordered);
    if (moment === null || moment > item.deadlineSlot) {
      violations.push(violation('late', item.id, moment, `is planned but not stabilised by its deadline at ${item.deadlineSlot}`));
    }
  }
  return violations;
}

/** End of what has already begun with the item and cannot be interrupted. */
function begunUntil(problem: PlanProblem, itemId: string): number {
  let until = 0;
  for (const use of problem.fixed) {
    const handled = use.stationId !== null || use.dryingPlaceId !== null || use.personIds.length > 0;
    if (use.itemId === itemId && handled) until = Math.max(until, use.interval.to);
  }
  return until;
}

/** The option that the assignments follow whole, if there is one. */
function optionOf(item: PlanItem, ordered: readonly PlanAssignment[]): PlanOption | null {
  const disposition = ordered[0]?.disposition;
  const option = item.options.find((candidate) => candidate.disposition === disposition);
  if (option === undefined || option.steps.length !== ordered.length) return null;
  const followed = ordered.every((assignment, k) =>
    assignment.position === k && assignment.disposition === disposition && assignment.step === option.steps[k]!.step);
  return followed ? option : null;
}

/** Moment of stabilisation in slots; `null` when the option has no stabilising step. */
function stabilisedAt(option: PlanOption, ordered: readonly PlanAssignment[]): number | null {
  for (let k = 0; k < option.steps.length; k += 1) {
    const stabilises = option.steps[k]!.stabilises;
    if (stabilises === 'start') return ordered[k]!.startSlot;
    if (stabilises === 'end') return ordered[k]!.endSlot;
  }
  return null;
}

function objectiveViolations(problem: PlanProblem, plan: Plan, byItem: ReadonlyMap<string, PlanAssignment[]>): PlanViolation[] {
  let lost = 0;
  let moments = 0;
  for (const item of problem.items) {
    if (item.stabilised) continue;
    const ordered = [...(byItem.get(item.id) ?? [])].sort((a, b) => a.position - b.position);
    const option = optionOf(item, ordered);
    const moment = option === null ? null : stabilisedAt(option, ordered);
    if (moment === null || moment > item.deadlineSlot) lost += item.weight;
    else moments += item.weight * moment;
  }
  if (plan.objective[0] === lost && plan.objective[1] === moments) return [];
  return [violation('objective', null, null, `is [${lost}, ${moments}] when recomputed, not [${plan.objective.join(', ')}]`)];
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

function violation(rule: string, itemId: string | null, slot: number | null, what: string): PlanViolation {
  const subject = itemId === null ? 'The objective' : `Item ${itemId}`;
  return { rule, itemId, resourceId: null, slot, text: `${subject} ${what}.` };
}
