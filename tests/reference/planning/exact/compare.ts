/** One tiny incident: what is proved, what the planner saves in a fixed number of rounds, and what the bound says. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { buildPlan, type PlanProblem, savedWeightBound } from '#planning';
import { type ExactPlan, exactPlan } from './exact-plan.js';
import type { Cost } from './placements.js';

export const INCIDENTS = 200;
const ROUNDS = 500;
const MOST_NODES = 300_000;
const FILE = resolve(process.cwd(), 'tests/reference/planning/exact/optima.tsv');

/** What was proved about the incident of a seed; tardiness and completion are null where the search for them was not finished. */
export interface Optimum { seed: number; late: number; tardiness: number | null; completion: number | null; nodes: number }

/** The optima that `start.mjs` wrote. */
export function readOptima(): Optimum[] {
  const rows = readFileSync(FILE, 'utf8').trim().split('\n').slice(1).map((line) => line.split('\t'));
  const maybe = (text: string): number | null => (text === '-' ? null : Number(text));
  return rows.map(([seed, late, tardiness, completion, nodes]) => ({ seed: Number(seed), late: Number(late), tardiness: maybe(tardiness!), completion: maybe(completion!), nodes: Number(nodes) }));
}

/** Proves the least weight late first, then the whole tuple as far as it comes. Throws when not even the weight can be proved. */
export function prove(problem: PlanProblem): { late: number; full: ExactPlan; nodes: number } {
  const weight = exactPlan(problem, { parts: 1, mostNodes: MOST_NODES });
  if (!weight.proved) throw new Error('The incident is too large to be searched whole.');
  return { late: weight.cost[0], full: exactPlan(problem, { parts: 3, mostNodes: MOST_NODES }), nodes: weight.nodes };
}

export interface Comparison { urgent: number; planned: Cost; bound: number; plan: ReturnType<typeof buildPlan> }

export function compare(problem: PlanProblem): Comparison {
  const urgent = problem.items.reduce((sum, { weight, stabilised }) => sum + (stabilised ? 0 : weight), 0);
  const plan = buildPlan(problem, { seed: 1, iterations: ROUNDS });
  const [late, tardiness, , completion] = plan.objective;
  return { urgent, planned: [late, tardiness, completion], bound: savedWeightBound(problem).weight, plan };
}

/** Whether a coordinator's wish goes before weight, so that a plan may save less than it could. */
export function hasWishes(problem: PlanProblem): boolean {
  return problem.items.some(({ first, pinned }) => first === true || pinned !== undefined);
}
