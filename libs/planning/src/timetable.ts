/**
 * What is free when: dense slot arrays per resource, earliest fit and booking. Finding a place writes nothing;
 * a whole item is booked in one go once its last step has a place, so a failed attempt needs no undo.
 */
import type { CompiledStep } from './compile.js';
import type { CrewClass, PlaceCandidates } from './candidates.js';
import { CLOSED, type Resources } from './resources.js';

/** No start fits. */
export const NONE = -1;

/** One placed step with the resources it holds; -1 where it holds none of the kind. */
export interface PlacedStep {
  start: number;
  end: number;
  station: number;
  people: number[];
  place: number;
  area: number;
  load: number;
  freezer: number;
  volume: number;
}

/** Mutable free amounts of one plan under construction. */
export class Timetable {
  private readonly stationFree: Int32Array[];
  private readonly placeFree: Int32Array[];
  private readonly roomFree: Int32Array[];
  private readonly freezerFree: Int32Array[];
  /** Least free volume from a slot to the horizon: what an item frozen then may take. */
  private readonly freezerLeast: Int32Array[];
  private readonly personRun: Int32Array;
  private readonly personCount: number;
  private readonly horizon: number;
  /** Station or drying place of the latest successful `fit`. */
  found = NONE;

  constructor(private readonly resources: Resources) {
    this.horizon = resources.horizon;
    this.personCount = resources.people.length;
    this.stationFree = resources.stationFree.map((free) => free.slice());
    this.placeFree = resources.placeFree.map((free) => free.slice());
    this.roomFree = resources.roomFree.map((free) => free.slice());
    this.freezerFree = resources.freezerFree.map((free) => free.slice());
    this.freezerLeast = resources.freezerFree.map((free) => free.slice());
    this.personRun = resources.personRun.slice();
    for (let freezer = 0; freezer < this.freezerLeast.length; freezer += 1) this.refreshLeast(freezer);
  }

  /** Earliest start in `[earliest, last]` at which it is cool enough and everything the step needs is free, or `NONE`; sets `found`. */
  fit(step: CompiledStep, earliest: number, last: number): number {
    const from = Math.max(earliest, step.coolFrom);
    if (from > last) return NONE;
    if (step.places !== null) return this.fitDrying(step.places, step.area, step.load, from, step.duration, last);
    const cold = step.freezers === null ? from : this.fitFreezer(step, from, last);
    return cold > last ? NONE : this.fitHandsOn(step, cold, last);
  }

  /** Earliest start in `[from, last]` with a free station, whoever is there. */
  fitStations(step: CompiledStep, from: number, last: number): number {
    let best = NONE;
    for (const station of step.stations!.members) {
      const start = this.fitStation(station, from, step.duration, best === NONE ? last : best - 1);
      if (start !== NONE) best = start;
    }
    return best;
  }

  /** Earliest start in `[from, last]` with `count` people of the class free throughout. */
  fitCrew(crew: CrewClass, count: number, from: number, duration: number, last: number): number {
    const { members, until, nextOnShift } = crew;
    const run = this.personRun;
    if (members.length < count) return NONE;
    for (let start = nextOnShift[from]!; start <= last; start = nextOnShift[start + 1]!) {
      const row = start * this.personCount;
      let free = 0;
      for (let i = 0; i < members.length; i += 1) {
        if (run[row + members[i]!]! >= duration && start < until[i]! && (free += 1) === count) return start;
      }
    }
    return NONE;
  }

  /** Earliest start in `[from, last]` at one of the places; `area` or `load` 0 leaves that limit out. */
  fitDrying(places: PlaceCandidates, area: number, load: number, from: number, duration: number, last: number): number {
    let best = NONE;
    for (const place of places.members) {
      if (this.resources.places[place]!.areaDm2 < area) continue;
      const start = this.fitPlace(place, area, load, from, duration, best === NONE ? last : best - 1);
      if (start === NONE) continue;
      best = start;
      this.found = place;
      if (best === from) break;
    }
    return best;
  }

  /** Earliest start in `[from, last]` at which the room's air takes the load, wherever the item lies. */
  fitRoomAir(room: number, load: number, from: number, duration: number, last: number): number {
    const free = this.roomFree[room]!;
    let start = from;
    while (start <= last) {
      let slot = start + duration - 1;
      while (slot >= start && (load === 0 || free[slot]! >= load)) slot -= 1;
      if (slot < start) return start;
      start = slot + 1;
    }
    return NONE;
  }

  /** Earliest start in `[from, last]` after which some freezer has room from the end of the step to the horizon; else `last + 1`. */
  fitFreezer(step: CompiledStep, from: number, last: number): number {
    let earliest = last + 1;
    for (const freezer of step.freezers!.members) {
      const least = this.freezerLeast[freezer]!;
      // The least free volume up to the horizon never falls with the slot, so the walk down stops at the first slot too full.
      while (earliest > from && least[earliest + step.duration - 1]! >= step.volume) earliest -= 1;
    }
    return earliest;
  }

  /** First freezer in order of preference with room for the volume from `end` on. */
  freezerFor(step: CompiledStep, end: number): number {
    return step.freezers!.members.find((freezer) => this.freezerLeast[freezer]![end]! >= step.volume) ?? NONE;
  }

  /** The people who would do the step at `start`, in order of preference. */
  crewFor(step: CompiledStep, start: number): number[] {
    if (step.crewClass === null) return [];
    const row = start * this.personCount;
    const { members, until } = step.crewClass;
    return members.filter((person, i) => this.personRun[row + person]! >= step.duration && start < until[i]!).slice(0, step.crew);
  }

  /** Takes the resources of placed steps. */
  book(steps: readonly PlacedStep[]): void {
    for (const step of steps) {
      this.shift(step, -1);
      for (const person of step.people) this.occupy(person, step.start, step.end);
    }
  }

  /** Gives back what `book` took. */
  release(steps: readonly PlacedStep[]): void {
    for (const step of steps) {
      this.shift(step, 1);
      for (const person of step.people) this.vacate(person, step.start, step.end);
    }
  }

  private fitHandsOn(step: CompiledStep, from: number, last: number): number {
    let best = NONE;
    for (const station of step.stations!.members) {
      const limit = best === NONE ? last : best - 1;
      const start = this.fitStationAndCrew(station, step, from, limit);
      if (start === NONE) continue;
      best = start;
      this.found = station;
      if (best === from) break;
    }
    return best;
  }

  private fitStationAndCrew(station: number, step: CompiledStep, from: number, last: number): number {
    let start = this.fitStation(station, from, step.duration, last);
    while (start !== NONE && step.crewClass !== null) {
      const manned = this.fitCrew(step.crewClass, step.crew, start, step.duration, last);
      if (manned === start || manned === NONE) return manned;
      start = this.fitStation(station, manned, step.duration, last);
    }
    return start;
  }

  private fitStation(station: number, from: number, duration: number, last: number): number {
    const free = this.stationFree[station]!;
    const nextOpen = this.resources.stationNextOpen[station]!;
    let start = nextOpen[from]!;
    while (start <= last) {
      let slot = start + duration - 1;
      while (slot >= start && free[slot]! >= 1) slot -= 1;
      if (slot < start) return start;
      start = nextOpen[slot + 1]!;
    }
    return NONE;
  }

  /** Scans each window from its end and jumps past the last blocking slot; `known` keeps a slot from being read twice. */
  private fitPlace(place: number, area: number, load: number, from: number, duration: number, last: number): number {
    const free = this.placeFree[place]!;
    const air = this.roomFree[this.resources.placeRoom[place]!]!;
    const nextOpen = this.resources.placeNextOpen[place]!;
    let start = nextOpen[from]!;
    let known = start;
    while (start <= last) {
      const end = start + duration;
      let slot = end - 1;
      while (slot >= known && free[slot]! >= area && (load === 0 || air[slot]! >= load)) slot -= 1;
      if (slot < known) return start;
      start = nextOpen[slot + 1]!;
      known = Math.max(end, start);
    }
    return NONE;
  }

  private shift(step: PlacedStep, sign: 1 | -1): void {
    if (step.station !== NONE) add(this.stationFree[step.station]!, sign, step.start, step.end);
    if (step.place !== NONE) {
      add(this.placeFree[step.place]!, sign * step.area, step.start, step.end);
      add(this.roomFree[this.resources.placeRoom[step.place]!]!, sign * step.load, step.start, step.end);
    }
    if (step.freezer !== NONE) {
      add(this.freezerFree[step.freezer]!, sign * step.volume, step.end, this.horizon);
      this.refreshLeast(step.freezer);
    }
  }

  private occupy(person: number, start: number, end: number): void {
    const { personRun, personCount } = this;
    for (let slot = start; slot < end; slot += 1) personRun[slot * personCount + person] = 0;
    for (let slot = start - 1; slot >= 0 && personRun[slot * personCount + person]! > 0; slot -= 1) personRun[slot * personCount + person] = start - slot;
  }

  private vacate(person: number, start: number, end: number): void {
    const { personRun, personCount } = this;
    let run = end < this.horizon ? personRun[end * personCount + person]! : 0;
    for (let slot = end - 1; slot >= start; slot -= 1) personRun[slot * personCount + person] = run += 1;
    for (let slot = start - 1; slot >= 0 && personRun[slot * personCount + person]! > 0; slot -= 1) personRun[slot * personCount + person] = run += 1;
  }

  private refreshLeast(freezer: number): void {
    const free = this.freezerFree[freezer]!;
    const least = this.freezerLeast[freezer]!;
    let lowest = Number.POSITIVE_INFINITY;
    for (let slot = this.horizon - 1; slot >= 0; slot -= 1) {
      lowest = Math.min(lowest, free[slot]!);
      least[slot] = Math.max(lowest, CLOSED);
    }
  }
}

function add(free: Int32Array, amount: number, from: number, to: number): void {
  for (let slot = from; slot < to; slot += 1) free[slot] = free[slot]! + amount;
}
