/**
 * The resources of a problem as rows of what is free in each slot, before anything is planned. A capacity that changes (an
 * absent person, a failed dehumidifier, a use that has begun) is simply less free, so the planner knows one kind of limit only.
 */
import type { FallingLoad, FixedUse, PlanDryingPlace, PlanFreezer, PlanPerson, PlanProblem, PlanService, PlanStation } from './types.js';
import { byId, clip, openMask } from './calendar.js';
import { closenessOfHosts, CompanyRows } from './company-rows.js';
import { CLOSED, type FallingNeed, FreeSlots } from './free-slots.js';

/**
 * People who are alike in all that the planner asks: on one site, with the same skills, restrictions, fit and shifts. How many
 * of them are free is counted; who does what is settled when the plan stands, which always works out for people who are alike.
 */
export interface PersonPool {
  siteId: string;
  /** One of them, for what they share. */
  like: PlanPerson;
  /** Indices of the people. */
  members: number[];
}

/** First row of each kind of resource. */
export interface RowBases { station: number; place: number; room: number; freezer: number; pool: number; service: number }

/** Index tables and free amounts; all lists are in id order, so the order of the input never matters. */
export interface Resources {
  horizon: number;
  stations: PlanStation[];
  people: PlanPerson[];
  pools: PersonPool[];
  /** Pool of each person. */
  poolOf: number[];
  places: PlanDryingPlace[];
  freezers: PlanFreezer[];
  services: PlanService[];
  roomIds: string[];
  roomSite: string[];
  /** Room index of each drying place. */
  placeRoom: number[];
  free: FreeSlots;
  row: RowBases;
  companies: CompanyRows;
  indexOf: { station: Map<string, number>; person: Map<string, number>; place: Map<string, number>; freezer: Map<string, number>; service: Map<string, number> };
}

/** Tabulates the resources and takes away what fixed uses already hold. O(resources x slots + fixed x their slots). */
export function tabulate(problem: PlanProblem): Resources {
  const horizon = problem.horizonSlots;
  const [stations, people, rooms] = [sorted(problem.stations), sorted(problem.people), sorted(problem.rooms)];
  const [places, freezers, services] = [sorted(problem.places), sorted(problem.freezers), sorted(problem.services ?? [])];
  const pools = poolsOf(people, singled(problem), horizon);
  const rows = [
    ...stations.map(({ open, capacity }) => levels(openMask(open, horizon), capacity)),
    ...places.map(({ open, areaDm2 }) => levels(openMask(open, horizon), areaDm2)),
    ...rooms.map(({ removalGPerSlot }) => {
      const free = new Int32Array(horizon);
      for (const { from, to, limit } of removalGPerSlot) free.fill(limit, clip(from, horizon), clip(to, horizon));
      return free;
    }),
    ...freezers.map(({ open, volumeCl }) => levels(openMask(open, horizon), volumeCl)),
    ...pools.map(({ like, members }) => levels(openMask(like.shifts, horizon), members.length)),
    ...services.map(({ open, capacity }) => levels(openMask(open, horizon), capacity)),
  ];
  const row = basesOf([stations.length, places.length, rooms.length, freezers.length, pools.length]);
  const companies = new CompanyRows(problem.companies ?? [], closenessOfHosts({ places, freezers }), rows.length);
  for (let i = 0; i < companies.count; i += 1) rows.push(new Int32Array(horizon).fill(1));
  const roomIndex = indexById(rooms);
  const poolOf: number[] = [];
  pools.forEach(({ members }, pool) => members.forEach((person) => { poolOf[person] = pool; }));
  const resources: Resources = {
    horizon, stations, people, pools, poolOf, places, freezers, services,
    roomIds: rooms.map((room) => room.id),
    roomSite: rooms.map((room) => room.siteId),
    placeRoom: places.map((place) => roomIndex.get(place.roomId)!),
    free: FreeSlots.of(rows, horizon),
    row, companies,
    indexOf: { station: indexById(stations), person: indexById(people), place: indexById(places), freezer: indexById(freezers), service: indexById(services) },
  };
  for (const use of problem.fixed) takeFixed(resources, use);
  return resources;
}

/** A falling load in the form that rows of slots take; null for one that does not fall. */
export function fallingNeed(loadGPerSlot: number, falling: readonly FallingLoad[] = []): FallingNeed | null {
  if (falling.length === 0) return null;
  const steps = falling.filter(({ fromSlot }) => fromSlot > 0);
  const first = falling.find(({ fromSlot }) => fromSlot === 0)?.loadGPerSlot ?? loadGPerSlot;
  return { from: [0, ...steps.map(({ fromSlot }) => fromSlot)], amounts: [first, ...steps.map((step) => step.loadGPerSlot)] };
}

/** People whom something names in person: they are counted apart, as no other can stand in for them. */
function singled(problem: PlanProblem): Set<string> {
  const named = problem.fixed.flatMap(({ personIds }) => personIds);
  const pinned = problem.items.flatMap(({ pinned: assignments = [] }) => assignments.flatMap(({ personIds }) => personIds));
  return new Set([...named, ...pinned]);
}

function poolsOf(people: readonly PlanPerson[], apart: ReadonlySet<string>, horizon: number): PersonPool[] {
  const pools = new Map<string, PersonPool>();
  people.forEach((person, index) => {
    const { id, siteId, skills, restrictions, fitUntilSlot = 0 } = person;
    const shifts = spansOf(openMask(person.shifts, horizon));
    const alike = apart.has(id) ? id : JSON.stringify([siteId, [...new Set(skills)].sort(), [...new Set(restrictions)].sort(), Math.min(fitUntilSlot, horizon), shifts]);
    const pool = pools.get(alike);
    if (pool === undefined) pools.set(alike, { siteId, like: person, members: [index] });
    else pool.members.push(index);
  });
  return [...pools.values()];
}

/** Edges of the open stretches, so that shifts written in other ways but of the same slots are alike. */
function spansOf(mask: Uint8Array): number[] {
  const edges: number[] = [];
  for (let slot = 0; slot < mask.length; slot += 1) if (mask[slot] !== (slot === 0 ? 0 : mask[slot - 1])) edges.push(slot);
  return edges;
}

/** Number of a drying place or freezer among the hosts of companies, by its row. */
export function hostOf({ row, places }: Pick<Resources, 'row' | 'places'>, placeOrFreezer: number): number {
  return placeOrFreezer < row.freezer ? placeOrFreezer - row.place : places.length + placeOrFreezer - row.freezer;
}

function takeFixed(resources: Resources, use: FixedUse): void {
  const { free, row, horizon, indexOf, placeRoom, poolOf, companies } = resources;
  const from = clip(use.interval.from, horizon);
  const to = clip(use.interval.to, horizon);
  if (to <= from) return;
  // Somebody who is busy twice at once, or off shift, is as absent as one who is busy once.
  for (const id of use.personIds) {
    const pool = row.pool + poolOf[indexOf.person.get(id)!]!;
    for (let slot = from; slot < to; slot += 1) if (free.at(pool, slot) > 0) free.add(pool, slot, slot + 1, -1);
  }
  if (use.stationId !== null) free.add(row.station + indexOf.station.get(use.stationId)!, from, to, -1);
  const keepAway = (host: number): void => { for (const other of companies.takenAt(host, companies.of(use.company))) free.add(other, from, to, -1); };
  if (use.dryingPlaceId !== null) {
    const place = indexOf.place.get(use.dryingPlaceId)!;
    keepAway(place);
    free.add(row.place + place, from, to, -use.areaDm2);
    takeAir(free, row.room + placeRoom[place]!, use, horizon);
  }
  for (const { serviceId, units } of use.services ?? []) free.add(row.service + indexOf.service.get(serviceId)!, from, to, -units);
  if (use.freezerId === null) return;
  const freezer = indexOf.freezer.get(use.freezerId)!;
  keepAway(resources.places.length + freezer);
  free.add(row.freezer + freezer, from, to, -use.volumeCl);
}

function takeAir(free: FreeSlots, room: number, { interval, loadGPerSlot, falling }: FixedUse, horizon: number): void {
  const need = fallingNeed(loadGPerSlot, falling) ?? { from: [0], amounts: [loadGPerSlot] };
  need.amounts.forEach((amount, i) => {
    const from = clip(interval.from + need.from[i]!, horizon);
    const to = clip(Math.min(interval.to, interval.from + (need.from[i + 1] ?? interval.to - interval.from)), horizon);
    if (to > from && amount !== 0) free.add(room, from, to, -amount);
  });
}

function levels(mask: Uint8Array, capacity: number): Int32Array {
  return Int32Array.from(mask, (open) => (open === 1 ? capacity : CLOSED));
}

function basesOf([stations = 0, places = 0, rooms = 0, freezers = 0, pools = 0]: readonly number[]): RowBases {
  const place = stations;
  const room = place + places;
  const freezer = room + rooms;
  const pool = freezer + freezers;
  return { station: 0, place, room, freezer, pool, service: pool + pools };
}

function sorted<T extends { id: string }>(list: readonly T[]): T[] {
  return [...list].sort(byId);
}

function indexById(list: readonly { id: string }[]): Map<string, number> {
  return new Map(list.map((entry, index) => [entry.id, index]));
}
