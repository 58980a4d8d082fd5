/** A plan read back into placements and a timetable. */
import type { Compiled, CompiledItem } from './compile.js';
import { momentOf, type Placement } from './place-item.js';
import type { Plan, PlanAssignment } from './types.js';
import { NONE, type PlacedStep, Timetable } from './timetable.js';

/** Placements by item index and the timetable with all of them booked. */
export interface LoadedPlan { placed: (Placement | null)[]; timetable: Timetable }

/** Reads a plan that `validatePlan` finds sound. O(assignments). */
export function loadPlan(compiled: Compiled, plan: Plan): LoadedPlan {
  const { resources, items } = compiled;
  const byItem = new Map<string, PlanAssignment[]>();
  for (const assignment of plan.assignments) {
    const list = byItem.get(assignment.itemId) ?? [];
    list.push(assignment);
    byItem.set(assignment.itemId, list);
  }
  const timetable = new Timetable(resources);
  const placed = items.map((item) => {
    const assignments = byItem.get(item.id);
    if (assignments === undefined) return null;
    const placement = toPlacement(compiled, item, assignments.sort((a, b) => a.position - b.position));
    timetable.book(placement.steps);
    return placement;
  });
  return { placed, timetable };
}

function toPlacement({ resources }: Compiled, item: CompiledItem, assignments: readonly PlanAssignment[]): Placement {
  const { indexOf } = resources;
  const option = item.options.findIndex(({ disposition }) => disposition === assignments[0]!.disposition);
  const route = item.options[option]!;
  const steps = route.steps.map((step, position): PlacedStep => {
    const { startSlot, endSlot, stationId, personIds, dryingPlaceId, freezerId } = assignments[position]!;
    return {
      start: startSlot, end: endSlot,
      station: stationId === null ? NONE : indexOf.station.get(stationId)!,
      people: personIds.map((id) => indexOf.person.get(id)!),
      place: dryingPlaceId === null ? NONE : indexOf.place.get(dryingPlaceId)!,
      area: step.area, load: step.load,
      freezer: freezerId === null ? NONE : indexOf.freezer.get(freezerId)!,
      volume: step.volume,
    };
  });
  return { item: item.index, option, steps, moment: momentOf(route, steps) };
}
