/**
 * What is free when: earliest fit and booking. Finding a place writes nothing; a whole item is booked in one go once its last
 * step has a place, so a failed attempt needs no undo.
 */
import type { CompiledStep } from './compile.js';
import { BatchBook, type Batch } from './batches.js';
import type { CrewClass } from './candidates.js';
import { NONE } from './free-slots.js';
import { HostOpenings } from './host-openings.js';

export { NONE } from './free-slots.js';

/** One placed step with the rows of free slots it holds; `NONE` where it holds none of the kind. */
export interface PlacedStep {
  step: CompiledStep;
  start: number;
  end: number;
  station: number;
  /** Pool of each of the crew. */
  crew: readonly number[];
  place: number;
  freezer: number;
  /** First slot after the stay in the freezer that follows the step; `end` without one. */
  stayTo: number;
  batch: Batch | null;
}

/** The one way to make a placed step: objects of one shape are read several times as fast as those of several. */
export function placedStep(step: CompiledStep, start: number, station: number, crew: readonly number[], place: number, freezer: number, stayTo: number, batch: Batch | null): PlacedStep {
  return { step, start, end: start + step.duration, station, crew, place, freezer, stayTo, batch };
}

/** Mutable free amounts of one plan under construction. */
export class Timetable extends HostOpenings {
  private readonly batches = new BatchBook();
  /** The batch that the latest successful `fit` would join; null when it is done alone. */
  joined: Batch | null = null;

  /** Earliest start in `[earliest, last]` at which everything the step needs is free, or `NONE`; sets `found` and `joined`. */
  fit(step: CompiledStep, earliest: number, last: number): number {
    const latest = Math.min(last, step.notAfter);
    this.joined = null;
    let from = Math.max(earliest, step.coolFrom);
    while (from <= latest) {
      const start = this.fitCore(step, from, latest);
      if (start === NONE || this.joined !== null) return start;
      const served = step.services === null ? start : this.fitServices(step, start, latest);
      if (served === NONE || served === start) return served;
      from = served;
    }
    return NONE;
  }

  /** Until when, up to `most`, what a placed step has frozen could lie on. */
  couldStayTo({ freezer, stayTo, step }: PlacedStep, most: number): number {
    return most <= stayTo ? most : this.coldUntil(freezer, step, stayTo, most);
  }

  /** Latest start in `[from, last]` at which everything the step needs is free and it is done alone, or `NONE`; sets `found`. */
  fitLatest(step: CompiledStep, from: number, last: number): number {
    for (let start = last; start >= from; start -= 1) {
      start = this.latestAtStation(step, start);
      if (start >= from && this.fit(step, start, start) === start && this.joined === null) return start;
    }
    return NONE;
  }

  /** The latest start up to `last` at which some station could be free: earlier than `last` where all are taken or closed then. */
  private latestAtStation({ stations, duration }: CompiledStep, last: number): number {
    if (stations === null || duration === 0) return last;
    let latest = NONE;
    for (const station of stations.rows) {
      const short = this.free.firstShort(station, last, last + duration, 1);
      if (short === last + duration) return last;
      latest = Math.max(latest, short - duration);
    }
    return latest;
  }

  /** Lets what a booked step has frozen lie until `to`, if there is room; says whether there is. */
  extendStay(placed: PlacedStep, to: number): boolean {
    if (to <= placed.stayTo) return true;
    if (this.coldUntil(placed.freezer, placed.step, placed.stayTo, to) !== to) return false;
    this.free.add(placed.freezer, placed.stayTo, to, -placed.step.volume);
    this.keepAway(placed.freezer, placed.step.company, placed.stayTo, to, -1);
    placed.stayTo = to;
    return true;
  }

  /** Takes back everything that was booked. */
  reset(): void {
    this.free.become(this.resources.free);
    this.batches.clear();
  }

  /** Pools of the people who would do the step at `start`, in order of preference. */
  crewFor(step: CompiledStep, start: number): readonly number[] {
    const { crewClass, crew, duration } = step;
    if (crewClass === null || crew === 0) return NOBODY;
    if (crewClass.rows.length === 1) return alike(crewClass.rows[0]!, crew);
    if (crew === 1) return this.oneFor(crewClass, start, duration);
    const pools: number[] = [];
    for (let i = 0; i < crewClass.rows.length && pools.length < crew; i += 1) {
      if (start >= crewClass.until[i]!) continue;
      const there = Math.min(crew - pools.length, this.free.leastIn(crewClass.rows[i]!, start, start + duration));
      for (let k = 0; k < there; k += 1) pools.push(crewClass.rows[i]!);
    }
    return pools;
  }

  /** The first pool of which somebody is free. */
  private oneFor({ rows, until }: CrewClass, start: number, duration: number): readonly number[] {
    for (let i = 0; i < rows.length; i += 1) {
      if (start < until[i]! && this.free.leastIn(rows[i]!, start, start + duration) > 0) return alike(rows[i]!, 1);
    }
    return NOBODY;
  }

  /** A batch of its own for a step that others may join; null for one that is always done alone. */
  newBatch(step: CompiledStep, start: number, station: number, crew: readonly number[]): Batch | null {
    return step.batch === null ? null : { key: step.batch.key, start, duration: step.duration, station, crew, units: 0, members: [] };
  }

  /** Takes the resources of placed steps. */
  book(steps: readonly PlacedStep[]): void {
    for (const step of steps) this.shift(step, -1);
  }

  bookStep(placed: PlacedStep): void {
    this.shift(placed, -1);
  }

  releaseStep(placed: PlacedStep): void {
    this.shift(placed, 1);
  }

  /** Gives back what `book` took. */
  release(steps: readonly PlacedStep[]): void {
    for (const step of steps) this.shift(step, 1);
  }

  /** Whether everything that a placed step holds is free, batches aside. */
  isFree(placed: PlacedStep): boolean {
    const { free, resources: { row, placeRoom } } = this;
    const { step, start, end, station, crew, place, freezer, stayTo } = placed;
    const has = (resource: number, from: number, to: number, amount: number): boolean => free.lastShort(resource, from, to, amount) === NONE;
    const counts = new Map<number, number>();
    for (const pool of crew) counts.set(pool, (counts.get(pool) ?? 0) + 1);
    return (
      (station === NONE || has(station, start, end, 1)) &&
      [...counts].every(([pool, count]) => has(pool, start, end, count)) &&
      (step.services ?? []).every((service) => has(service.row, start, end, service.units)) &&
      (freezer === NONE || this.coldUntil(freezer, step, end, stayTo) === stayTo) &&
      (place === NONE || (has(place, start, end, step.area) && this.isInCompany(place, step, start) && this.fitRoomAir(placeRoom[place - row.place]!, step.need, start, step.duration, start) === start))
    );
  }

  /** An open batch that the step may join at exactly this start and station. */
  batchAt(step: CompiledStep, start: number, station: number): Batch | null {
    return step.batch === null ? null : this.batches.at(step.batch, step.duration, start, station);
  }

  private fitCore(step: CompiledStep, from: number, last: number): number {
    if (step.places !== null) return this.fitDrying(step.places, step, from, step.duration, last);
    if (step.freezers === null) return this.fitHandsOn(step, from, last);
    let start = from;
    while (start <= last) {
      const cold = this.fitFreezer(step, start, last);
      if (cold > last) return NONE;
      start = this.fitHandsOn(step, cold, last);
      if (start === NONE || step.staysToEnd || this.fitFreezer(step, start, start) === start) return start;
      start += 1;
    }
    return NONE;
  }

  private fitHandsOn(step: CompiledStep, from: number, last: number): number {
    const alone = step.stations === null ? this.fitAnywhere(step, from, last) : this.fitStationsAndCrew(step, from, last);
    if (step.batch === null) return alone;
    const most = alone === NONE ? last : Math.min(last, alone + step.duration);
    this.joined = this.batches.earliest(step.batch, step.duration, from, most);
    if (this.joined === null) return alone;
    this.found = this.joined.station;
    return this.joined.start;
  }

  private fitAnywhere(step: CompiledStep, from: number, last: number): number {
    this.found = NONE;
    return step.crewClass === null ? from : this.fitCrew(step.crewClass, step.crew, from, step.duration, last);
  }

  private fitStationsAndCrew(step: CompiledStep, from: number, last: number): number {
    let best = NONE;
    for (const station of step.stations!.rows) {
      const start = this.fitStationAndCrew(station, step, from, best === NONE ? last : best - 1);
      if (start === NONE) continue;
      best = start;
      this.found = station;
      if (best === from) break;
    }
    return best;
  }

  private fitStationAndCrew(station: number, step: CompiledStep, from: number, last: number): number {
    let start = this.free.earliest(station, from, step.duration, last, 1);
    while (start !== NONE && step.crewClass !== null) {
      const manned = this.fitCrew(step.crewClass, step.crew, start, step.duration, last);
      if (manned === start || manned === NONE) return manned;
      start = this.free.earliest(station, manned, step.duration, last, 1);
    }
    return start;
  }

  private fitServices(step: CompiledStep, from: number, last: number): number {
    let start = from;
    for (let settled = 0; settled < step.services!.length && start <= last;) {
      settled = 0;
      for (const { row, units } of step.services!) {
        const served = this.free.earliest(row, start, step.duration, last, units);
        if (served === NONE) return NONE;
        if (served === start) settled += 1;
        start = served;
      }
    }
    return start;
  }

  private shift(placed: PlacedStep, sign: 1 | -1): void {
    const { free, resources: { row, placeRoom } } = this;
    const { step, start, end, station, crew, place, freezer, stayTo, batch } = placed;
    if (batch !== null && !this.batches.change(batch, step.batch!, sign === -1)) return;
    if (end > start) {
      if (station !== NONE) free.add(station, start, end, sign);
      for (const pool of crew) free.add(pool, start, end, sign);
      if (step.services !== null) for (const service of step.services) free.add(service.row, start, end, sign * service.units);
    }
    if (place !== NONE) {
      this.keepAway(place, step.company, start, end, sign);
      free.add(place, start, end, sign * step.area);
      const air = row.room + placeRoom[place - row.place]!;
      if (typeof step.need !== 'number') free.addFalling(air, start, step.duration, step.need, sign);
      else if (step.need !== 0) free.add(air, start, end, sign * step.need);
    }
    if (freezer !== NONE) {
      this.keepAway(freezer, step.company, end, stayTo, sign);
      free.add(freezer, end, stayTo, sign * step.volume);
    }
  }
}

/** The crew of a step that needs none. */
export const NOBODY: readonly number[] = [];
const crews = new Map<number, Map<number, readonly number[]>>();

/** A crew of one pool. Plans hold many of them; equal ones are one list. */
export function alike(pool: number, count: number): readonly number[] {
  let bySize = crews.get(pool);
  if (bySize === undefined) crews.set(pool, (bySize = new Map()));
  const known = bySize.get(count);
  if (known !== undefined) return known;
  const made = Array.from({ length: count }, () => pool);
  bySize.set(count, made);
  return made;
}
