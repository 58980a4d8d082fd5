/**
 * What prices say to the search: which items are cheap for what they weigh, and when the steps of each are best done. The prices are
 * those of the bound (Lagrangian relaxation of the capacities, `bound/price-bound.ts`), looked for with less effort: hands that many
 * wait for in the same hours cost more then, so that what can wait makes room for what cannot. A heuristic: the search may do otherwise,
 * and what it finds is judged as ever. Effort and blocks are our own calibration.
 */
import type { PriceCosts } from './bound/price-costs.js';
import { PriceModel } from './bound/price-bound.js';
import { PriceSearch, type SearchEffort } from './bound/price-search.js';
import { type BoundItem, boundModelUntil } from './bound/routes.js';
import type { Compiled, CompiledItem } from './compile.js';
import type { Hint } from './place-item.js';
import { Dice } from './search/dice.js';
import { NONE } from './timetable.js';
import type { PlanProblem } from './types.js';
import { type Whole, wholes } from './whole-numbers.js';

const BLOCK_MINUTES = 360;
const EFFORT: SearchEffort = { passes: 14, portions: 10, firstStep: 0.2, lastStep: 0.001, most: 600 };
/** Items looked at between two questions whether the time is over. */
const ITEMS_PER_LOOK = 64;

/** Prices applied to each item of a compiled problem. */
export class PriceGuide {
  /** Cost at the prices over weight, by index of the item; infinite for one that cannot be in time. */
  readonly dearness: Float64Array;
  /** Slots of a block of equal price. */
  readonly blockSlots: number;
  /** Position of the cheapest route among the compiled options; `NONE` without one. */
  private readonly option: Int32Array;
  /** Start of each step of that route, in step with the rows of last starts. */
  private readonly starts: Whole;

  private constructor({ items, resources }: Compiled, blockSlots: number) {
    this.blockSlots = blockSlots;
    this.dearness = new Float64Array(items.length).fill(Number.POSITIVE_INFINITY);
    this.option = new Int32Array(items.length).fill(NONE);
    this.starts = wholes(items.find(({ options }) => options.length > 0)?.options[0]!.lasts.inTime.length ?? 0, resources.horizon);
  }

  /** Looks for prices and applies them; null when `isOver` says so meanwhile, or when nothing is scarce enough to have a price. */
  static of(problem: PlanProblem, compiled: Compiled, isOver: () => boolean): PriceGuide | null {
    const model = boundModelUntil(problem, isOver);
    if (model === null) return null;
    const priced = new PriceModel(model, Math.max(1, Math.round(BLOCK_MINUTES / problem.slotMinutes)));
    const { last } = new PriceSearch(priced, new Dice(1), null).run(EFFORT, isOver);
    const prices = last.map((price) => price.map(Math.floor));
    if (prices.every((price) => price.every((each) => each === 0))) return null;
    const guide = new PriceGuide(compiled, priced.blockSlots);
    const costs = priced.costsAt(prices);
    const byId = new Map(compiled.items.map((item) => [item.id, item]));
    for (const [i, bound] of model.items.entries()) {
      if (i % ITEMS_PER_LOOK === 0 && isOver()) return null;
      guide.enter(byId.get(bound.id)!, bound, priced, costs);
    }
    return guide;
  }

  /** The cheapest way of an item, to be begun up to `ahead` slots sooner; null when it has none. */
  hint({ index }: CompiledItem, ahead: number): Hint | null {
    const option = this.option[index]!;
    return option === NONE ? null : { option, starts: this.starts, ahead };
  }

  /** Items with a cheap way for their weight first; of equal ones in the order of their index. */
  inOrder(items: readonly CompiledItem[]): CompiledItem[] {
    const { dearness } = this;
    return [...items].sort((a, b) => {
      const [first, second] = [dearness[a.index]!, dearness[b.index]!];
      return first < second ? -1 : first > second ? 1 : a.index - b.index;
    });
  }

  private enter(item: CompiledItem, { routes, options }: BoundItem, { cheapest, scale }: PriceModel, costs: PriceCosts): void {
    let best = NONE;
    let least = Number.POSITIVE_INFINITY;
    for (const [k, route] of routes.entries()) {
      const cost = cheapest.cost(route, costs, least);
      if (cost < least) [best, least] = [k, cost];
    }
    if (best === NONE) return;
    const { index, weight } = item;
    this.dearness[index] = least / scale / weight;
    const option = item.options.findIndex((one) => one.index === options[best]);
    this.option[index] = option;
    const { at } = item.options[option]!;
    // The tables hold the route that was looked at last.
    cheapest.cost(routes[best]!, costs, Number.POSITIVE_INFINITY);
    cheapest.uses(routes[best]!, costs, () => {}, (position, slot) => { this.starts[at + position] = slot; });
  }
}
