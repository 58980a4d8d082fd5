/** What if there were more of something, or less: changes of a planning problem as data. Nothing here touches its input. */
import type { Restriction, Skill } from '#care';
import type { Interval, PlanProblem } from './types.js';

/**
 * One change. Slots are those of the problem, amounts in its units. `units`, `areaDm2`, `gPerSlot` and `count` are whole numbers;
 * where they may be negative there is less of it, never less than nothing.
 */
export type ProblemChange =
  /** More people of one kind, on shift in these slots: a tester, or volunteers from a moment on. */
  | { kind: 'people'; siteId: string; count: number; skills: Skill[]; restrictions: Restriction[]; shifts: Interval[]; fitUntilSlot?: number }
  /** Somebody goes home at a slot. */
  | { kind: 'person-leaves'; personId: string; fromSlot: number }
  /** A station takes so many more, or fewer, at a time. */
  | { kind: 'station-units'; stationId: string; units: number }
  /** A station is open in these slots too; whether somebody is there is another question. */
  | { kind: 'station-open'; stationId: string; open: Interval[] }
  /** A station is shut in these slots: it fails, or is given up. */
  | { kind: 'station-closed'; stationId: string; closed: Interval }
  /** Screens or lines more in a room, as one place that is open throughout; when negative the largest places of the room shrink. */
  | { kind: 'drying-area'; roomId: string; areaDm2: number }
  /** The room's air takes so much more water, or less, in these slots: a dehumidifier comes or fails. */
  | { kind: 'room-air'; roomId: string; gPerSlot: number; during: Interval }
  /** One more freezer on a site from a slot on. */
  | { kind: 'freezer'; siteId: string; volumeCl: number; fromSlot: number }
  /** A freezer takes nothing new from a slot on; what lies in it already is not moved by this. */
  | { kind: 'freezer-closed'; freezerId: string; fromSlot: number }
  /** A courier or specialist takes so many more pieces, or fewer, at a time. */
  | { kind: 'service-units'; serviceId: string; units: number };

/** Changes that are made together: another bath saves nothing without the hands for it. */
export type WhatIf = readonly ProblemChange[];

/** Whether a what-if only gives or only takes; `mixed` when it does both. One that changes nothing gives. */
export type Direction = 'gives' | 'takes' | 'mixed';

/**
 * The problem with the changes made, without the plan in force: what follows is a comparison, nobody works to it. The input stays as
 * it is; what no change is about is shared with it. New resources are named `what-if-1`, `what-if-2` and on, apart from all names of the problem.
 * @throws RangeError when a change names nothing of the problem or an amount is not a whole number
 */
export function changedProblem(problem: PlanProblem, changes: WhatIf): PlanProblem {
  const { previous: _, ...rest } = problem;
  const name = namer(problem);
  return changes.reduce<PlanProblem>((changed, change) => applied(changed, change, name), rest);
}

/** Whether the changes only give, only take, or both. */
export function directionOf(changes: WhatIf): Direction {
  const ways = new Set(changes.map((change) => (takes(change) ? 'takes' : 'gives')));
  if (ways.size > 1) return 'mixed';
  return ways.has('takes') ? 'takes' : 'gives';
}

function takes(change: ProblemChange): boolean {
  switch (change.kind) {
    case 'person-leaves':
    case 'station-closed':
    case 'freezer-closed':
      return true;
    case 'station-units':
    case 'service-units':
      return change.units < 0;
    case 'drying-area':
      return change.areaDm2 < 0;
    case 'room-air':
      return change.gPerSlot < 0;
    default:
      return false;
  }
}

function applied(problem: PlanProblem, change: ProblemChange, name: () => string): PlanProblem {
  const throughout = [{ from: 0, to: problem.horizonSlots }];
  switch (change.kind) {
    case 'people': {
      const { siteId, skills, restrictions, shifts, fitUntilSlot = 0 } = change;
      const more = Array.from({ length: whole(change.count, 0) }, () => ({ id: name(), siteId, skills, restrictions, shifts, fitUntilSlot }));
      return { ...problem, people: [...problem.people, ...more] };
    }
    case 'person-leaves':
      return { ...problem, people: one(problem.people, change.personId, (person) => ({ ...person, shifts: without(person.shifts, { from: change.fromSlot, to: Infinity }) })) };
    case 'station-units':
      return { ...problem, stations: one(problem.stations, change.stationId, (station) => ({ ...station, capacity: Math.max(0, station.capacity + whole(change.units)) })) };
    case 'station-open':
      return { ...problem, stations: one(problem.stations, change.stationId, (station) => ({ ...station, open: joined([...station.open, ...change.open]) })) };
    case 'station-closed':
      return { ...problem, stations: one(problem.stations, change.stationId, (station) => ({ ...station, open: without(station.open, change.closed) })) };
    case 'drying-area':
      return { ...problem, places: withArea(problem, change.roomId, whole(change.areaDm2), () => ({ id: name(), roomId: change.roomId, areaDm2: change.areaDm2, open: throughout })) };
    case 'room-air':
      return { ...problem, rooms: one(problem.rooms, change.roomId, (room) => ({ ...room, removalGPerSlot: withRemoval(room.removalGPerSlot, whole(change.gPerSlot), change.during) })) };
    case 'freezer':
      if (whole(change.volumeCl, 0) === 0) return problem;
      return { ...problem, freezers: [...problem.freezers, { id: name(), siteId: change.siteId, volumeCl: change.volumeCl, open: without(throughout, { from: 0, to: change.fromSlot }) }] };
    case 'freezer-closed':
      return { ...problem, freezers: one(problem.freezers, change.freezerId, (freezer) => ({ ...freezer, open: without(freezer.open, { from: change.fromSlot, to: Infinity }) })) };
    case 'service-units':
      return { ...problem, services: one(problem.services ?? [], change.serviceId, (service) => ({ ...service, capacity: Math.max(0, service.capacity + whole(change.units)) })) };
  }
}

function withArea(problem: PlanProblem, roomId: string, areaDm2: number, place: () => PlanProblem['places'][number]): PlanProblem['places'] {
  if (!problem.rooms.some(({ id }) => id === roomId)) throw new RangeError(`No drying room ${roomId} in this problem.`);
  if (areaDm2 > 0) return [...problem.places, place()];
  let left = -areaDm2;
  const shrunk = new Map<string, number>();
  const largestFirst = problem.places.filter((one) => one.roomId === roomId).sort((a, b) => b.areaDm2 - a.areaDm2 || (a.id < b.id ? -1 : 1));
  for (const { id, areaDm2: area } of largestFirst) {
    const lost = Math.min(left, area);
    left -= lost;
    if (lost > 0) shrunk.set(id, area - lost);
  }
  return problem.places.map((one) => (shrunk.has(one.id) ? { ...one, areaDm2: shrunk.get(one.id)! } : one));
}

/** A slot without a limit takes nothing, so there the change is all there is. */
function withRemoval(limits: readonly (Interval & { limit: number })[], gPerSlot: number, during: Interval): (Interval & { limit: number })[] {
  const cuts = [...new Set([...limits.flatMap(({ from, to }) => [from, to]), during.from, during.to])].sort((a, b) => a - b);
  return cuts.slice(1).flatMap((to, i) => {
    const from = cuts[i]!;
    const before = limits.find((limit) => limit.from <= from && limit.to >= to);
    const isDuring = during.from <= from && during.to >= to;
    if (before === undefined && !isDuring) return [];
    return [{ from, to, limit: Math.max(0, (before?.limit ?? 0) + (isDuring ? gPerSlot : 0)) }];
  });
}

function one<T extends { id: string }>(list: readonly T[], id: string, change: (entry: T) => T): T[] {
  if (!list.some((entry) => entry.id === id)) throw new RangeError(`Nothing called ${id} in this problem.`);
  return list.map((entry) => (entry.id === id ? change(entry) : entry));
}

/** What is left of intervals outside of one. */
function without(intervals: readonly Interval[], gone: Interval): Interval[] {
  return intervals.flatMap(({ from, to }) => [{ from, to: Math.min(to, gone.from) }, { from: Math.max(from, gone.to), to }]).filter(({ from, to }) => to > from);
}

/** The same slots as intervals that do not touch, in order. */
function joined(intervals: readonly Interval[]): Interval[] {
  const found: Interval[] = [];
  for (const { from, to } of [...intervals].sort((a, b) => a.from - b.from)) {
    const last = found.at(-1);
    if (last !== undefined && from <= last.to) last.to = Math.max(last.to, to);
    else found.push({ from, to });
  }
  return found;
}

function whole(value: number, least = -Infinity): number {
  if (!Number.isSafeInteger(value) || value < least) throw new RangeError(`A change needs a whole number${least === 0 ? ' of at least 0' : ''}, not ${String(value)}.`);
  return value;
}

/** Names that nothing of the problem has. */
function namer({ stations, people, rooms, places, freezers }: PlanProblem): () => string {
  const taken = new Set([stations, people, rooms, places, freezers].flatMap((list) => list.map(({ id }) => id)));
  let number = 0;
  return () => {
    do number += 1; while (taken.has(`what-if-${number}`));
    return `what-if-${number}`;
  };
}
