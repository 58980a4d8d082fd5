/**
 * What a stay in the freezer costs at least, by the start of the step that stabilises after it: the clock stands still in the freezer,
 * so who is stabilised that much after the deadline has lain frozen that long. The steps between thaw and that moment are priced
 * apart, as if they could begin as soon as the earliest freezing allows.
 */
import type { PriceCosts } from './price-costs.js';
import type { RouteClock, RouteStep } from './routes.js';

/** Freezings that end close together are looked at as one, so many groups in a horizon at most; our own calibration between speed and tightness. */
const MOST_GROUPS = 256;

/**
 * Reusable; groups of moments at which the freezing may end. They lie on a grid that is the same whatever resources there are: more of
 * something only makes groups larger, and a group never costs more for it. A group costs as if all of it had the best of each.
 */
export class PriceStay {
  private readonly first: Int32Array;
  private readonly last: Int32Array;
  private readonly start: Int32Array;
  private readonly run: Int32Array;
  private readonly before: Float64Array;
  private readonly groupSlots: number;
  private groups = 0;
  private pool = 0;
  private volumeCl = 0;
  private leastSlots = 1;
  private allowed = 0;
  private best = Infinity;
  private chosen = 0;

  constructor(slots: number) {
    let groupSlots = 1;
    while (groupSlots * MOST_GROUPS < slots) groupSlots *= 2;
    this.groupSlots = groupSlots;
    this.first = new Int32Array(slots + 1);
    this.last = new Int32Array(slots + 1);
    this.start = new Int32Array(slots + 1);
    this.run = new Int32Array(slots + 1);
    this.before = new Float64Array(slots + 1);
  }

  /** @param at cost of everything up to the freezing, by its start */
  prepare({ freezing, from, to, durationSlots }: RouteStep, at: Float64Array, { deadline, momentAfter }: RouteClock): void {
    const { pool, run, volumeCl, leastSlots } = freezing!;
    this.pool = pool;
    this.volumeCl = volumeCl;
    this.leastSlots = leastSlots;
    this.allowed = deadline - momentAfter;
    this.groups = 0;
    let group = -1;
    let cell = -1;
    for (let start = from; start <= to; start += 1) {
      const end = start + durationSlots;
      const cost = at[start]!;
      const there = run[end] ?? 0;
      if (cost === Infinity || there < leastSlots) continue;
      if (Math.floor(end / this.groupSlots) !== cell) {
        cell = Math.floor(end / this.groupSlots);
        group = this.groups++;
        this.first[group] = end;
        this.before[group] = Infinity;
        this.run[group] = 0;
      }
      this.last[group] = end;
      if (there > this.run[group]!) this.run[group] = there;
      if (cost < this.before[group]!) { this.before[group] = cost; this.start[group] = start; }
    }
  }

  /** Least cost of all up to the thaw when the stabilising step begins at that slot; never less for a later one. */
  cost(slot: number, costs: PriceCosts): number {
    this.choose(slot, costs);
    return this.best;
  }

  /** The stay behind that cost, and the start of its freezing. */
  at(slot: number, costs: PriceCosts): { from: number; to: number; start: number } {
    this.choose(slot, costs);
    return { from: this.last[this.chosen]!, to: this.first[this.chosen]! + this.length(slot), start: this.start[this.chosen]! };
  }

  private length(slot: number): number {
    return Math.max(this.leastSlots, slot - this.allowed);
  }

  private choose(slot: number, costs: PriceCosts): void {
    const { groups, first, last, before, run, volumeCl } = this;
    const sum = costs.upTo[this.pool]!;
    const length = this.length(slot);
    let best = Infinity;
    let chosen = 0;
    for (let group = 0; group < groups; group += 1) {
      let cost = before[group]!;
      if (cost >= best || length > run[group]!) continue;
      const until = first[group]! + length;
      const from = last[group]!;
      if (until > from) cost += volumeCl * (sum[until]! - sum[from]!);
      if (cost < best) { best = cost; chosen = group; }
    }
    this.best = best;
    this.chosen = chosen;
  }
}
