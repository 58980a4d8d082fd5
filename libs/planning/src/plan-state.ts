/** A plan under construction: placements, timetable and objective kept in step. */
import type { Compiled, CompiledItem } from './compile.js';
import { findPlacement, type Placement } from './place-item.js';
import { Timetable } from './timetable.js';

/** Weight not stabilised in time, then weighted moment of stabilisation; smaller is better. */
export type Objective = readonly [number, number];

/** Lexicographic comparison; negative when `a` is better. */
export function compareObjectives(a: Objective, b: Objective): number {
  return a[0] - b[0] || a[1] - b[1];
}

/** Placements by item index with their bookings; all changes go through here. */
export class PlanState {
  readonly timetable: Timetable;
  readonly placed: (Placement | null)[];
  private lostWeight = 0;
  private weightedMoment = 0;

  constructor(readonly compiled: Compiled) {
    this.timetable = new Timetable(compiled.resources);
    this.placed = compiled.items.map(() => null);
    for (const item of compiled.items) if (item.urgent) this.lostWeight += item.weight;
  }

  get objective(): Objective {
    return [this.lostWeight, this.weightedMoment];
  }

  /** Places the item if it fits; says whether it did. */
  offer(item: CompiledItem): boolean {
    const placement = findPlacement(this.timetable, item);
    if (placement === null) return false;
    this.put(placement);
    return true;
  }

  /** Books a placement known to fit. */
  put(placement: Placement): void {
    this.timetable.book(placement.steps);
    this.placed[placement.item] = placement;
    this.count(placement, 1);
  }

  /** Takes an item out of the plan and returns where it was. */
  remove(index: number): Placement {
    const placement = this.placed[index]!;
    this.timetable.release(placement.steps);
    this.placed[index] = null;
    this.count(placement, -1);
    return placement;
  }

  private count(placement: Placement, sign: 1 | -1): void {
    const item = this.compiled.items[placement.item]!;
    if (!item.urgent) return;
    this.lostWeight -= sign * item.weight;
    this.weightedMoment += sign * item.weight * placement.moment;
  }
}
