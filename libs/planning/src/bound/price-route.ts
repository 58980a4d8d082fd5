/** The cheapest way through a route at given prices: earliest to latest start of each step, freezer stays included. */
import type { PriceCosts } from './price-costs.js';
import { PriceStay } from './price-stay.js';
import type { BoundModel, RouteFreezing, RouteStep } from './routes.js';

/** Takes note of what the cheapest way uses: `amount` of a pool over `[from, to)`. */
export type NoteUse = (pool: number, from: number, to: number, amount: number) => void;

/** Reusable tables; entry `[position][slot]`. */
export class CheapestRoute {
  /** Cost of the steps so far when this one begins at the slot, and the least of those up to it. */
  private readonly at: Float64Array[] = [];
  private readonly least: Float64Array[] = [];
  private readonly leastAt: Int32Array[] = [];
  /** For a step after freezing: where the freezing ended. */
  private readonly frozenFrom: Int32Array[] = [];
  /** Last start of each step that was looked at; no later one is cheaper. */
  private readonly until: number[] = [];
  private readonly stay: PriceStay;

  constructor(private readonly model: BoundModel) {
    this.stay = new PriceStay(model.slots);
  }

  /** Least cost of the whole route; infinite when there is no way through. Anything from `enough` on counts the same. */
  cost(route: readonly RouteStep[], costs: PriceCosts, enough: number): number {
    const moment = route.findIndex(({ clock }) => clock !== null);
    const frozenAt = route[moment]?.clock?.frozenAt ?? -1;
    let best = Infinity;
    let limit = Infinity;
    for (let position = 0; position < route.length; position += 1) {
      best = this.step(route, position, costs, limit, position - 1 === frozenAt);
      if (best >= enough) return best;
      if (position === frozenAt) limit = this.latestMoment(route[frozenAt]!, route[moment]!, costs, enough);
      else if (position === moment) limit = Infinity;
    }
    return best;
  }

  /** The last start of the stabilising step at which the stay in the freezer alone is worth it: a longer one never costs less. */
  private latestMoment(freeze: RouteStep, moment: RouteStep, costs: PriceCosts, enough: number): number {
    this.stay.prepare(freeze, this.at[moment.clock!.frozenAt]!, moment.clock!);
    let low = moment.from - 1;
    for (let high = moment.to; low < high;) {
      const middle = Math.ceil((low + high) / 2);
      if (this.stay.cost(middle, costs) < enough) low = middle;
      else high = middle - 1;
    }
    return low;
  }

  /** What the way found by the last call of `cost` uses, and when each of its steps begins. */
  uses(route: readonly RouteStep[], costs: PriceCosts, note: NoteUse, begins?: (position: number, slot: number) => void): void {
    const last = route.length - 1;
    let start = this.leastAt[last]![this.until[last]!]!;
    let frozen: { from: number; to: number; start: number } | null = null;
    for (let position = last; position >= 0; position -= 1) {
      const step = route[position]!;
      begins?.(position, start);
      this.noteStep(step, start, costs, note);
      if (step.freezing !== null && position === last) note(step.freezing.pool, start + step.durationSlots, this.model.slots, step.freezing.volumeCl);
      if (step.clock !== null) frozen = this.stay.at(start, costs);
      const before = route[position - 1];
      if (before === undefined) return;
      if (before.freezing === null) start = this.leastAt[position - 1]![Math.min(start - before.durationSlots, this.until[position - 1]!)]!;
      else if (frozen !== null) {
        if (frozen.to > frozen.from) note(before.freezing.pool, frozen.from, frozen.to, before.freezing.volumeCl);
        start = frozen.start;
        frozen = null;
      } else {
        const from = this.frozenFrom[position]![start]!;
        note(before.freezing.pool, from, start, before.freezing.volumeCl);
        start = from - before.durationSlots;
      }
    }
  }

  private noteStep(step: RouteStep, start: number, costs: PriceCosts, note: NoteUse): void {
    const end = start + step.durationSlots;
    const shape = this.model.shapes[step.shape]!;
    const share = shape.units / shape.mostUnits;
    for (const pool of shape.people) note(pool, start, end, shape.crew * share);
    for (const { pool, units } of shape.services) note(pool, start, end, units);
    if (shape.stations !== null) note(costs.cheapestStation(shape, start), start, end, share);
    if (step.drying === null) return;
    const { areaDm2, loads } = step.drying;
    const room = costs.cheapestRoom(step.drying, step.durationSlots, start);
    note(room.area, start, end, areaDm2);
    loads.forEach(({ fromSlot, loadGPerSlot }, k) => note(room.air, start + fromSlot, start + (loads[k + 1]?.fromSlot ?? step.durationSlots), loadGPerSlot));
  }

  /** Fills the tables of one step; returns the least cost so far. The first step after a stay that its clock will price begins anew. */
  private step(route: readonly RouteStep[], position: number, costs: PriceCosts, limit: number, anew: boolean): number {
    const step = route[position]!;
    const { at, least, leastAt } = this.tables(position);
    const shape = costs.shape(step.shape);
    const before = anew ? undefined : route[position - 1];
    if (before?.freezing) this.afterFreezer(position, before, step, costs, at);
    const lastFreezing = position === route.length - 1 ? step.freezing : null;
    const ready = before !== undefined && !before.freezing ? this.least[position - 1]! : null;
    const readyAfter = before?.durationSlots ?? 0;
    const readyUntil = this.until[position - 1] ?? 0;
    const { drying, clock, durationSlots } = step;
    const keepsAll = step.freezing !== null;
    // No start costs less than this; when one costs as much, later ones need not be looked at.
    const floor = keepsAll ? -1 : ready === null ? 0 : ready[readyUntil]!;
    const to = Math.min(step.to, limit);
    let best = Infinity;
    let bestAt = step.from;
    // The stay costs at least what it did at an earlier start.
    let stayed = 0;
    let last = step.from;
    let slot = step.from;
    for (; slot <= to; slot += 1) {
      let cost = shape[slot]!;
      if (cost !== Infinity) {
        if (ready !== null) cost += ready[slot - readyAfter < readyUntil ? slot - readyAfter : readyUntil]!;
        else if (before !== undefined) cost += at[slot]!;
        if (clock !== null) {
          if (cost + stayed < best || keepsAll) stayed = this.stay.cost(slot, costs);
          if (stayed + floor >= best) break;
          cost += stayed;
        }
        if (cost < best || keepsAll) {
          if (drying !== null) cost += costs.drying(drying, durationSlots, slot);
          if (lastFreezing !== null) cost += this.toHorizon(lastFreezing, slot + durationSlots, costs);
        }
      }
      at[slot] = cost;
      if (cost < best) { best = cost; bestAt = slot; }
      least[slot] = best;
      leastAt[slot] = bestAt;
      last = slot;
      if (best <= floor + stayed) break;
    }
    this.until[position] = last;
    return best;
  }

  private toHorizon({ pool, run, volumeCl }: RouteFreezing, from: number, costs: PriceCosts): number {
    const { slots } = this.model;
    return from < slots && run[from]! >= slots - from ? volumeCl * costs.span(pool, from, slots) : Infinity;
  }

  /** Cost of everything up to the thaw, by the slot at which the thaw begins: the best moment to have gone into the freezer. */
  private afterFreezer(position: number, freeze: RouteStep, step: RouteStep, costs: PriceCosts, at: Float64Array): void {
    const { pool, run, volumeCl, leastSlots } = freeze.freezing!;
    const before = this.at[position - 1]!;
    const sum = costs.upTo[pool]!;
    const frozenFrom = this.frozenFrom[position]!;
    let best = Infinity;
    let from = -1;
    for (let slot = freeze.from + freeze.durationSlots + leastSlots; slot <= step.to; slot += 1) {
      // No freezer there in the slot that has just passed: nothing lies frozen over it.
      best = run[slot - 1] === 0 ? Infinity : best + volumeCl * (sum[slot]! - sum[slot - 1]!);
      const end = slot - leastSlots;
      const start = end - freeze.durationSlots;
      if (start <= freeze.to && (run[end] ?? 0) >= leastSlots) {
        const cost = before[start]! + volumeCl * (sum[slot]! - sum[end]!);
        if (cost < best) { best = cost; from = end; }
      }
      at[slot] = best;
      frozenFrom[slot] = from;
    }
  }

  private tables(position: number) {
    const size = this.model.slots + 1;
    this.at[position] ??= new Float64Array(size);
    this.least[position] ??= new Float64Array(size);
    this.leastAt[position] ??= new Int32Array(size);
    this.frozenFrom[position] ??= new Int32Array(size);
    return { at: this.at[position], least: this.least[position], leastAt: this.leastAt[position] };
  }
}
