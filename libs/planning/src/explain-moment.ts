/** When an item of a plan is stabilised, read from the problem and the plan alone. */
import type { PlanAssignment, PlanItem } from './types.js';

export interface Stabilisation {
  /** Start or end of its first stabilising step, as marked. */
  moment: number;
  /** Slots lain frozen before that step; the deadline moves by them. */
  frozenSlots: number;
}

/** Null where the planned steps stabilise nothing. */
export function stabilisationOf(item: PlanItem, planned: readonly PlanAssignment[]): Stabilisation | null {
  const option = planned[0] === undefined ? undefined : item.options[planned[0].option];
  const at = option?.steps.findIndex(({ stabilises }) => stabilises !== null) ?? -1;
  const stabilising = planned.find(({ position }) => position === at);
  if (option === undefined || stabilising === undefined) return null;
  const moment = option.steps[at]!.stabilises === 'start' ? stabilising.startSlot : stabilising.endSlot;
  const frozenSlots = option.steps.slice(0, at).reduce((sum, { freezer }, position) => (freezer === null ? sum : sum + frozenFrom(planned, position)), 0);
  return { moment, frozenSlots };
}

/** From the end of freezing to the start of the next step. */
function frozenFrom(planned: readonly PlanAssignment[], position: number): number {
  const from = planned.find((assignment) => assignment.position === position);
  const to = planned.find((assignment) => assignment.position === position + 1);
  return from === undefined || to === undefined ? 0 : to.startSlot - from.endSlot;
}

/** The planned steps of each item, in the order of the plan. */
export function stepsByItem(assignments: readonly PlanAssignment[]): Map<string, PlanAssignment[]> {
  const steps = new Map<string, PlanAssignment[]>();
  for (const assignment of assignments) {
    const known = steps.get(assignment.itemId);
    if (known === undefined) steps.set(assignment.itemId, [assignment]);
    else known.push(assignment);
  }
  return steps;
}
