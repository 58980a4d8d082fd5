/**
 * The bound by prices (Lagrangian relaxation of the capacities): every pool gets a price per slot, every item buys its cheapest
 * way to be in time if that costs less than its weight, and what the capacity earns plus what the items gain is at least the
 * weight of any plan, whatever the prices. So the prices need not be good ones; better ones give a lower bound.
 *
 * Rounding: prices are whole multiples of 1/scale, so sums are exact as long as they stay below 2^53; the scale keeps the weight
 * of all items below 2^50, and a cost above that only ever means that the item does not buy.
 */
import { PriceCosts } from './price-costs.js';
import { CheapestRoute } from './price-route.js';
import type { BoundItem, BoundModel, RouteStep } from './routes.js';

/** Prices of one unit of each pool per slot, the same throughout a block of slots, in parts of a unit of weight. */
export interface BoundPrices { blockSlots: number; scale: number; ofPool: Record<string, number[]> }

const MOST_EXACT = 2 ** 50;
const MOST_SCALE = 2 ** 32;

/** What an item buys: its route and what it pays for it. */
export interface Purchase { route: readonly RouteStep[]; cost: number }

/** The pools by block, and what the items gain at given prices. */
export class PriceModel {
  /** Parts of a unit of weight in which prices are counted. */
  readonly scale: number;
  readonly blocks: number;
  /** Capacity per pool and block. */
  readonly room: Float64Array[];
  readonly cheapest: CheapestRoute;

  constructor(readonly model: BoundModel, readonly blockSlots: number) {
    let scale = MOST_SCALE;
    while (scale > 1 && scale * model.urgentWeight > MOST_EXACT) scale /= 2;
    this.scale = scale;
    this.blocks = Math.ceil(model.slots / blockSlots);
    this.room = this.table();
    model.pools.list.forEach(({ capacity }, pool) => {
      const sums = this.room[pool]!;
      capacity.forEach((amount, slot) => { const block = Math.floor(slot / blockSlots); sums[block] = sums[block]! + amount; });
    });
    this.cheapest = new CheapestRoute(model);
  }

  /** One number per pool and block. */
  table(): Float64Array[] {
    return this.model.pools.list.map(() => new Float64Array(this.blocks));
  }

  /** The same prices by name of the pool. */
  named(prices: readonly Float64Array[]): BoundPrices {
    const ofPool = Object.fromEntries(this.model.pools.list.map(({ name }, pool) => [name, [...prices[pool]!].map(Math.floor)]));
    return { blockSlots: this.blockSlots, scale: this.scale, ofPool };
  }

  /** Prices of another set of blocks or another problem; what has no price there costs nothing. */
  tableOf({ blockSlots, scale, ofPool }: BoundPrices): Float64Array[] {
    return this.model.pools.list.map(({ name }) => {
      const prices = ofPool[name] ?? [];
      return Float64Array.from({ length: this.blocks }, (_, block) => Math.floor(((prices[Math.floor((block * this.blockSlots) / blockSlots)] ?? 0) / scale) * this.scale));
    });
  }

  /** Weight that no plan exceeds, at these prices rounded down; infinite when they are too high to be counted with. */
  weightAt(prices: readonly Float64Array[]): number {
    const whole = prices.map((price) => price.map(Math.floor));
    let total = 0;
    whole.forEach((price, pool) => price.forEach((each, block) => { total += each * this.room[pool]![block]!; }));
    const costs = this.costsAt(whole);
    if (total > MOST_EXACT || costs.upTo.some((sum) => sum[sum.length - 1]! > MOST_EXACT)) return Infinity;
    for (const item of this.model.items) {
      const purchase = this.purchase(item, costs);
      if (purchase !== null) total += item.weight * this.scale - purchase.cost;
    }
    return Math.floor(total / this.scale);
  }

  /** The cheapest way of an item to be in time; null when it costs as much as the item weighs. Its uses may be asked for until the next call. */
  purchase(item: BoundItem, costs: PriceCosts): Purchase | null {
    let cost = item.weight * this.scale;
    let best: readonly RouteStep[] | null = null;
    let last: readonly RouteStep[] | null = null;
    for (const route of item.routes) {
      const next = this.cheapest.cost(route, costs, cost);
      last = route;
      if (next < cost) { cost = next; best = route; }
    }
    if (best === null) return null;
    // The tables hold the route that was looked at last.
    if (best !== last) this.cheapest.cost(best, costs, Infinity);
    return { route: best, cost };
  }

  /** Costs of all steps at prices per block. */
  costsAt(prices: readonly Float64Array[]): PriceCosts {
    return new PriceCosts(this.model, prices, this.blockSlots);
  }
}
