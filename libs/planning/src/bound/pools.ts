/**
 * What the bound takes for resources: capacity per slot, pooled so that whatever a real plan uses fits into the pools. Stations
 * that do the same steps in the same zone of a site are one pool; people are counted per skill and declared restriction;
 * drying places per room; freezers per site. Fixed uses are taken off. More of anything never makes a pool smaller.
 */
import type { Restriction, Skill } from '#care';
import { byId } from '../calendar.js';
import type { FixedUse, Interval, PlanPerson, PlanProblem, PlanStation, PlanStep } from '../types.js';

/** Units in each slot; the name stays the same when there is more or less of it. */
export interface Pool { name: string; capacity: Float64Array }

/** People of a site with a skill (all when null) who declared none of the restrictions. */
export interface PeopleGroup { siteId: string; skill: Skill | null; barred: readonly Restriction[] }

interface Member { id: string; run: Int32Array }
interface StationPool { index: number; station: PlanStation; members: Member[] }
interface PlacePool { area: number; air: number; members: { areaDm2: number; run: Int32Array }[] }

/** All pools of a problem. */
export class Pools {
  readonly list: Pool[] = [];
  readonly slots: number;
  private readonly stationPools = new Map<string, StationPool>();
  private readonly placePools = new Map<string, PlacePool>();
  private readonly freezerPools = new Map<string, { index: number; run: Int32Array }>();
  private readonly servicePools = new Map<string, { index: number; run: Int32Array }>();
  private readonly peopleGroups = new Map<string, number>();
  private readonly free = new Map<string, { person: PlanPerson; run: Int32Array }>();
  private readonly memo = new Map<string, Uint8Array>();

  private readonly problem: PlanProblem;

  constructor(given: PlanProblem) {
    // In an order of its own, so that the order of the input makes no difference.
    const problem = { ...given, stations: sorted(given.stations), people: sorted(given.people), rooms: sorted(given.rooms), places: sorted(given.places), freezers: sorted(given.freezers), services: sorted(given.services ?? []) };
    this.problem = problem;
    this.slots = problem.horizonSlots;
    this.addStations();
    this.addPlaces();
    this.addFreezers();
    for (const { id, capacity, open } of problem.services) {
      const free = masked(open, this.slots, capacity);
      this.subtract(free, ({ services = [] }) => services.reduce((sum, { serviceId, units }) => (serviceId === id ? sum + units : sum), 0));
      this.servicePools.set(id, { index: this.add(`service ${id}`, free), run: runsOf(free) });
    }
    for (const person of problem.people) {
      const free = masked(person.shifts, this.slots, 1);
      this.subtract(free, ({ personIds }) => (personIds.includes(person.id) ? 1 : 0));
      this.free.set(person.id, { person, run: runsOf(free) });
    }
  }

  /** Pools of stations that do a step in its zone of a site. */
  stationsFor(step: PlanStep, siteId: string): StationPool[] {
    return [...this.stationPools.values()].filter(({ station }) => station.siteId === siteId && station.zone === step.zone && (station.steps as string[]).includes(step.step));
  }

  /** 1 where a step of that length may begin at some station of the pool, looking at this step alone. */
  stationStarts(pool: StationPool, durationSlots: number, barred: readonly string[]): Uint8Array {
    return this.remember(`station ${pool.index} ${durationSlots} ${barred.join('|')}`, () => {
      const starts = new Uint8Array(this.slots + 1);
      for (const { id, run } of pool.members) if (!barred.includes(id)) markRuns(starts, run, durationSlots);
      return starts;
    });
  }

  /** 1 where enough people are free for a step of that length, looking at this step alone. */
  crewStarts(group: PeopleGroup, crew: number, durationSlots: number, needsFit: boolean): Uint8Array {
    return this.remember(`crew ${groupName(group)} ${crew} ${durationSlots} ${needsFit}`, () => {
      const count = new Int32Array(this.slots + 1);
      for (const { person, run } of this.free.values()) {
        if (!belongs(person, group)) continue;
        const until = needsFit ? Math.min(this.slots, person.fitUntilSlot ?? 0) : this.slots;
        for (let slot = 0; slot < until; slot += 1) if (run[slot]! >= durationSlots) count[slot] = count[slot]! + 1;
      }
      return Uint8Array.from(count, (people) => (people >= crew ? 1 : 0));
    });
  }

  /** Pool of the people of a group, made when first asked for. */
  people(group: PeopleGroup): number {
    const name = groupName(group);
    const known = this.peopleGroups.get(name);
    if (known !== undefined) return known;
    const capacity = new Float64Array(this.slots);
    for (const { person, run } of this.free.values()) {
      if (belongs(person, group)) run.forEach((left, slot) => { if (left > 0) capacity[slot] = capacity[slot]! + 1; });
    }
    const index = this.add(name, capacity);
    this.peopleGroups.set(name, index);
    return index;
  }

  /** Rooms of a site in which something of that area may dry. */
  roomsFor(siteId: string): (PlacePool & { roomId: string })[] {
    return this.problem.rooms.filter((room) => room.siteId === siteId && this.placePools.has(room.id)).map(({ id }) => ({ roomId: id, ...this.placePools.get(id)! }));
  }

  /** 1 where something of that area may begin to dry in the room, as far as places go. */
  dryingStarts(room: PlacePool & { roomId: string }, areaDm2: number, durationSlots: number): Uint8Array {
    const wide = room.members.filter((member) => member.areaDm2 >= areaDm2);
    return this.remember(`room ${room.roomId} ${wide.length} ${durationSlots}`, () => {
      const starts = new Uint8Array(this.slots + 1);
      for (const { run } of wide) markRuns(starts, run, durationSlots);
      return starts;
    });
  }

  /** Freezers of a site together, and for how long on end one of them is there from each slot on. */
  freezer(siteId: string): { index: number; run: Int32Array } | undefined {
    return this.freezerPools.get(siteId);
  }

  service(id: string): { index: number; run: Int32Array } | undefined {
    return this.servicePools.get(id);
  }

  private remember(key: string, make: () => Uint8Array): Uint8Array {
    let known = this.memo.get(key);
    if (known === undefined) this.memo.set(key, (known = make()));
    return known;
  }

  private add(name: string, capacity: Float64Array): number {
    this.list.push({ name, capacity });
    return this.list.length - 1;
  }

  private addStations(): void {
    for (const station of this.problem.stations) {
      const name = `stations ${station.siteId} ${station.zone} ${[...station.steps].sort().join('+')}`;
      const free = masked(station.open, this.slots, station.capacity);
      this.subtract(free, ({ stationId }) => (stationId === station.id ? 1 : 0));
      let pool = this.stationPools.get(name);
      if (pool === undefined) this.stationPools.set(name, (pool = { index: this.add(name, new Float64Array(this.slots)), station, members: [] }));
      addTo(this.list[pool.index]!.capacity, free);
      pool.members.push({ id: station.id, run: runsOf(free) });
    }
  }

  private addPlaces(): void {
    for (const room of this.problem.rooms) {
      const air = new Float64Array(this.slots);
      for (const { from, to, limit } of room.removalGPerSlot) air.fill(limit, Math.min(Math.max(0, from), this.slots), Math.min(Math.max(0, to), this.slots));
      const inRoom = new Set(this.problem.places.filter(({ roomId }) => roomId === room.id).map(({ id }) => id));
      this.subtract(air, (use, slot) => (use.dryingPlaceId !== null && inRoom.has(use.dryingPlaceId) ? loadAfter(use, slot - use.interval.from) : 0));
      this.placePools.set(room.id, { area: this.add(`area ${room.id}`, new Float64Array(this.slots)), air: this.add(`air ${room.id}`, air), members: [] });
    }
    for (const place of this.problem.places) {
      const pool = this.placePools.get(place.roomId)!;
      const free = masked(place.open, this.slots, place.areaDm2);
      this.subtract(free, (use) => (use.dryingPlaceId === place.id ? use.areaDm2 : 0));
      addTo(this.list[pool.area]!.capacity, free);
      pool.members.push({ areaDm2: place.areaDm2, run: runsOf(free) });
    }
  }

  private addFreezers(): void {
    for (const freezer of this.problem.freezers) {
      const free = masked(freezer.open, this.slots, freezer.volumeCl);
      this.subtract(free, (use) => (use.freezerId === freezer.id ? use.volumeCl : 0));
      let pool = this.freezerPools.get(freezer.siteId);
      if (pool === undefined) this.freezerPools.set(freezer.siteId, (pool = { index: this.add(`freezers ${freezer.siteId}`, new Float64Array(this.slots)), run: new Int32Array(this.slots) }));
      addTo(this.list[pool.index]!.capacity, free);
      const { run } = pool;
      runsOf(free).forEach((left, slot) => { run[slot] = Math.max(run[slot]!, left); });
    }
  }

  /** Takes fixed uses off; an overdrawn slot has nothing left. */
  private subtract(free: Float64Array, amount: (use: FixedUse, slot: number) => number): void {
    for (const use of this.problem.fixed) {
      const to = Math.min(this.slots, use.interval.to);
      if (amount(use, use.interval.from) === 0) continue;
      for (let slot = Math.max(0, use.interval.from); slot < to; slot += 1) free[slot] = free[slot]! - amount(use, slot);
    }
    free.forEach((left, slot) => { if (left < 0) free[slot] = 0; });
  }
}

function sorted<T extends { id: string }>(list: readonly T[]): T[] {
  return [...list].sort(byId);
}

/** Water that a fixed use gives off some slots after its start. */
function loadAfter({ loadGPerSlot, falling }: FixedUse, slots: number): number {
  return (falling ?? []).reduce((load, entry) => (entry.fromSlot <= slots ? entry.loadGPerSlot : load), loadGPerSlot);
}

function belongs(person: PlanPerson, { siteId, skill, barred }: PeopleGroup): boolean {
  return person.siteId === siteId && (skill === null || person.skills.includes(skill)) && !barred.some((restriction) => person.restrictions.includes(restriction));
}

/** Name of a group of people; the same for the same members' conditions, whoever is there. */
export function groupName({ siteId, skill, barred }: PeopleGroup): string {
  return `people ${siteId} ${skill ?? 'all'}${[...barred].sort().map((restriction) => ` -${restriction}`).join('')}`;
}

function masked(intervals: readonly Interval[], slots: number, amount: number): Float64Array {
  const free = new Float64Array(slots);
  for (const { from, to } of intervals) free.fill(amount, Math.min(Math.max(0, from), slots), Math.min(Math.max(0, to), slots));
  return free;
}

function runsOf(free: Float64Array): Int32Array {
  const run = new Int32Array(free.length);
  let left = 0;
  for (let slot = free.length - 1; slot >= 0; slot -= 1) run[slot] = left = free[slot]! > 0 ? left + 1 : 0;
  return run;
}

function markRuns(starts: Uint8Array, run: Int32Array, durationSlots: number): void {
  run.forEach((left, slot) => { if (left >= durationSlots) starts[slot] = 1; });
}

function addTo(sum: Float64Array, more: Float64Array): void {
  more.forEach((amount, slot) => { sum[slot] = sum[slot]! + amount; });
}
