/** Account of one kind of resource for the validator, planned and fixed use apart, resource by resource. */
import type { Interval } from './types.js';

/**
 * Uses by index of the resource. They are only noted down when entered; each resource is then swept once over its own
 * stretch of time, so that memory does not grow with resources times slots.
 */
export class Ledger {
  /** Per resource: from, to, amount; from, to, amount; ... */
  private readonly planned: number[][];
  private readonly fixed: number[][];
  /** Changes of use per slot; doubles, as a wrong plan may add up to anything. All zero between two sweeps. */
  private readonly plannedChange: Float64Array;
  private readonly fixedChange: Float64Array;

  constructor(resources: number, private readonly slots: number) {
    this.planned = Array.from({ length: resources }, () => []);
    this.fixed = Array.from({ length: resources }, () => []);
    this.plannedChange = new Float64Array(slots + 1);
    this.fixedChange = new Float64Array(slots + 1);
  }

  /** Enters a planned use. */
  enter(resource: number, from: number, to: number, amount: number): void {
    this.note(this.planned[resource]!, from, to, amount);
  }

  /** Enters a use that has begun and cannot be moved. */
  fix(resource: number, { from, to }: Interval, amount: number): void {
    this.note(this.fixed[resource]!, from, to, amount);
  }

  /** First slot with some planned use in which all uses together exceed the limit; `null` if there is none. */
  firstOverdrawn(resource: number, limit: number | Float64Array): number | null {
    const planned = this.planned[resource]!;
    if (planned.length === 0) return null;
    let first = this.slots;
    let last = 0;
    for (let i = 0; i < planned.length; i += 3) {
      first = Math.min(first, planned[i]!);
      last = Math.max(last, planned[i + 1]!);
    }
    apply(this.plannedChange, planned, first, last);
    apply(this.fixedChange, this.fixed[resource]!, first, last);
    return this.sweep(first, last, limit);
  }

  private note(uses: number[], from: number, to: number, amount: number): void {
    const begin = Math.max(0, from);
    const end = Math.min(this.slots, to);
    // What is not in whole slots is reported with its item and cannot be counted here.
    if (amount > 0 && begin < end && Number.isInteger(begin) && Number.isInteger(end)) uses.push(begin, end, amount);
  }

  /** Adds the changes up and leaves them zero. */
  private sweep(first: number, last: number, limit: number | Float64Array): number | null {
    let overdrawn: number | null = null;
    let planned = 0;
    let fixed = 0;
    for (let slot = first; slot <= last; slot += 1) {
      planned += this.plannedChange[slot]!;
      fixed += this.fixedChange[slot]!;
      this.plannedChange[slot] = 0;
      this.fixedChange[slot] = 0;
      if (overdrawn === null && planned > 0 && planned + fixed > (typeof limit === 'number' ? limit : limit[slot]!)) overdrawn = slot;
    }
    return overdrawn;
  }
}

function apply(change: Float64Array, uses: readonly number[], first: number, last: number): void {
  for (let i = 0; i < uses.length; i += 3) {
    const from = Math.max(first, uses[i]!);
    const to = Math.min(last, uses[i + 1]!);
    if (from >= to) continue;
    change[from]! += uses[i + 2]!;
    change[to]! -= uses[i + 2]!;
  }
}

/** Intervals joined where they touch or overlap, in order, for many questions. */
export class Calendar {
  private readonly joined: Interval[] = [];

  constructor(intervals: readonly Interval[]) {
    for (const { from, to } of [...intervals].sort((a, b) => a.from - b.from)) {
      const last = this.joined.at(-1);
      if (last !== undefined && from <= last.to) last.to = Math.max(last.to, to);
      else this.joined.push({ from, to });
    }
  }

  /** Whether the whole of `[from, to)` is open; nothing to cover is covered. */
  covers(from: number, to: number): boolean {
    if (from >= to) return true;
    let low = 0;
    let high = this.joined.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.joined[middle]!.from <= from) low = middle + 1;
      else high = middle;
    }
    return low > 0 && this.joined[low - 1]!.to >= to;
  }
}
