/** The plan that people are working to, as the planner is to keep to it. Pure. */
import type { PlanItem, PreviousPlan, PreviousStep } from '#planning';
import type { PlanInput } from '../ports/plan-input.js';
import type { SlotGrid } from './slots.js';

/**
 * What the published plan holds and nobody has begun, in the slots of the new problem: steps that are still ahead of an item on
 * the way that was planned. Null before the first plan.
 */
export function previousPlan(published: PlanInput['published'], items: readonly PlanItem[], grid: SlotGrid, holdMinutes: number): PreviousPlan | null {
  if (published === undefined) return null;
  const ahead = new Set(items.flatMap(({ id, options }) => options.flatMap(({ disposition, steps }) => steps.map(({ step }) => keyOf({ itemId: id, disposition, step })))));
  const steps = published
    .filter((planned) => ahead.has(keyOf(planned)))
    .map(({ itemId, disposition, step, stationId, dryingPlaceId, personIds, freezerId, serviceId, startsAtMs, endsAtMs }): PreviousStep => ({
      itemId, disposition, step, stationId, dryingPlaceId, personIds: [...personIds].sort(), freezerId, ...(serviceId !== undefined && serviceId !== null && { serviceId }), startSlot: grid.floor(startsAtMs), endSlot: grid.ceil(endsAtMs),
    }))
    .sort((a, b) => (a.itemId < b.itemId ? -1 : a.itemId > b.itemId ? 1 : a.startSlot - b.startSlot || a.endSlot - b.endSlot || byRest(a, b)));
  return { steps, holdBeforeSlot: Math.floor(holdMinutes / grid.slotMinutes) };
}

function keyOf({ itemId, disposition, step }: Pick<PreviousStep, 'itemId' | 'disposition' | 'step'>): string {
  return `${itemId} ${disposition} ${step}`;
}

/** Rows come in any order, and the same rows must make the same problem: a total order, whatever stands in them. */
function byRest(a: PreviousStep, b: PreviousStep): number {
  const [one, other] = [a, b].map(({ step, disposition, stationId, dryingPlaceId, freezerId, serviceId, personIds }) => [step, disposition, stationId ?? '', dryingPlaceId ?? '', freezerId ?? '', serviceId ?? '', ...personIds].join(' ')) as [string, string];
  return one < other ? -1 : one > other ? 1 : 0;
}
