/** When single resources of a step are free, each asked for by itself. Nothing here books anything. */
import type { CompiledStep } from './compile.js';
import type { CrewClass, PlaceCandidates } from './candidates.js';
import { type FallingNeed, type FreeSlots, NONE } from './free-slots.js';
import { hostOf, type Resources } from './resources.js';

/** What a drying asks of its place. */
export type DryingNeed = Pick<CompiledStep, 'area' | 'need' | 'company'>;

/** Earliest fits against rows of free slots. */
export class Openings {
  protected readonly free: FreeSlots;
  /** Row of the station or drying place of the latest successful fit; `NONE` for a step that needs neither. */
  found = NONE;

  constructor(protected readonly resources: Resources) {
    this.free = resources.free.copy();
  }

  get horizon(): number {
    return this.resources.horizon;
  }

  /** Earliest start in `[from, last]` with a free station, whoever is there. */
  fitStations(step: CompiledStep, from: number, last: number): number {
    let best = NONE;
    for (const station of step.stations!.rows) {
      const start = this.free.earliest(station, from, step.duration, best === NONE ? last : best - 1, 1);
      if (start !== NONE) best = start;
    }
    return best;
  }

  /** Earliest start in `[from, last]` with `count` people of the class free throughout. */
  fitCrew(crew: CrewClass, count: number, from: number, duration: number, last: number): number {
    const { rows, until, size } = crew;
    if (size < count) return NONE;
    if (rows.length === 1) return this.free.earliest(rows[0]!, from, duration, Math.min(last, until[0]! - 1), count);
    let start = from;
    while (start <= last) {
      start = this.nextSomebody(crew, start, last);
      if (start === NONE || this.freePeople(crew, count, start, duration) >= count) return start;
      start += 1;
    }
    return NONE;
  }

  /** Earliest start in `[from, last]` at one of the places; `area` 0, a `need` of nothing, or no company leaves that limit out. */
  fitDrying(places: PlaceCandidates, { area, need, company }: DryingNeed, from: number, duration: number, last: number): number {
    let best = NONE;
    for (let i = 0; i < places.rows.length; i += 1) {
      if (places.areas[i]! < area) continue;
      const start = this.fitPlace(places.rows[i]!, places.airRows[i]!, area, need, company, from, duration, best === NONE ? last : best - 1);
      if (start === NONE) continue;
      best = start;
      this.found = places.rows[i]!;
      if (best === from) break;
    }
    return best;
  }

  /** Earliest start in `[from, last]` at which the room's air takes the load, wherever the item lies. */
  fitRoomAir(room: number, need: FallingNeed | number, from: number, duration: number, last: number): number {
    const row = this.resources.row.room + room;
    if (typeof need !== 'number') return this.free.earliestFalling(row, from, duration, last, need);
    return need === 0 ? (from <= last ? from : NONE) : this.free.earliest(row, from, duration, last, need);
  }

  /** Earliest start in `[from, last]` at which the courier or specialist takes the units throughout. */
  fitService({ row, units }: { row: number; units: number }, from: number, duration: number, last: number): number {
    return this.free.earliest(row, from, duration, last, units);
  }

  private fitPlace(place: number, air: number, area: number, need: FallingNeed | number, company: number, from: number, duration: number, last: number): number {
    const { free } = this;
    const asked = company === NONE ? NONE : this.resources.companies.askedAt(hostOf(this.resources, place), company);
    let start = free.earliest(place, from, duration, last, Math.max(1, area));
    while (start !== NONE) {
      let settled = start;
      if (need !== 0) settled = typeof need === 'number' ? free.earliest(air, settled, duration, last, need) : free.earliestFalling(air, settled, duration, last, need);
      if (asked !== NONE && settled !== NONE) settled = free.earliest(asked, settled, duration, last, 1);
      if (settled === start || settled === NONE) return settled;
      start = free.earliest(place, settled, duration, last, Math.max(1, area));
    }
    return start;
  }

  private nextSomebody({ rows, until }: CrewClass, from: number, last: number): number {
    let soonest = NONE;
    for (let i = 0; i < rows.length && soonest !== from; i += 1) {
      const slot = this.free.nextFit(rows[i]!, from, Math.min(last, until[i]! - 1, soonest === NONE ? last : soonest - 1), 1);
      if (slot !== NONE) soonest = slot;
    }
    return soonest;
  }

  /** People free throughout, counted until there are enough. */
  private freePeople({ rows, until }: CrewClass, enough: number, start: number, duration: number): number {
    let count = 0;
    for (let i = 0; i < rows.length && count < enough; i += 1) {
      if (start < until[i]!) count += Math.max(0, this.free.leastIn(rows[i]!, start, start + duration));
    }
    return count;
  }
}
