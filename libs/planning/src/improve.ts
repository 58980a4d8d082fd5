/** The two searches that make a plan better, and how they share the budget. */
import { ItemSearch } from './item-search.js';
import { compareObjectives, type PlanState } from './plan-state.js';
import type { PriceGuide } from './price-guide.js';
import { Dice } from './search/dice.js';
import { Rounds, type SearchBudget } from './search/budget.js';
import { MOST_SEQUENCE_STEPS, SequenceSearch } from './sequence-search.js';
import { settle } from './settle.js';

/** Rounds between two reports of progress. */
const ROUNDS_PER_REPORT = 256;
/** One round in this many searches step by step where that is done: more where lateness counts and not only what is late. */
const SEQUENCE_SHARE = { late: 3, list: 5 };
/** Rounds between two looks of one search at the other's best plan. */
const ROUNDS_PER_EXCHANGE = 1_024;

/**
 * Rounds after which prices are looked for, where there are many items: by then that costs no more time than the rounds before it.
 * Our own calibration.
 */
const ROUNDS_BEFORE_PRICES = 4_096;
const LOOK = 64;

/** What a search may be told. */
export interface ImproveOptions {
  seed: number;
  budget: SearchBudget;
  /** Items, by index, that stay where they are. */
  held: Uint8Array;
  /** Looks for prices until it is over. */
  price: (isOver: () => boolean) => PriceGuide | null;
  onProgress?: ((rounds: number) => void) | undefined;
}

/**
 * Searches on the urgent items until the budget is spent and leaves the best plan seen in `state`; answers the rounds spent.
 * The first rounds of a longer run are those of a shorter one, so more rounds never give a worse objective, moments aside. In a small incident
 * with nothing held some rounds search step by step.
 */
export function improve(state: PlanState, options: ImproveOptions): number {
  const search = new ItemSearch(state, options);
  const steps = sequenceSearch(state, options, search);
  const share = state.compiled.planLate ? SEQUENCE_SHARE.late : SEQUENCE_SHARE.list;
  const rounds = new Rounds(options.budget);
  const priceAfter = search.size === 'few' ? Number.POSITIVE_INFINITY : LOOK * Math.ceil(Math.max(ROUNDS_BEFORE_PRICES, search.pool.length) / LOOK);
  while (!search.isDone) {
    // Nothing may come of prices unless a further round begins: a run that ends here is that of the rounds it reports.
    const guide = rounds.spent === priceAfter && !rounds.isOver() ? options.price(() => rounds.isOver()) : null;
    if (!rounds.next()) break;
    if (guide !== null) search.follow(guide);
    if (steps !== null && rounds.spent % share === 0) steps.round();
    else search.round();
    if (steps !== null && rounds.spent % ROUNDS_PER_EXCHANGE === 0) exchange(search, steps);
    if (rounds.spent % ROUNDS_PER_REPORT === 0) options.onProgress?.(rounds.spent);
  }
  if (steps !== null) search.adopt(steps.best);
  search.restoreBest();
  if (search.guide !== null) settle(state, search.pool);
  return rounds.spent;
}

/** The search step by step, where the incident is small and nothing must stay as it is. */
function sequenceSearch({ compiled, plan, objective }: PlanState, { seed, held }: ImproveOptions, { pool }: ItemSearch): SequenceSearch | null {
  const count = pool.reduce((sum, { options }) => sum + Math.max(...options.map(({ steps }) => steps.length)), 0);
  if (pool.length === 0 || count > MOST_SEQUENCE_STEPS || held.includes(1) || compiled.items.some(({ dropCost }) => dropCost > 0)) return null;
  if (compiled.items.some((item) => plan.has(item.index) && !pool.includes(item))) return null;
  return new SequenceSearch(compiled, pool, new Dice(~seed), { objective, placed: plan.all() });
}

/** Each search goes on from the better plan of the other. */
function exchange(search: ItemSearch, steps: SequenceSearch): void {
  const order = compareObjectives(steps.best.objective, search.bestObjective);
  if (order < 0) search.adopt(steps.best);
  if (order > 0) steps.adopt(search.best);
}
