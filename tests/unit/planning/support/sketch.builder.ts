/** A way to do an item that names what suits, whether it is free or not: for pins and for plans of yesterday. */
import type { PlanAssignment, PlanItem, PlanProblem } from '#planning';

/** Which route, from which slot on, with how many slots between two steps, and which of the resources that suit. */
export interface Sketch { option: number; begin: number; gap: number; pick: number }

/** The item needs at least one route. What nothing suits is left empty. */
export function sketchOf(problem: PlanProblem, item: PlanItem, { option: drawn, begin, gap, pick }: Sketch): PlanAssignment[] {
  const option = drawn % item.options.length;
  const { disposition, steps } = item.options[option]!;
  const roomSite = new Map(problem.rooms.map(({ id, siteId }) => [id, siteId]));
  const one = (list: readonly { id: string }[]): string | null => (list.length === 0 ? null : list[pick % list.length]!.id);
  let free = begin;
  return steps.map((step, position) => {
    const siteId = step.siteId ?? item.siteId;
    const suited = problem.stations.filter((station) => station.siteId === siteId && station.zone === step.zone && station.steps.some((kind) => kind === step.step) && step.barredStationIds?.includes(station.id) !== true);
    const people = problem.people.filter((person) => person.siteId === siteId && (step.skill === null || person.skills.includes(step.skill)) && !step.barredRestrictions.some((restriction) => person.restrictions.includes(restriction)));
    const startSlot = free;
    const endSlot = startSlot + step.durationSlots;
    free = endSlot + (step.freezer === null ? gap : Math.max(gap, step.freezer.leastSlots ?? 1));
    return {
      itemId: item.id, option, position, step: step.step, disposition, batchId: null, startSlot, endSlot,
      stationId: step.drying !== null || step.noStation === true ? null : one(suited),
      personIds: people.slice(0, step.crew).map(({ id }) => id),
      dryingPlaceId: step.drying === null ? null : one(problem.places.filter(({ roomId }) => roomSite.get(roomId) === siteId)),
      freezerId: step.freezer === null ? null : one(problem.freezers.filter((freezer) => freezer.siteId === siteId)),
    };
  });
}
