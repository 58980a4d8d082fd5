/** Placements in index form as assignments. */
import { Hands } from './assign-people.js';
import type { Batch } from './batches.js';
import type { Compiled } from './compile.js';
import type { PackedPlan } from './packed-plan.js';
import { NONE, type PlacedStep } from './timetable.js';
import type { PlanAssignment } from './types.js';

/** By start, then item id, then position. Equal lists of people are one list. */
export function toAssignments({ resources, items }: Compiled, plan: PackedPlan): PlanAssignment[] {
  const { stations, places, freezers, row, horizon } = resources;
  const hands = new Hands(resources);
  const batches = new BatchNames();
  // Of its full length at once: a list that grows leaves its smaller selves behind.
  const assignments: PlanAssignment[] = [];
  assignments.length = plan.countSteps();
  let written = 0;
  // The items are in id order.
  plan.eachByStart(horizon, (index, at, position, placed) => {
    const item = items[index]!;
    const option = item.options[at]!;
    assignments[written] = {
      itemId: item.id,
      option: option.index,
      position,
      step: placed.step.kind,
      disposition: option.disposition,
      batchId: batches.nameOf(placed),
      stationId: placed.station === NONE ? null : stations[placed.station - row.station]!.id,
      personIds: hands.take(placed, item.previous),
      dryingPlaceId: placed.place === NONE ? null : places[placed.place - row.place]!.id,
      freezerId: placed.freezer === NONE ? null : freezers[placed.freezer - row.freezer]!.id,
      startSlot: placed.start,
      endSlot: placed.end,
    };
    written += 1;
  });
  return assignments;
}

/** Names for the batches that more than one thing is in, in the order in which they begin. */
class BatchNames {
  private readonly names = new Map<Batch, string>();

  nameOf({ batch }: PlacedStep): string | null {
    if (batch === null || batch.members.length < 2) return null;
    let name = this.names.get(batch);
    if (name === undefined) this.names.set(batch, (name = `batch-${this.names.size + 1}`));
    return name;
  }
}
