/**
 * The resources of a problem as dense tables of what is free in each slot, before anything is planned.
 * A capacity that changes (an absent person, a failed dehumidifier, a use that has begun) is simply less free,
 * so the planner knows one kind of limit only.
 */
import type { FixedUse, PlanDryingPlace, PlanFreezer, PlanPerson, PlanProblem, PlanStation } from './types.js';
import { byId, clip, nextOpenTable, openMask, runTable } from './calendar.js';

/** Free amount of a closed slot: so far below zero that no booking or undo can bring it near a capacity. */
export const CLOSED = -(2 ** 30);

/** Index tables and free amounts; all arrays are in id order, so the order of the input never matters. */
export interface Resources {
  horizon: number;
  stations: PlanStation[];
  people: PlanPerson[];
  places: PlanDryingPlace[];
  freezers: PlanFreezer[];
  roomIds: string[];
  roomSite: string[];
  /** Room index of each drying place. */
  placeRoom: number[];
  stationFree: Int32Array[];
  stationNextOpen: Int32Array[];
  placeFree: Int32Array[];
  placeNextOpen: Int32Array[];
  /** Grams per slot the room's air can still take. */
  roomFree: Int32Array[];
  freezerFree: Int32Array[];
  /** Slots each person stays free from a slot on: `run[slot * people + person]`. */
  personRun: Int32Array;
  personOnShift: Uint8Array[];
  indexOf: { station: Map<string, number>; person: Map<string, number>; place: Map<string, number>; freezer: Map<string, number> };
}

/** Tabulates the resources and takes away what fixed uses already hold. O(resources x slots + fixed x their slots). */
export function tabulate(problem: PlanProblem): Resources {
  const horizon = problem.horizonSlots;
  const stations = [...problem.stations].sort(byId);
  const people = [...problem.people].sort(byId);
  const rooms = [...problem.rooms].sort(byId);
  const places = [...problem.places].sort(byId);
  const freezers = [...problem.freezers].sort(byId);
  const roomIndex = indexById(rooms);
  const indexOf = { station: indexById(stations), person: indexById(people), place: indexById(places), freezer: indexById(freezers) };
  const masks = stations.map((station) => openMask(station.open, horizon));
  const placeMasks = places.map((place) => openMask(place.open, horizon));
  const shifts = people.map((person) => openMask(person.shifts, horizon));
  const resources: Resources = {
    horizon, stations, people, places, freezers, indexOf,
    roomIds: rooms.map((room) => room.id),
    roomSite: rooms.map((room) => room.siteId),
    placeRoom: places.map((place) => roomIndex.get(place.roomId)!),
    stationFree: stations.map((station, i) => levels(masks[i]!, station.capacity)),
    stationNextOpen: masks.map(nextOpenTable),
    placeFree: places.map((place, i) => levels(placeMasks[i]!, place.areaDm2)),
    placeNextOpen: placeMasks.map(nextOpenTable),
    roomFree: rooms.map((room) => {
      const free = new Int32Array(horizon);
      for (const { from, to, limit } of room.removalGPerSlot) free.fill(limit, clip(from, horizon), clip(to, horizon));
      return free;
    }),
    freezerFree: freezers.map((freezer) => levels(openMask(freezer.open, horizon), freezer.volumeCl)),
    personRun: new Int32Array(0),
    personOnShift: shifts,
  };
  resources.personRun = takeFixed(resources, problem.fixed);
  return resources;
}

/** Subtracts the fixed uses and returns the free runs of the people. */
function takeFixed(resources: Resources, fixed: readonly FixedUse[]): Int32Array {
  const { horizon, indexOf, people } = resources;
  const present = resources.personOnShift.map((shift) => shift.slice());
  for (const use of fixed) {
    const from = clip(use.interval.from, horizon);
    const to = clip(use.interval.to, horizon);
    for (const id of use.personIds) present[indexOf.person.get(id)!]!.fill(0, from, to);
    if (use.stationId !== null) take(resources.stationFree[indexOf.station.get(use.stationId)!]!, 1, from, to);
    if (use.dryingPlaceId !== null) {
      const place = indexOf.place.get(use.dryingPlaceId)!;
      take(resources.placeFree[place]!, use.areaDm2, from, to);
      take(resources.roomFree[resources.placeRoom[place]!]!, use.loadGPerSlot, from, to);
    }
    if (use.freezerId !== null) take(resources.freezerFree[indexOf.freezer.get(use.freezerId)!]!, use.volumeCl, from, to);
  }
  const run = new Int32Array(horizon * people.length);
  present.forEach((mask, person) => runTable(mask).forEach((left, slot) => { run[slot * people.length + person] = left; }));
  return run;
}

function take(free: Int32Array, amount: number, from: number, to: number): void {
  for (let slot = from; slot < to; slot += 1) free[slot] = free[slot]! - amount;
}

function levels(mask: Uint8Array, capacity: number): Int32Array {
  return Int32Array.from(mask, (open) => (open === 1 ? capacity : CLOSED));
}

function indexById(list: readonly { id: string }[]): Map<string, number> {
  return new Map(list.map((entry, index) => [entry.id, index]));
}
