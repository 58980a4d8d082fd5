/**
 * Looks for prices that give a low bound. What every item of a sample bought last is kept; portion by portion the items buy anew at
 * the prices of the day, and each price rises or falls with how much all of them together want more or less than there is, in
 * steps that get shorter. So a step sees the whole sample at the cost of a portion. Any prices give a valid bound: the search may
 * stop anywhere, and a sample is enough. Step lengths, portions, passes and samples are our own calibration.
 */
import type { Dice } from '../search/dice.js';
import type { PriceModel } from './price-bound.js';
import type { PriceCosts } from './price-costs.js';
import type { RouteStep } from './routes.js';

/** `most`: items in the sample; all when there are no more. */
export interface SearchEffort { passes: number; portions: number; firstStep: number; lastStep: number; most: number }

interface Bought { at: readonly number[]; amounts: readonly number[] }

const NOTHING: Bought = { at: [], amounts: [] };
/** Steps per pass: how far the lasting part of a price follows what all want, summed over the portions of a pass. */
const FOLLOW = 3;
/** Part of the longest stay in the freezer by which its volume is measured. */
const USUAL_STAY = 0.25;

/** Prices that move. */
export class PriceSearch {
  private readonly prices: Float64Array[];
  /** What lasts of the prices; the rest is the answer to what is wanted just now. */
  private readonly lasting: Float64Array[];
  private readonly sums: Float64Array[];
  private readonly used: Float64Array[];
  private readonly bought: Bought[];
  /** Weight per unit of the pool over the items that may use it: the measure of a step. */
  private readonly worth: Float64Array;
  private averaged = 0;

  constructor(private readonly priced: PriceModel, private readonly dice: Dice, start: Float64Array[] | null) {
    this.prices = start ?? priced.table();
    this.lasting = this.prices.map((price) => price.slice());
    this.sums = priced.table();
    this.used = priced.table();
    this.bought = priced.model.items.map(() => NOTHING);
    this.worth = worths(priced);
  }

  /** Runs the passes, or those until `isOver` says so; the averaged prices of the last half, and the last ones. */
  run({ passes, portions, firstStep, lastStep, most }: SearchEffort, isOver: () => boolean = () => false): { averages: Float64Array[]; last: Float64Array[] } {
    const sample = this.sample(most);
    const steps = passes * portions;
    for (let step = 0; step < steps && !isOver(); step += 1) {
      const portion = step % portions;
      if (portion === 0) this.dice.shuffle(sample);
      const from = Math.floor((portion * sample.length) / portions);
      const to = Math.floor(((portion + 1) * sample.length) / portions);
      const costs = this.priced.costsAt(this.prices);
      for (let k = from; k < to; k += 1) this.buyAnew(sample[k]!, costs);
      // Until all have bought once, the others are taken to want as much.
      const seen = (step < portions ? to : sample.length) / this.bought.length;
      if (seen > 0) this.move(firstStep + ((lastStep - firstStep) * step) / steps, seen, Math.min(1, FOLLOW / portions));
      if (step * 2 >= steps) this.average();
      // There is enough of everything for all when not one price has risen over a whole pass.
      if (step === portions - 1 && this.prices.every((price) => price.every((each) => each === 0))) break;
    }
    return { averages: this.sums.map((sum) => sum.map((total) => total / Math.max(1, this.averaged))), last: this.prices };
  }

  private sample(most: number): Int32Array {
    const all = Int32Array.from(this.bought, (_, k) => k);
    if (most < all.length) this.dice.shuffle(all);
    return all.subarray(0, most);
  }

  private move(length: number, seen: number, follow: number): void {
    const { room } = this.priced;
    this.prices.forEach((price, pool) => {
      const lasting = this.lasting[pool]!;
      for (let block = 0; block < price.length; block += 1) {
        const there = room[pool]![block]!;
        if (there === 0) continue;
        const excess = Math.min(2, this.used[pool]![block]! / seen / there - 1);
        price[block] = Math.max(0, lasting[block]! + length * this.worth[pool]! * excess);
        lasting[block] = lasting[block]! + follow * (price[block]! - lasting[block]!);
      }
    });
  }

  private buyAnew(index: number, costs: PriceCosts): void {
    this.count(this.bought[index]!, -1);
    const bought = this.buy(index, costs);
    this.bought[index] = bought;
    this.count(bought, 1);
  }

  private buy(index: number, costs: PriceCosts): Bought {
    const purchase = this.priced.purchase(this.priced.model.items[index]!, costs);
    if (purchase === null) return NOTHING;
    const { blockSlots, blocks } = this.priced;
    const at: number[] = [];
    const amounts: number[] = [];
    this.priced.cheapest.uses(purchase.route, costs, (pool, from, to, amount) => {
      for (let slot = from; slot < to;) {
        const block = Math.floor(slot / blockSlots);
        const next = Math.min(to, (block + 1) * blockSlots);
        at.push(pool * blocks + block);
        amounts.push(amount * (next - slot));
        slot = next;
      }
    });
    return { at, amounts };
  }

  private count({ at, amounts }: Bought, sign: 1 | -1): void {
    const { blocks } = this.priced;
    for (let k = 0; k < at.length; k += 1) {
      const uses = this.used[Math.floor(at[k]! / blocks)]!;
      const block = at[k]! % blocks;
      uses[block] = uses[block]! + sign * amounts[k]!;
    }
  }

  private average(): void {
    this.averaged += 1;
    this.sums.forEach((sum, pool) => { for (let block = 0; block < sum.length; block += 1) sum[block] = sum[block]! + this.prices[pool]![block]!; });
  }
}

/** The weight of the items that may use a pool, by any route, over what they would use of it at no price at all. */
function worths(priced: PriceModel): Float64Array {
  const { model, scale } = priced;
  const weight = new Float64Array(priced.room.length);
  const amounts = new Float64Array(priced.room.length);
  const costs = priced.costsAt(priced.table());
  for (const item of model.items) {
    const wanted = new Map<number, number>();
    for (const route of item.routes) for (const [pool, amount] of amountsOf(priced, route, costs)) if (!wanted.has(pool)) wanted.set(pool, amount);
    for (const [pool, amount] of wanted) {
      amounts[pool] = amounts[pool]! + amount;
      weight[pool] = weight[pool]! + item.weight * scale;
    }
  }
  return weight.map((sum, pool) => (amounts[pool]! > 0 ? sum / amounts[pool]! : 0));
}

/** What a route uses of each pool. At no price a stay in the freezer is the shortest that helps, so it is measured by the longest one. */
function amountsOf({ model, cheapest }: PriceModel, route: readonly RouteStep[], costs: PriceCosts): Map<number, number> {
  const amounts = new Map<number, number>();
  // No way through although every step has its slots: no freezer is there as long as it would have to lie in it.
  if (cheapest.cost(route, costs, Infinity) === Infinity) return amounts;
  cheapest.uses(route, costs, (pool, from, to, amount) => { if (to > from) amounts.set(pool, (amounts.get(pool) ?? 0) + amount * (to - from)); });
  route.forEach(({ freezing, from }, position) => {
    if (freezing === null) return;
    const longest = (route[position + 1]?.to ?? model.slots) - from;
    amounts.set(freezing.pool, Math.max(freezing.leastSlots, longest * USUAL_STAY) * freezing.volumeCl);
  });
  return amounts;
}
