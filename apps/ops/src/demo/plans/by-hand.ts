import type { PlanProblem, ProblemChange } from '#planning';

const NEW = 'really-added';

/**
 * The problem with one thing more really put into it: a second way to the same end as `changedProblem` of the planning library, which shares no code
 * with it, so that one can be held against the other. For what a coordinator is offered by `suggestChanges`.
 * @throws Error for any other change
 */
export function addByHand(problem: PlanProblem, change: ProblemChange): PlanProblem {
  const more = structuredClone(problem);
  delete more.previous;
  const { horizonSlots } = more;
  switch (change.kind) {
    case 'people':
      for (let i = 1; i <= change.count; i += 1) more.people.push({ id: `${NEW}-${i}`, siteId: change.siteId, skills: change.skills, restrictions: change.restrictions, shifts: change.shifts, fitUntilSlot: change.fitUntilSlot ?? 0 });
      return more;
    case 'station-units':
      named(more.stations, change.stationId).capacity += change.units;
      return more;
    case 'drying-area':
      more.places.push({ id: NEW, roomId: change.roomId, areaDm2: change.areaDm2, open: [{ from: 0, to: horizonSlots }] });
      return more;
    case 'freezer':
      more.freezers.push({ id: NEW, siteId: change.siteId, volumeCl: change.volumeCl, open: [{ from: change.fromSlot, to: horizonSlots }] });
      return more;
    case 'room-air': {
      const room = named(more.rooms, change.roomId);
      const bySlot = Array.from({ length: horizonSlots }, (_, slot) =>
        (room.removalGPerSlot.find(({ from, to }) => slot >= from && slot < to)?.limit ?? 0) + (slot >= change.during.from && slot < change.during.to ? change.gPerSlot : 0));
      room.removalGPerSlot = bySlot.map((limit, slot) => ({ from: slot, to: slot + 1, limit }));
      return more;
    }
    default:
      throw new Error(`Nobody is offered a change of ${change.kind}.`);
  }
}

function named<T extends { id: string }>(list: readonly T[], id: string): T {
  const found = list.find((entry) => entry.id === id);
  if (found === undefined) throw new Error(`Nothing is called ${id}.`);
  return found;
}
