/** A plan under construction: placements, timetable and objective kept in step. */
import type { Compiled, CompiledItem } from './compile.js';
import { IndexSet } from './index-set.js';
import { movedCost } from './instability.js';
import { NeighbourIndex } from './neighbour-index.js';
import { PackedPlan } from './packed-plan.js';
import { type Delay, findLatePlacement, findPlacement, type Hint, type Placement } from './place-item.js';
import { Timetable } from './timetable.js';
import type { Objective } from './types.js';

/** Lexicographic comparison; negative when `a` is better. */
export function compareObjectives(a: Objective, b: Objective): number {
  return a[0] - b[0] || a[1] - b[1] || a[2] - b[2] || a[3] - b[3];
}

/** Placements by item index with their bookings; all changes go through here. */
export class PlanState {
  readonly timetable: Timetable;
  readonly plan: PackedPlan;
  /** Urgent items that are not in time, whether they have no place or a late one, without those given up. */
  readonly waiting: IndexSet;
  private late = 0;
  private tardiness = 0;
  private instability = 0;
  private completion = 0;
  /** Placements put so far. */
  private stamps = 0;
  private index: NeighbourIndex | null = null;
  /** Items in the order in which they were put, as long as nobody has asked for neighbours. */
  private readonly sequence: Int32Array;
  private puts = 0;

  /** @param givenUp items, by index, that no plan of this problem can have in time */
  constructor(readonly compiled: Compiled, private readonly givenUp: Uint8Array) {
    this.timetable = new Timetable(compiled.resources);
    this.plan = new PackedPlan(compiled);
    this.waiting = new IndexSet(compiled.items.length);
    this.sequence = new Int32Array(compiled.items.length);
    this.countNothing();
  }

  /** Takes everything out, as in a new state. */
  reset(): void {
    this.timetable.reset();
    this.plan.clear();
    this.waiting.clear();
    [this.late, this.tardiness, this.instability, this.completion] = [0, 0, 0, 0];
    [this.stamps, this.index, this.puts] = [0, null, 0];
    this.countNothing();
  }

  private countNothing(): void {
    const { compiled: { items, tardinessCap }, givenUp } = this;
    for (const item of items) {
      this.instability += item.dropCost;
      if (!item.urgent) continue;
      this.late += item.weight;
      this.tardiness += item.weight * tardinessCap;
      if (givenUp[item.index] === 0) this.waiting.add(item.index);
    }
  }

  /** Placed steps by what they use and when, for the search; entered when first asked for, as a first plan needs none. */
  get neighbours(): NeighbourIndex {
    if (this.index !== null) return this.index;
    this.index = new NeighbourIndex(this.compiled);
    for (let i = 0; i < this.puts; i += 1) this.index.add(this.plan.get(this.sequence[i]!)!);
    return this.index;
  }

  get objective(): Objective {
    return [this.late, this.tardiness, this.instability, this.completion];
  }

  /** Whether no plan of this problem can have the item in time. */
  isGivenUp(item: CompiledItem): boolean {
    return this.givenUp[item.index] === 1;
  }

  /** Leaves off waiting for what has been given up meanwhile. */
  dropGivenUp(): void {
    this.givenUp.forEach((mark, index) => { if (mark === 1) this.waiting.delete(index); });
  }

  /** Places the item in time if it fits; says whether it did. `skip` leaves out one of its routes. */
  offer(item: CompiledItem, skip?: number, delay: Delay | null = null, hint: Hint | null = null): boolean {
    const placement = findPlacement(this.timetable, item, skip, delay, hint);
    if (placement === null) return false;
    this.put(placement);
    return true;
  }

  /** Places the item as little late as it can be; says whether it fits at all. */
  offerLate(item: CompiledItem): boolean {
    const placement = findLatePlacement(this.timetable, item);
    if (placement === null) return false;
    this.put(placement);
    return true;
  }

  /** Books a placement known to fit. */
  put(placement: Placement): void {
    if (placement.stamp === 0) placement.stamp = this.stamps += 1;
    this.timetable.book(placement.steps);
    this.plan.set(placement);
    if (this.index !== null) this.index.add(placement);
    else this.sequence[this.puts++] = placement.item;
    this.count(placement, 1);
  }

  /** Takes an item out of the plan and returns where it was. */
  remove(index: number): Placement {
    const { neighbours } = this;
    const placement = this.plan.get(index)!;
    this.timetable.release(placement.steps);
    this.plan.delete(index);
    neighbours.remove(placement);
    this.count(placement, -1);
    return placement;
  }

  private count(placement: Placement, sign: 1 | -1): void {
    const { compiled } = this;
    const item = compiled.items[placement.item]!;
    if (item.dropCost > 0) this.instability += sign * (movedCost(item.previous, item.options[placement.option]!.disposition, placement, compiled.toleranceSlots) - item.dropCost);
    if (!item.urgent) return;
    const cap = compiled.tardinessCap;
    const inTime = placement.tardiness === 0;
    if (inTime) this.late -= sign * item.weight;
    this.tardiness += sign * item.weight * ((inTime ? 0 : Math.min(cap, placement.tardiness)) - cap);
    this.completion += sign * item.weight * (placement.moment + item.options[placement.option]!.index * compiled.resources.horizon);
    if (!inTime || this.givenUp[item.index] === 1) return;
    if (sign === 1) this.waiting.delete(item.index);
    else this.waiting.add(item.index);
  }
}
