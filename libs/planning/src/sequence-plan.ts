/** A plan from a sequence of steps: each is placed at its earliest fit when its turn comes. */
import { type Compiled, type CompiledItem, type CompiledOption, type CompiledStep, lastInHorizon, lastInTime } from './compile.js';
import { findLatePlacement, placementOf, type Placement } from './place-item.js';
import { NOBODY, NONE, placedStep, type PlacedStep, Timetable } from './timetable.js';
import type { Objective } from './types.js';

/**
 * What a sequence says: items in the order of their steps, the route of each, which may be late, and the slot before which what was
 * frozen is not thawed: all else is placed as early as can be, but the longer a thing lies frozen the longer its clock stands still.
 */
export interface Sequence { order: Int32Array; option: Int32Array; late: Uint8Array; thawFrom: Int32Array }

/** Said of a thing that is thawed when its next step begins, or later if it must be frozen longer to be in time. */
export const AS_IT_COMES = 0;

/** Decodes sequences one after the other; `placements` are those of the latest. */
export class SequencePlan {
  private readonly timetable: Timetable;
  private readonly steps: PlacedStep[][];
  private readonly failed: Uint8Array;
  /** Turns that each item has had, and those that its longest route has. */
  private readonly turns: Int32Array;
  private readonly longest: Int32Array;
  private placed: (Placement | null)[];
  /** Weight of urgent items that are not searched on and have no place. */
  private readonly lostWeight: number;
  /** Items whose lateness is in the cost already. */
  private readonly counted: Uint8Array;
  /** What is known of the cost while a sequence is decoded, what a unit of weight adds that is late, and what one that fails. */
  private cost = 0;
  private lateCost = 0;
  private failCost = 0;

  constructor(private readonly compiled: Compiled, private readonly items: readonly CompiledItem[]) {
    const searched = new Set(items);
    this.lostWeight = compiled.items.reduce((sum, item) => sum + (item.urgent && !searched.has(item) ? item.weight : 0), 0);
    this.timetable = new Timetable(compiled.resources);
    this.steps = items.map(() => []);
    this.failed = new Uint8Array(items.length);
    this.turns = new Int32Array(items.length);
    this.counted = new Uint8Array(items.length);
    this.longest = Int32Array.from(items, ({ options }) => options.reduce((most, option) => Math.max(most, option.steps.length), 0));
    this.placed = [];
  }

  /**
   * Places everything anew and answers the objective over the items given; null, and no plan, as soon as what is known to be late
   * costs more than `mostCost`, when a unit of weight that is late costs `lateCost` and each slot of its lateness one more.
   */
  decode(sequence: Sequence, mostCost: number, lateCost: number): Objective | null {
    const { compiled: { tardinessCap: cap, planLate }, lostWeight } = this;
    this.timetable.reset();
    this.failed.fill(0);
    this.turns.fill(0);
    this.counted.fill(0);
    this.lateCost = lateCost;
    this.failCost = lateCost + (planLate ? 1 : cap);
    this.cost = lostWeight * (lateCost + cap);
    for (const steps of this.steps) steps.length = 0;
    const { order, option, late, thawFrom } = sequence;
    for (let turn = 0; turn < order.length; turn += 1) {
      const i = order[turn]!;
      const route = this.items[i]!.options[option[i]!]!;
      // A shorter route begins with a later turn: with another route the steps that both have keep their turns.
      const position = this.turns[i]! - this.longest[i]! + route.steps.length;
      this.turns[i] = this.turns[i]! + 1;
      if (position < 0 || this.failed[i] === 1 || position === thawAt(route)) continue;
      if (!this.place(i, route, late[i] === 1, thawFrom[i]!)) this.fail(i);
      if (this.cost > mostCost) return null;
    }
    this.placed = this.items.map((item, i) => this.finish(item, i, option[i]!, late[i] === 1, thawFrom[i]! > AS_IT_COMES));
    if (this.cost > mostCost) return null;
    if (planLate) this.placeLate();
    return this.weigh();
  }

  /** Placements of the latest, in the order of the items given. */
  get latest(): readonly (Placement | null)[] {
    return this.placed;
  }

  /** By the index of the items in the problem. */
  placements(): (Placement | null)[] {
    const all: (Placement | null)[] = this.compiled.items.map(() => null);
    this.items.forEach(({ index }, i) => { all[index] = this.placed[i] ?? null; });
    return all;
  }

  /** The next step of an item; after a stay in a freezer a thaw that takes nobody's time comes with the step after it. */
  private place(i: number, route: CompiledOption, late: boolean, thawFrom: number): boolean {
    const item = this.items[i]!;
    const steps = this.steps[i]!;
    const position = steps.length;
    const isThawed = route.freezeAt >= 0 && position === route.freezeAt + 1;
    const free = position === 0 ? item.release : steps[position - 1]!.end;
    const from = isThawed ? Math.max(thawFrom, free + route.steps[position - 1]!.leastStay) : free;
    const step = route.steps[position]!;
    if (position === thawAt(route)) return this.placeThawed(i, route, position, from, late, thawFrom > AS_IT_COMES);
    const placed = this.fit(step, from, (late ? lastInHorizon : lastInTime)(route, position), position === route.steps.length - 1);
    if (placed === null) return false;
    if (isThawed && !this.stay(steps[route.freezeAt]!, placed.start)) return false;
    this.timetable.bookStep(placed);
    steps.push(placed);
    return position !== route.stabilisingAt || this.isAllowed(i, route, late, thawFrom > AS_IT_COMES);
  }

  /** Counts how late an item is whose step that stabilises it has been placed, if that is settled by now; false if it may not be so. */
  private isAllowed(i: number, route: CompiledOption, late: boolean, isSettled: boolean): boolean {
    const steps = this.steps[i]!;
    const { freezeAt, stabilisingAt, stabilisesAtEnd } = route;
    const wasFrozen = freezeAt >= 0 && freezeAt < stabilisingAt;
    if (wasFrozen && !isSettled) return true;
    const { start, end } = steps[stabilisingAt]!;
    const stay = wasFrozen ? steps[freezeAt]!.stayTo - steps[freezeAt]!.end : 0;
    const tardiness = (stabilisesAtEnd ? end : start) - this.items[i]!.deadline - stay;
    if (tardiness <= 0) return true;
    if (late) this.countLate(i, tardiness);
    return late;
  }

  private countLate(i: number, tardiness: number): void {
    if (this.counted[i] === 1) return;
    this.counted[i] = 1;
    this.cost += this.items[i]!.weight * (this.lateCost + Math.min(tardiness, this.compiled.tardinessCap));
  }

  private placeThawed(i: number, route: CompiledOption, position: number, from: number, late: boolean, exactly: boolean): boolean {
    const [thaw, next] = [route.steps[position]!, route.steps[position + 1]!];
    const steps = this.steps[i]!;
    const frozen = steps[steps.length - 1]!;
    const placed = this.fit(next, from + thaw.duration, (late ? lastInHorizon : lastInTime)(route, position + 1), false);
    if (placed === null) return false;
    const start = this.timetable.couldStayTo(frozen, exactly ? from : placed.start - thaw.duration);
    if (start < frozen.end + frozen.step.leastStay || start > lastInHorizon(route, position) || !this.stay(frozen, start)) return false;
    this.timetable.bookStep(placed);
    steps.push(placedStep(thaw, start, NONE, NOBODY, NONE, NONE, start + thaw.duration, null), placed);
    return position + 1 !== route.stabilisingAt || this.isAllowed(i, route, late, exactly);
  }

  /** Lets a frozen thing lie until a slot. */
  private stay(frozen: PlacedStep, to: number): boolean {
    return this.timetable.extendStay(frozen, to);
  }

  private fit(step: CompiledStep, from: number, last: number, isLast: boolean): PlacedStep | null {
    const { timetable } = this;
    const start = from > last ? NONE : timetable.fit(step, from, last);
    if (start === NONE) return null;
    const [row, joined] = [timetable.found, timetable.joined];
    const end = start + step.duration;
    const stayTo = step.freezers === null ? end : isLast ? timetable.horizon : end + step.leastStay;
    const freezer = step.freezers === null ? NONE : timetable.freezerFor(step, end, stayTo);
    if (step.freezers !== null && freezer === NONE) return null;
    const crew = joined?.crew ?? timetable.crewFor(step, start);
    const station = step.stations === null ? NONE : row;
    return placedStep(step, start, station, crew, step.places === null ? NONE : row, freezer, stayTo, joined ?? timetable.newBatch(step, start, station, crew));
  }

  private fail(i: number): void {
    this.timetable.release(this.steps[i]!);
    this.steps[i]!.length = 0;
    this.failed[i] = 1;
    if (this.counted[i] === 0) this.cost += this.items[i]!.weight * this.failCost;
  }

  private finish(item: CompiledItem, i: number, option: number, late: boolean, exactly: boolean): Placement | null {
    const steps = this.steps[i]!;
    if (this.failed[i] === 1 || steps.length === 0) return null;
    let placement = placementOf(item, option, [...steps]);
    if (placement.tardiness > 0 && !exactly && this.tighten(item.options[option]!, steps)) placement = placementOf(item, option, [...steps]);
    if (placement.tardiness === 0) return placement;
    if (late) {
      this.countLate(i, placement.tardiness);
      return placement;
    }
    this.fail(i);
    return null;
  }

  /** Steps between a thaw and stabilisation as late as they may be, and the thaw with them: the clock stands still the longer. */
  private tighten(route: CompiledOption, steps: PlacedStep[]): boolean {
    const { freezeAt, stabilisingAt } = route;
    if (freezeAt < 0 || stabilisingAt <= freezeAt + 1 || !takesNobody(steps[freezeAt + 1]!.step)) return false;
    const { timetable } = this;
    for (let position = stabilisingAt - 1; position > freezeAt; position -= 1) {
      const placed = steps[position]!;
      const latest = Math.min(steps[position + 1]!.start - placed.step.duration, lastInHorizon(route, position));
      if (latest <= placed.start || placed.batch !== null) continue;
      if (position === freezeAt + 1) this.thawAt(steps[freezeAt]!, placed, latest);
      else {
        timetable.releaseStep(placed);
        const start = timetable.fitLatest(placed.step, placed.start + 1, latest);
        if (start !== NONE) steps[position] = placedStep(placed.step, start, placed.step.stations === null ? NONE : timetable.found, timetable.crewFor(placed.step, start), placed.step.places === null ? NONE : timetable.found, NONE, start + placed.step.duration, null);
        timetable.bookStep(steps[position]!);
      }
    }
    return true;
  }

  private thawAt(frozen: PlacedStep, thaw: PlacedStep, latest: number): void {
    const start = this.timetable.couldStayTo(frozen, latest);
    if (start <= thaw.start || !this.stay(frozen, start)) return;
    thaw.start = start;
    thaw.end = start + thaw.step.duration;
    thaw.stayTo = thaw.end;
  }

  private placeLate(): void {
    const waiting = this.items.map((item, i) => ({ item, i })).filter(({ i }) => this.placed[i] === null);
    waiting.sort((a, b) => a.item.share * b.item.weight - b.item.share * a.item.weight || a.i - b.i);
    for (const { item, i } of waiting) {
      const placement = findLatePlacement(this.timetable, item);
      if (placement !== null) this.timetable.book(placement.steps);
      this.placed[i] = placement;
    }
  }

  private weigh(): Objective {
    const { tardinessCap: cap } = this.compiled;
    let [late, tardiness, completion] = [this.lostWeight, this.lostWeight * cap, 0];
    this.items.forEach(({ weight, options }, i) => {
      const placement = this.placed[i] ?? null;
      if (placement === null || placement.tardiness > 0) late += weight;
      tardiness += weight * (placement === null ? cap : Math.min(cap, placement.tardiness));
      if (placement !== null) completion += weight * (placement.moment + options[placement.option]!.index * this.timetable.horizon);
    });
    return [late, tardiness, 0, completion];
  }
}

/** Position of a thaw that takes nobody's time: it has no turn of its own, but comes with the step after it; `NONE` without one. */
export function thawAt({ freezeAt, steps }: CompiledOption): number {
  return freezeAt >= 0 && freezeAt + 2 < steps.length && takesNobody(steps[freezeAt + 1]!) ? freezeAt + 1 : NONE;
}

/** A thaw on a shelf, say. */
export function takesNobody({ stations, crewClass, places, services }: CompiledStep): boolean {
  return stations === null && crewClass === null && places === null && services === null;
}
