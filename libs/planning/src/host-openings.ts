/** When freezers have room, and which things may lie together at drying places and in freezers. Only `keepAway` books anything. */
import type { CompiledStep } from './compile.js';
import { NONE } from './free-slots.js';
import { Openings } from './openings.js';
import { hostOf } from './resources.js';

/** Earliest fits of what stays where it is put. */
export class HostOpenings extends Openings {
  /**
   * Earliest start in `[from, last]` after which some freezer has room: to the horizon for a step that ends its route, else for
   * the least stay; else `last + 1`.
   */
  fitFreezer(step: CompiledStep, from: number, last: number): number {
    let earliest = last + 1;
    for (const freezer of step.freezers!.rows) {
      const start = (step.staysToEnd ? this.coldToEnd(freezer, step, from + step.duration) : this.coldForLeast(freezer, step, from + step.duration, last + step.duration)) - step.duration;
      earliest = Math.min(earliest, start);
    }
    return earliest;
  }

  /** First slot from `from` on after which the freezer has room up to the horizon. */
  private coldToEnd(freezer: number, { volume, company }: CompiledStep, from: number): number {
    const { free, resources: { horizon } } = this;
    const asked = this.askedAt(freezer, company);
    const after = Math.max(from, free.lastShort(freezer, from, horizon, volume) + 1);
    return asked === NONE ? after : Math.max(after, free.lastShort(asked, after, horizon, 1) + 1);
  }

  /** First slot in `[from, last]` after which the freezer has room for the least stay; else `last + 1`. */
  private coldForLeast(freezer: number, { volume, company, leastStay }: CompiledStep, from: number, last: number): number {
    const { free } = this;
    const asked = this.askedAt(freezer, company);
    let slot = free.earliest(freezer, from, leastStay, last, volume);
    while (slot !== NONE && asked !== NONE) {
      const alone = free.earliest(asked, slot, leastStay, last, 1);
      if (alone === slot || alone === NONE) return orAfter(alone, last + 1);
      slot = free.earliest(freezer, alone, leastStay, last, volume);
    }
    return orAfter(slot, last + 1);
  }

  /** First freezer in order of preference with room for the volume in `[from, to)`, or `NONE`. */
  freezerFor(step: CompiledStep, from: number, to: number): number {
    return step.freezers!.rows.find((freezer) => this.coldUntil(freezer, step, from, to) === to) ?? NONE;
  }

  /** Until when, up to `to`, the freezer takes it from `from` on. */
  protected coldUntil(freezer: number, { volume, company }: CompiledStep, from: number, to: number): number {
    const { free } = this;
    const asked = this.askedAt(freezer, company);
    const until = free.firstShort(freezer, from, to, volume);
    return asked === NONE ? until : free.firstShort(asked, from, until, 1);
  }

  /** The row in which a company asks for 1 at a drying place or freezer; `NONE` where nothing has to be asked. */
  private askedAt(placeOrFreezer: number, company: number): number {
    return company === NONE ? NONE : this.resources.companies.askedAt(hostOf(this.resources, placeOrFreezer), company);
  }

  /** The longest stay from `from` on that some freezer has room for. */
  longestStay(step: CompiledStep, from: number): number {
    const { horizon } = this.resources;
    let longest = 0;
    for (const freezer of step.freezers!.rows) longest = Math.max(longest, this.coldUntil(freezer, step, from, horizon) - from);
    return longest;
  }

  /** Whether nothing lies at the drying place that the step must not be with. */
  protected isInCompany(place: number, { company, duration }: CompiledStep, start: number): boolean {
    const asked = this.askedAt(place, company);
    return asked === NONE || this.free.lastShort(asked, start, start + duration, 1) === NONE;
  }

  /** Keeps others away from a drying place or freezer, or lets them come again. */
  protected keepAway(placeOrFreezer: number, company: number, from: number, to: number, sign: 1 | -1): void {
    if (company === NONE) return;
    for (const row of this.resources.companies.takenAt(hostOf(this.resources, placeOrFreezer), company)) this.free.add(row, from, to, sign);
  }
}

function orAfter(start: number, after: number): number {
  return start === NONE ? after : start;
}
