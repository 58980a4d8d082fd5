/** What one kind of benchmark set has to offer the runner. */
import type { SearchBudget } from '#planning';

/** A row of a set's `expected.tsv` by column; empty where the set has none. */
export type Expected = Record<string, string>;

export interface Task {
  seed: number;
  /** Searches beside each other; 1 but for sets that the product's planner solves. */
  strands: number;
  /** Makes a fresh budget: its time starts to run with it. */
  budget: () => SearchBudget;
  /** A value at which the search may end; 0 when it has to find out by itself. */
  enough: number;
}

export interface Outcome {
  /** Recomputed by the adapter's own check from the solution alone. */
  value: number;
  /** Second objective, where the set has one; smaller is better at equal values. */
  second?: number;
  /** Rounds of the search. */
  rounds: number;
}

/** One kind of problem. `Instance` is a row of `instances.jsonl`. */
export interface Adapter<Instance> {
  /** What the value is. */
  objective: string;
  /** What a round is, for the report. */
  round: string;
  defaultBudget: { schedules: number } | { ms: number };
  /** Published or proved value to be reached, by the expected row. */
  best: (expected: Expected) => number | null;
  /** The same for the second objective, among solutions that reach the first. */
  secondBest?: (expected: Expected) => number | null;
  /** What deviations are measured from, and its name, when it is not `best`. */
  reference?: { name: string; of: (expected: Expected) => number | null };
  /** Solves one instance and checks the solution. @throws SolutionError when the check finds it wrong. */
  solve: (instance: Instance, task: Task) => Outcome | Promise<Outcome>;
}

/** A solution that breaks the rules of its problem: a fault of the planner, never reported as a result. */
export class SolutionError extends Error {}

/** @throws SolutionError unless it holds. */
export function ensure(holds: boolean, what: string): void {
  if (!holds) throw new SolutionError(what);
}
