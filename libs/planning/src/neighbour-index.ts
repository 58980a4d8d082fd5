/** Which items have a step that uses a resource at about a time: where the search looks for what is in the way of another. */
import type { Compiled, CompiledStep } from './compile.js';
import type { Placement } from './place-item.js';
import type { Dice } from './search/dice.js';
import { NONE } from './timetable.js';

/** Slots that count as about the same time. */
const SPAN_SHIFT = 4;
/** Steps of a route that are entered; a longer route is found by its first ones. */
const MOST_STEPS = 16;

/** Placed steps by resource and time. */
export class NeighbourIndex {
  private readonly buckets: number[][] = [];
  private readonly spans: number;
  private readonly at: Int32Array;

  constructor({ resources, items }: Compiled) {
    this.spans = (resources.horizon >> SPAN_SHIFT) + 1;
    this.at = new Int32Array(items.length * MOST_STEPS).fill(NONE);
  }

  add(placement: Placement): void {
    this.each(placement, (bucket, entry) => {
      const list = (this.buckets[bucket] ??= []);
      this.at[entry] = list.length;
      list.push(entry);
    });
  }

  remove(placement: Placement): void {
    this.each(placement, (bucket, entry) => {
      const list = this.buckets[bucket]!;
      const place = this.at[entry]!;
      const moved = list.pop()!;
      if (moved !== entry) {
        list[place] = moved;
        this.at[moved] = place;
      }
    });
  }

  /** Index of an item that uses what the step would use, at about a random slot of `[from, to]`; `NONE` when there is none there. */
  draw(dice: Dice, step: CompiledStep, from: number, to: number): number {
    const span = dice.between(Math.max(0, from) >> SPAN_SHIFT, Math.min(this.spans - 1, Math.max(0, to) >> SPAN_SHIFT));
    const list = this.buckets[mainRow(step) * this.spans + span];
    if (list === undefined || list.length === 0) return NONE;
    return Math.floor(list[dice.below(list.length)]! / MOST_STEPS);
  }

  private each({ item, steps }: Placement, visit: (bucket: number, entry: number) => void): void {
    const count = Math.min(steps.length, MOST_STEPS);
    for (let position = 0; position < count; position += 1) {
      const { step, start } = steps[position]!;
      visit(mainRow(step) * this.spans + (start >> SPAN_SHIFT), item * MOST_STEPS + position);
    }
  }
}

/** The row that stands for what a step uses: steps with the same needs have the same. */
function mainRow({ stations, places, freezers, crewClass }: CompiledStep): number {
  return freezers?.rows[0] ?? places?.airRows[0] ?? stations?.rows[0] ?? crewClass?.rows[0] ?? 0;
}
