/** What would have to change for one item to be in time: tried, not guessed. */
import { buildPlan } from './build-plan.js';
import { inTimeItems, marginalRuns, type MarginalBudget } from './marginal.js';
import type { Plan, PlanProblem } from './types.js';
import type { WhatIf } from './what-if.js';

/** What was found for one item. */
export interface HelpForItem {
  /** Seeds in which it is in time when nothing is changed but the plan is made anew. */
  unchangedSeeds: number;
  /** For each what-if, the seeds in which it is in time. */
  changedSeeds: number[];
  /** The first what-if with which it is in time for every seed; null when there is none, or when none is needed. */
  smallest: number | null;
}

/**
 * Plans with each what-if, the smallest first as the caller orders them, and says which is the first that gets the item in for every
 * seed. O(seeds x (what-ifs + 1)) plans.
 * @throws RangeError when the item is not part of the problem
 */
export function helpForItem(problem: PlanProblem, itemId: string, whatIfs: readonly WhatIf[], budget: MarginalBudget): HelpForItem {
  const plans = marginalRuns(problem, whatIfs, budget).map(({ problem: changed, seed }) => buildPlan(changed, { seed, iterations: budget.iterations }));
  return helpForItemOf(problem, itemId, whatIfs.length, budget, plans);
}

/** The same from the plans of `marginalRuns`, in its order. */
export function helpForItemOf(problem: PlanProblem, itemId: string, whatIfs: number, { seeds }: MarginalBudget, plans: readonly Plan[]): HelpForItem {
  if (!problem.items.some(({ id }) => id === itemId)) throw new RangeError(`Item ${itemId} is not part of this problem.`);
  const inTime = plans.map((plan) => (inTimeItems(problem, plan).has(itemId) ? 1 : 0));
  const seedsOf = (run: number): number => inTime.slice(run * seeds.length, (run + 1) * seeds.length).reduce<number>((sum, one) => sum + one, 0);
  const changedSeeds = Array.from({ length: whatIfs }, (_, i) => seedsOf(i + 1));
  const unchangedSeeds = seedsOf(0);
  const first = unchangedSeeds === seeds.length ? -1 : changedSeeds.indexOf(seeds.length);
  return { unchangedSeeds, changedSeeds, smallest: first < 0 ? null : first };
}
