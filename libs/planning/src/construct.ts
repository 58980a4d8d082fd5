/** First plans: items offered in an order, each taken if it can be in time, else passed over. */
import { type Compiled, type CompiledItem, rejectionKey, windowOf } from './compile.js';
import { compareObjectives, PlanState } from './plan-state.js';

/**
 * Orders in which the items are offered, smaller keys first; the best plan counts. Our own calibration: on synthetic incidents
 * of seven regimes the first is best or next to it, and those after it win where little or something else is scarce. Square
 * roots, products and quotients are exact to the last bit by IEEE 754, so each order is the same on every machine.
 */
const ORDERS: readonly ((item: CompiledItem) => number)[] = [
  (item) => perWeight(item, Math.sqrt(windowOf(item)) * Math.sqrt(item.share / item.weight)),
  (item) => item.deadline,
  (item) => perWeight(item, windowOf(item) * fourthRoot(item.share / item.weight)),
  (item) => perWeight(item, Math.sqrt(windowOf(item)) * (item.share / item.weight)),
  (item) => perWeight(item, windowOf(item) / item.weight),
  (item) => rejectionKey(windowOf(item), item.share, item.weight),
  (item) => perWeight(item, Math.sqrt(windowOf(item)) * fourthRoot(item.share / item.weight)),
  (item) => perWeight(item, windowOf(item) * (item.share / item.weight)),
  (item) => perWeight(item, item.share / item.weight),
  (item) => perWeight(item, 1 / item.weight),
];

/** Items from which on fewer orders are tried, so that a first plan of tens of thousands of items takes seconds. */
const MANY_ITEMS = 4_000;
const ORDERS_OF_MANY = 5;

/** How many orders are tried where nobody says. */
export function usualOrders(items: number): number {
  return items < MANY_ITEMS ? ORDERS.length : ORDERS_OF_MANY;
}

/**
 * The best of the first plans of the first `orders` orders. `start` gives a state to begin from, made of one that is not needed any
 * more if there is one, and marks what must stay as it is; `learn` is shown the first of the plans.
 */
export function bestFirstPlan(compiled: Compiled, orders: number, start: (used: PlanState | null) => PlanState, held: Uint8Array, learn: (first: PlanState) => void): PlanState {
  let best: PlanState | null = null;
  let spare: PlanState | null = null;
  for (const order of ORDERS.slice(0, Math.max(1, orders))) {
    const state = start(spare);
    offerAll(state, inOrder(compiled.items.filter((item) => item.urgent && !state.isGivenUp(item) && held[item.index] === 0), order));
    if (best === null) learn(state);
    const isBetter: boolean = best === null || compareObjectives(state.objective, best.objective) < 0;
    spare = isBetter ? best : state;
    if (isBetter) best = state;
  }
  return best!;
}

/** Offers what has no place yet, in the usual order; in the late mode what cannot be in time gets a late place afterwards. */
export function offerAll(state: PlanState, items: readonly CompiledItem[]): void {
  const passedOver = items.filter((item) => !state.plan.has(item.index) && !state.offer(item));
  if (state.compiled.planLate) offerLate(state, passedOver);
}

/** What cannot be in time, by weight per share of the resources. */
export function offerLate(state: PlanState, items: readonly CompiledItem[]): void {
  for (const item of inOrder([...items], (one) => perWeight(one, one.share / one.weight))) if (!state.plan.has(item.index)) state.offerLate(item);
}

/** By key, then by id; what a coordinator wants first goes before all others. */
export function inOrder(items: CompiledItem[], keyOf: (item: CompiledItem) => number = ORDERS[0]!): CompiledItem[] {
  const keys = new Float64Array(items.reduce((most, { index }) => Math.max(most, index + 1), 0));
  for (const item of items) keys[item.index] = keyOf(item);
  return items.sort((a, b) => Number(b.first) - Number(a.first) || compare(keys[a.index]!, keys[b.index]!) || a.index - b.index);
}

function perWeight(item: CompiledItem, key: number): number {
  return item.weight === 0 ? Number.POSITIVE_INFINITY : key;
}

function fourthRoot(value: number): number {
  return Math.sqrt(Math.sqrt(value));
}

function compare(a: number, b: number): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
