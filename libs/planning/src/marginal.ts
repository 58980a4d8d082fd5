/** What changes would save: the same search with and without them, over the same seeds and rounds. */
import { buildPlan } from './build-plan.js';
import { stabilisationOf, stepsByItem } from './explain-moment.js';
import type { Plan, PlanProblem } from './types.js';
import { changedProblem, directionOf, type Direction, type WhatIf } from './what-if.js';

/** How long to look at each plan: every problem is planned once for each seed. */
export interface MarginalBudget {
  /** At least one; several show how much of a value is the luck of the search. */
  seeds: readonly number[];
  /** Rounds of improvement of every plan. */
  iterations: number;
}

/** Least, middle and greatest over the seeds; the middle of an even number is the lower one. */
export interface Band { least: number; middle: number; greatest: number }

/** An item whose fate a change turns, with the number of seeds in which it does. */
export interface TurnedItem { itemId: string; weight: number; seeds: number }

/** What one what-if saves or costs. */
export interface MarginalValue {
  direction: Direction;
  /** Weight that is in time with it and not without it, less what is not in time any more; negative when it costs. */
  weightSaved: Band;
  /** In time with it, but not without; the greatest weight first. */
  saved: TurnedItem[];
  /** In time without it, but not with it. */
  lost: TurnedItem[];
}

/** All values beside what they are measured against. */
export interface MarginalValues {
  seeds: readonly number[];
  iterations: number;
  /** Weight not in time by the plan in force. */
  inForce: number;
  /** The same when the unchanged problem is planned anew, in the same way as the changed ones. */
  base: Band;
  values: MarginalValue[];
}

/** One plan to be made for the values: of the unchanged problem (`variant` -1) or of one with a change. */
export interface MarginalRun { variant: number; seed: number; problem: PlanProblem }

/**
 * What each what-if would save. The unchanged problem is planned anew with each seed, and only what a changed one does better
 * than that with the same seed and rounds counts, so that the gain of searching again is credited to no change. What only gives can
 * lose nothing, because the plan without it stays possible: where the search finds worse, that plan is taken; the other way round for what only
 * takes. No plan in force is touched. O(seeds x (what-ifs + 1)) plans.
 * @throws RangeError for no seed, or a change that names nothing of the problem
 */
export function marginalValues(problem: PlanProblem, plan: Plan, whatIfs: readonly WhatIf[], budget: MarginalBudget): MarginalValues {
  const plans = marginalRuns(problem, whatIfs, budget).map(({ problem: changed, seed }) => buildPlan(changed, { seed, iterations: budget.iterations }));
  return marginalValuesOf(problem, plan.objective[0], whatIfs, budget, plans);
}

/** The plans that `marginalValuesOf` needs, in its order; for callers who make them elsewhere. */
export function marginalRuns(problem: PlanProblem, whatIfs: readonly WhatIf[], { seeds }: MarginalBudget): MarginalRun[] {
  if (seeds.length === 0) throw new RangeError('At least one seed is needed.');
  return [[], ...whatIfs].flatMap((changes, i) => {
    const changed = changedProblem(problem, changes);
    return seeds.map((seed) => ({ variant: i - 1, seed, problem: changed }));
  });
}

/** The values from the plans of `marginalRuns`, in its order. */
export function marginalValuesOf(problem: PlanProblem, inForce: number, whatIfs: readonly WhatIf[], { seeds, iterations }: MarginalBudget, plans: readonly Plan[]): MarginalValues {
  const outcomes = plans.map((plan) => outcomeOf(problem, plan));
  const bases = outcomes.slice(0, seeds.length);
  return {
    seeds, iterations, inForce,
    base: bandOf(bases.map(({ lateWeight }) => lateWeight)),
    values: whatIfs.map((changes, i) => valueOf(problem, directionOf(changes), bases, outcomes.slice((i + 1) * seeds.length, (i + 2) * seeds.length))),
  };
}

/** Least, middle and greatest. @throws RangeError for no value */
export function bandOf(values: readonly number[]): Band {
  const sorted = [...values].sort((a, b) => a - b);
  if (sorted.length === 0) throw new RangeError('A band needs a value.');
  return { least: sorted[0]!, middle: sorted[Math.floor((sorted.length - 1) / 2)]!, greatest: sorted.at(-1)! };
}

interface Outcome { lateWeight: number; inTime: ReadonlySet<string> }

function valueOf(problem: PlanProblem, direction: Direction, bases: readonly Outcome[], found: readonly Outcome[]): MarginalValue {
  const pairs = bases.map((base, i) => fairPair(direction, base, found[i]!));
  const turned = (from: (pair: Pair) => Outcome, to: (pair: Pair) => Outcome): TurnedItem[] =>
    problem.items
      .map(({ id, weight }) => ({ itemId: id, weight, seeds: pairs.filter((pair) => !from(pair).inTime.has(id) && to(pair).inTime.has(id)).length }))
      .filter(({ seeds }) => seeds > 0)
      .sort((a, b) => b.weight - a.weight || b.seeds - a.seeds || (a.itemId < b.itemId ? -1 : 1));
  return {
    direction,
    weightSaved: bandOf(pairs.map(({ base, changed }) => base.lateWeight - changed.lateWeight)),
    saved: turned(({ base }) => base, ({ changed }) => changed),
    lost: turned(({ changed }) => changed, ({ base }) => base),
  };
}

interface Pair { base: Outcome; changed: Outcome }

/** A plan of the poorer problem is one of the richer, too. */
function fairPair(direction: Direction, base: Outcome, changed: Outcome): Pair {
  if (direction === 'gives' && changed.lateWeight > base.lateWeight) return { base, changed: base };
  if (direction === 'takes' && changed.lateWeight < base.lateWeight) return { base: changed, changed };
  return { base, changed };
}

function outcomeOf(problem: PlanProblem, plan: Plan): Outcome {
  const inTime = inTimeItems(problem, plan);
  return { inTime, lateWeight: problem.items.reduce((sum, { id, weight, stabilised }) => sum + (stabilised || inTime.has(id) ? 0 : weight), 0) };
}

/** Ids of the items that are not stabilised yet and will be in time: at the moment of their first stabilising step, with the slots frozen before it. */
export function inTimeItems(problem: PlanProblem, plan: Plan): Set<string> {
  const steps = stepsByItem(plan.assignments);
  const found = new Set<string>();
  for (const item of problem.items) {
    const safe = item.stabilised ? null : stabilisationOf(item, steps.get(item.id) ?? []);
    if (safe !== null && safe.moment <= item.deadlineSlot + safe.frozenSlots) found.add(item.id);
  }
  return found;
}
