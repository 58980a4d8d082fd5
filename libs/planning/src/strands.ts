/** Several searches of one problem from different seeds: which seeds, and which of their plans is taken. */
import { compareObjectives } from './plan-state.js';
import type { Plan } from './types.js';

/** Odd, so that all multiples modulo 2^32 differ; next to 2^32 divided by the golden ratio, which strews them (after Knuth's multiplicative hashing, from memory). */
const STRIDE = 0x9e3779b1;

/**
 * The seed of a strand. The first strand has the seed itself, so that more strands are never worse than one, and no two strands of
 * a seed search alike.
 * @param seed any whole number in [-2^31, 2^31)
 * @param strand 0 for the first
 */
export function strandSeed(seed: number, strand: number): number {
  return (seed + Math.imul(strand, STRIDE)) | 0;
}

/**
 * The best of the plans of all strands, in their order; the first of equals. So it does not matter which thread was ready first. It keeps the
 * seed and the rounds of its own strand: with these two alone `buildPlan` makes it again.
 * @throws RangeError for no plan
 */
export function bestPlan(plans: readonly Plan[]): Plan {
  const [first, ...more] = plans;
  if (first === undefined) throw new RangeError('There is no plan to choose from.');
  return more.reduce((best, plan) => (compareObjectives(plan.objective, best.objective) < 0 ? plan : best), first);
}
