/** One bath, one person, things that are rinsed in two slots and safe then. */
import type { PlanBatch, PlanItem, PlanProblem } from '#planning';

export function oneBath(items: PlanItem[]): PlanProblem {
  const open = [{ from: 0, to: 40 }];
  return {
    originMs: 0, slotMinutes: 15, horizonSlots: 40, late: 'plan', rooms: [], places: [], freezers: [], fixed: [], items,
    stations: [{ id: 'bath', siteId: 'hall', zone: 'dirty', steps: ['rinse', 'blot'], capacity: 1, open }],
    people: [{ id: 'p1', siteId: 'hall', skills: ['rinsing'], restrictions: [], shifts: open }],
  };
}

export function rinsed(id: string, { deadlineSlot, weight }: Pick<PlanItem, 'deadlineSlot' | 'weight'>, batch?: PlanBatch): PlanItem {
  const rinse = { step: 'rinse' as const, zone: 'dirty' as const, durationSlots: 2, crew: 1, skill: 'rinsing' as const, barredRestrictions: [], drying: null, freezer: null, stabilises: 'end' as const };
  return { id, siteId: 'hall', releaseSlot: 0, deadlineSlot, weight, stabilised: false, options: [{ disposition: 'treat', steps: [{ ...rinse, ...(batch && { batch }) }] }] };
}
