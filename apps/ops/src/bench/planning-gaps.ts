/** How much less a plan saves than the bound says could be saved at most. Part of the gap belongs to the bound. */
import { buildPlan, type PlanProblem, savedWeightBound } from '#planning';
import { generateIncident, type PresetName } from '#testing/salvage';
import type { PlanningBenchOptions } from './planning-options.js';

const PLAN_SEED = 1;

/** One line for the bound and one for each time; every time is a run of its own, on this process's processor time. */
export function* gapLines(preset: PresetName, seed: number, { items, seconds }: PlanningBenchOptions): Generator<string> {
  const { problem } = generateIncident({ preset, items, seed });
  const weight = urgentWeight(problem);
  const beganMs = cpuMs();
  const bound = savedWeightBound(problem);
  const tookMs = cpuMs() - beganMs;
  yield `${preset}, ${items} items, seed ${seed}: at most ${percent(bound.weight, weight)} % of the weight can be in time (bound "${bound.name}", ${(tookMs / 1_000).toFixed(1)} s)`;
  for (const limit of seconds) {
    const plan = buildPlan(problem, { seed: PLAN_SEED, milliseconds: 1_000 * limit, nowMs: cpuMs });
    const saved = weight - plan.objective[0];
    yield `  after ${limit} s: ${percent(saved, weight)} % in time, gap ${percent(bound.weight - saved, bound.weight)} % of the bound (${plan.iterations} rounds)`;
  }
}

function urgentWeight({ items }: PlanProblem): number {
  return items.reduce((sum, { stabilised, weight }) => sum + (stabilised ? 0 : weight), 0);
}

function cpuMs(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1_000;
}

function percent(part: number, whole: number): string {
  return (whole === 0 ? 0 : (100 * part) / whole).toFixed(2);
}
