/**
 * Placements of all items in rows of whole numbers. A plan of tens of thousands of items has hundreds of thousands of placed steps;
 * as objects, several plans of them would take most of the memory of a planner, though one item is looked at at a time.
 */
import type { Batch } from './batches.js';
import type { Compiled, CompiledStep } from './compile.js';
import { placementOf, type Placement } from './place-item.js';
import { alike, NOBODY, NONE, placedStep, type PlacedStep } from './timetable.js';
import { type Whole, wholes } from './whole-numbers.js';

/** A crew that is not of one pool. */
const MIXED = -2;

/** A stay in a freezer. */
interface Stay { freezer: number; stayTo: number }

/** Placements by item index; what is read is put together anew each time. */
export class PackedPlan {
  /** Route of each item, by its place among its compiled options; `NONE` for an item without a place. */
  private readonly option: Int32Array;
  /** Which placement it is: a number that no other one gets. */
  private readonly stamp: Int32Array;
  /** First entry of each item; it has one for each step of its longest route. */
  private readonly first: Int32Array;
  private readonly start: Whole;
  /** Station, or drying place; no step has both. */
  private readonly row: Whole;
  private readonly crew: Whole;
  /** What few steps have, by entry. */
  private readonly crews = new Map<number, readonly number[]>();
  private readonly stays = new Map<number, Stay>();
  private readonly batches = new Map<number, Batch>();

  constructor(private readonly compiled: Pick<Compiled, 'items' | 'resources'>) {
    const { items, resources } = compiled;
    this.first = new Int32Array(items.length + 1);
    items.forEach(({ options }, i) => { this.first[i + 1] = this.first[i]! + options.reduce((most, { steps }) => Math.max(most, steps.length), 0); });
    const entries = this.first[items.length]!;
    this.option = new Int32Array(items.length).fill(NONE);
    this.stamp = new Int32Array(items.length);
    this.start = wholes(entries, resources.horizon);
    this.row = wholes(entries, resources.free.rows);
    this.crew = wholes(entries, resources.free.rows);
  }

  has(item: number): boolean {
    return this.option[item] !== NONE;
  }

  /** Route of an item among its compiled options; `NONE` without a place. */
  optionOf(item: number): number {
    return this.option[item]!;
  }

  /** Whether the item has the same placement in both, or none. */
  agrees(other: PackedPlan, item: number): boolean {
    return this.option[item] === other.option[item] && (!this.has(item) || this.stamp[item] === other.stamp[item]);
  }

  /** Where the item is; null when it has no place. */
  get(item: number): Placement | null {
    if (!this.has(item)) return null;
    const option = this.option[item]!;
    const { steps } = this.compiled.items[item]!.options[option]!;
    const placed: PlacedStep[] = [];
    for (let position = 0; position < steps.length; position += 1) placed.push(this.step(this.first[item]! + position, steps[position]!));
    return placementOf(this.compiled.items[item]!, option, placed, this.stamp[item]);
  }

  private step(entry: number, step: CompiledStep): PlacedStep {
    const { stays, batches } = this;
    const start = this.start[entry]!;
    const crew = this.crew[entry]!;
    const row = this.row[entry]!;
    const stay = step.freezers !== null ? stays.get(entry) : undefined;
    const people = crew === NONE ? NOBODY : crew === MIXED ? this.crews.get(entry)! : alike(crew, step.crew);
    const batch = step.batch === null ? null : (batches.get(entry) ?? null);
    return placedStep(step, start, step.stations === null ? NONE : row, people, step.places === null ? NONE : row, stay?.freezer ?? NONE, stay?.stayTo ?? start + step.duration, batch);
  }

  /** Enters a placement of an item that has none. */
  set({ item, option, steps, stamp }: Placement): void {
    this.option[item] = option;
    this.stamp[item] = stamp;
    for (let position = 0; position < steps.length; position += 1) this.enter(this.first[item]! + position, steps[position]!);
  }

  private enter(entry: number, { step, start, station, crew, place, freezer, stayTo, batch }: PlacedStep): void {
    this.start[entry] = start;
    this.row[entry] = step.places === null ? station : place;
    const isOfOnePool = crew.length === step.crew && crew.every((pool) => pool === crew[0]);
    this.crew[entry] = crew.length === 0 ? NONE : isOfOnePool ? crew[0]! : MIXED;
    if (crew.length > 0 && !isOfOnePool) this.crews.set(entry, crew);
    if (step.freezers !== null) this.stays.set(entry, { freezer, stayTo });
    if (batch !== null) this.batches.set(entry, batch);
  }

  /** Takes the placement of an item out. */
  delete(item: number): void {
    this.option[item] = NONE;
    if (this.crews.size + this.stays.size + this.batches.size === 0) return;
    for (let entry = this.first[item]!; entry < this.first[item + 1]!; entry += 1) {
      this.crews.delete(entry);
      this.stays.delete(entry);
      this.batches.delete(entry);
    }
  }

  /** Takes over where another plan has the item. */
  take(other: PackedPlan, item: number): void {
    if (this.agrees(other, item)) return;
    if (this.has(item)) this.delete(item);
    const placement = other.get(item);
    if (placement !== null) this.set(placement);
  }

  clear(): void {
    this.option.fill(NONE);
    this.crews.clear();
    this.stays.clear();
    this.batches.clear();
  }

  /** All placements by item index. */
  all(): (Placement | null)[] {
    return this.compiled.items.map(({ index }) => this.get(index));
  }

  copy(): PackedPlan {
    const copy = new PackedPlan(this.compiled);
    for (const name of ['option', 'stamp', 'start', 'row', 'crew'] as const) copy[name].set(this[name]);
    this.crews.forEach((crew, entry) => copy.crews.set(entry, crew));
    this.stays.forEach((stay, entry) => copy.stays.set(entry, stay));
    this.batches.forEach((batch, entry) => copy.batches.set(entry, batch));
    return copy;
  }

  /** Placed steps of all items. */
  countSteps(): number {
    return this.compiled.items.reduce((sum, { options }, item) => sum + (this.has(item) ? options[this.option[item]!]!.steps.length : 0), 0);
  }

  /** Calls with every placed step, by start, then item, then position. O(steps + slots). */
  eachByStart(slots: number, visit: (item: number, option: number, position: number, placed: PlacedStep) => void): void {
    const { first, option, compiled: { items } } = this;
    const inTurn = this.entriesByStart(slots);
    const itemOf = new Int32Array(this.start.length);
    items.forEach((_, item) => itemOf.fill(item, first[item], first[item + 1]));
    for (const entry of inTurn) {
      const item = itemOf[entry]!;
      const position = entry - first[item]!;
      const { steps } = items[item]!.options[option[item]!]!;
      visit(item, option[item]!, position, this.step(entry, steps[position]!));
    }
  }

  /** Counted, not compared: starts are slots. */
  private entriesByStart(slots: number): Int32Array {
    const { first, option, start, compiled: { items } } = this;
    const places = new Int32Array(slots + 2);
    const each = (visit: (entry: number) => void): void => items.forEach(({ options }, item) => {
      const length = option[item] === NONE ? 0 : options[option[item]!]!.steps.length;
      for (let entry = first[item]!; entry < first[item]! + length; entry += 1) visit(entry);
    });
    each((entry) => { places[start[entry]! + 1] = places[start[entry]! + 1]! + 1; });
    for (let slot = 0; slot <= slots; slot += 1) places[slot + 1] = places[slot + 1]! + places[slot]!;
    const inTurn = new Int32Array(places[slots + 1]!);
    each((entry) => {
      inTurn[places[start[entry]!]!] = entry;
      places[start[entry]!] = places[start[entry]!]! + 1;
    });
    return inTurn;
  }
}
