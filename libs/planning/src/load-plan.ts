/** A plan read back into placements and a timetable. */
import type { Batch } from './batches.js';
import type { Compiled, CompiledItem } from './compile.js';
import { placementOf, type Placement } from './place-item.js';
import type { Plan, PlanAssignment } from './types.js';
import { NONE, type PlacedStep, Timetable } from './timetable.js';

/** Placements by item index and the timetable with all of them booked. */
export interface LoadedPlan { placed: (Placement | null)[]; timetable: Timetable }

/** Reads a plan that `validatePlan` finds sound. O(assignments). */
export function loadPlan(compiled: Compiled, plan: Plan): LoadedPlan {
  const byItem = new Map<string, PlanAssignment[]>();
  for (const assignment of plan.assignments) {
    const list = byItem.get(assignment.itemId) ?? [];
    list.push(assignment);
    byItem.set(assignment.itemId, list);
  }
  const timetable = new Timetable(compiled.resources);
  const batches = new Map<string, Batch>();
  const placed = compiled.items.map((item) => {
    const assignments = byItem.get(item.id);
    if (assignments === undefined) return null;
    const placement = toPlacement(compiled, timetable, batches, item, assignments.sort((a, b) => a.position - b.position));
    timetable.book(placement.steps);
    return placement;
  });
  return { placed, timetable };
}

function toPlacement({ resources }: Compiled, timetable: Timetable, batches: Map<string, Batch>, item: CompiledItem, assignments: readonly PlanAssignment[]): Placement {
  const { indexOf, row, poolOf, horizon } = resources;
  const at = item.options.findIndex(({ index }) => index === assignments[0]!.option);
  const route = item.options[at]!;
  const steps = route.steps.map((step, position): PlacedStep => {
    const { startSlot, endSlot, stationId, personIds, dryingPlaceId, freezerId, batchId } = assignments[position]!;
    const station = stationId === null ? NONE : row.station + indexOf.station.get(stationId)!;
    const crew = personIds.map((id) => row.pool + poolOf[indexOf.person.get(id)!]!);
    const shared = batchId === null ? undefined : batches.get(batchId);
    const batch = shared ?? timetable.newBatch(step, startSlot, station, crew);
    if (batchId !== null && batch !== null) batches.set(batchId, batch);
    return {
      step, start: startSlot, end: endSlot, station, crew: batch?.crew ?? crew,
      place: dryingPlaceId === null ? NONE : row.place + indexOf.place.get(dryingPlaceId)!,
      freezer: freezerId === null ? NONE : row.freezer + indexOf.freezer.get(freezerId)!,
      stayTo: freezerId === null ? endSlot : (assignments[position + 1]?.startSlot ?? horizon),
      batch,
    };
  });
  return placementOf(item, at, steps);
}
