/** How much urgent weight any plan could save at most: several bounds, each honest by itself, and the best of them. */
import { Dice } from '../search/dice.js';
import type { PlanProblem } from '../types.js';
import { fluidBound } from './fluid-bound.js';
import { type BoundPrices, PriceModel } from './price-bound.js';
import { PriceSearch, type SearchEffort } from './price-search.js';
import { type BoundModel, boundModel } from './routes.js';

export interface BoundOptions {
  /** Passes over the items when looking for prices, and above 1 how many items are asked, in multiples of the usual number; 1 when left out, 0 for none. */
  effort?: number;
  /**
   * Prices of other bounds, tried as well. A bound that is to be compared with that of the same incident with more of something
   * should be given its prices: then it cannot come out higher.
   */
  prices?: readonly BoundPrices[];
}

/**
 * `alone`: every item that could be in time if it had everything to itself. `one-resource`: the work due by each slot must fit into
 * one resource. `prices`: all resources at once, in every slot, priced.
 */
export type BoundName = 'alone' | 'one-resource' | 'prices';

export interface SavedWeightBound {
  /** No plan has more weight in time, over the items not stabilised yet. Whole; rounded down. */
  weight: number;
  /** No plan leaves less weight late or out of the plan. */
  lateWeight: number;
  /** Which bound it is. */
  name: BoundName;
  /** All that were computed; `resource` is the scarce one where there is a single one. */
  parts: { name: BoundName; weight: number; resource: string | null }[];
  /** The prices behind `prices`; null when none were looked for. */
  prices: BoundPrices | null;
}

/**
 * Stages from coarse to fine blocks, each from the prices of the one before; step lengths, passes, portions and samples are our own
 * calibration. Few items are gone over often and the fewest down to the slot; of many a sample is asked what it would buy.
 */
type Stage = SearchEffort & { blockMinutes: number };
const MANY: readonly Stage[] = [
  { blockMinutes: 360, passes: 14, portions: 20, firstStep: 0.2, lastStep: 0.001, most: 2000 },
];
const FEW: readonly Stage[] = [
  { blockMinutes: 1440, passes: 20, portions: 5, firstStep: 0.1, lastStep: 0.02, most: Infinity },
  { blockMinutes: 360, passes: 40, portions: 5, firstStep: 0.05, lastStep: 0.002, most: Infinity },
];
const FEWEST: readonly Stage[] = [
  { blockMinutes: 360, passes: 60, portions: 1, firstStep: 0.3, lastStep: 0.02, most: Infinity },
  { blockMinutes: 60, passes: 60, portions: 1, firstStep: 0.15, lastStep: 0.005, most: Infinity },
  { blockMinutes: 1, passes: 60, portions: 1, firstStep: 0.05, lastStep: 0.001, most: Infinity },
];
const stagesFor = (items: number): readonly Stage[] => (items <= 30 ? FEWEST : items <= 300 ? FEW : MANY);

/** Entries of all tables that one search of the usual effort may fill, some seconds' worth; beyond it there are fewer passes, or no prices at all. */
const MOST_ENTRIES = 5e9;
const STEPS_PER_ROUTE = 8;
/** The cost of a kind of step that needs hands or stations is put together anew for every slot, that of an item's step is one of those. */
const ENTRIES_PER_SHAPE = 100;

/**
 * The bound for a problem that passes `checkProblem`; the same for `late: 'list'` and `'plan'`, and whatever the previous plan.
 * Valid with freezing, batches, several routes and sites; people are pooled by skill and restriction, stations by what they do.
 * The same result for the same problem and options on every machine.
 */
export function savedWeightBound(problem: PlanProblem, options: BoundOptions = {}): SavedWeightBound {
  const model = boundModel(problem);
  const alone = model.items.reduce((sum, { weight }) => sum + weight, 0);
  const parts: SavedWeightBound['parts'] = [{ name: 'alone', weight: alone, resource: null }];
  const { weight: fluid, resource } = fluidBound(model);
  parts.push({ name: 'one-resource', weight: fluid, resource });
  const priced = byPrices(model, problem.slotMinutes, options);
  if (priced !== null) parts.push({ name: 'prices', weight: priced.weight, resource: null });
  const best = parts.reduce((a, b) => (b.weight < a.weight ? b : a));
  return { weight: best.weight, lateWeight: model.urgentWeight - best.weight, name: best.name, parts, prices: priced?.prices ?? null };
}

function byPrices(model: BoundModel, slotMinutes: number, { effort = 1, prices: given = [] }: BoundOptions): { weight: number; prices: BoundPrices } | null {
  let best: { weight: number; prices: BoundPrices } | null = null;
  const keep = (priced: PriceModel, table: readonly Float64Array[]): void => {
    const weight = priced.weightAt(table);
    if (Number.isFinite(weight) && (best === null || weight < best.weight)) best = { weight, prices: priced.named(table) };
  };
  for (const prices of given) {
    const priced = new PriceModel(model, prices.blockSlots);
    keep(priced, priced.tableOf(prices));
  }
  if (effort > 0) search(model, slotMinutes, effort, keep);
  return best;
}

function search(model: BoundModel, slotMinutes: number, effort: number, keep: (priced: PriceModel, table: readonly Float64Array[]) => void): void {
  const stages = stagesFor(model.items.length);
  let before: BoundPrices | null = null;
  for (const { blockMinutes, passes, most, ...steps } of stages) {
    const sample = Math.min(model.items.length, Math.ceil(Math.max(1, effort) * most));
    const affordable = Math.floor((Math.max(1, effort) * MOST_ENTRIES) / stages.length / entriesOfPass(model, sample, steps.portions));
    const rounds = Math.min(affordable, Math.ceil(effort * passes));
    if (rounds === 0) return;
    const priced = new PriceModel(model, Math.max(1, Math.round(blockMinutes / slotMinutes)));
    const { averages, last } = new PriceSearch(priced, new Dice(1), before === null ? null : priced.tableOf(before)).run({ ...steps, passes: rounds, most: sample });
    keep(priced, averages);
    keep(priced, last);
    before = priced.named(last);
  }
}

function entriesOfPass({ slots, pools, shapes }: BoundModel, items: number, portions: number): number {
  const priced = shapes.filter(({ stations, people, services }) => stations !== null || people.length > 0 || services.length > 0).length;
  return slots * (portions * (pools.list.length + ENTRIES_PER_SHAPE * priced) + STEPS_PER_ROUTE * items) + 1;
}
