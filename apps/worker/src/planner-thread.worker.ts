/** The planner's thread: one problem in, one answer out. */
import { parentPort, workerData } from 'node:worker_threads';
import { buildPlan, MalformedPlanProblem, type PlanBudget } from '#planning';
import type { ThreadAnswer, ThreadProgress, ThreadSearch, ThreadTask } from './ask-thread.js';

function tell(rounds: number): void {
  parentPort?.postMessage({ rounds } satisfies ThreadProgress, []);
}

function budgetOf({ seed, orders, iterations, milliseconds }: ThreadSearch): PlanBudget {
  const common = { seed, onProgress: tell, ...(orders !== undefined && { orders }) };
  if (milliseconds === undefined) return { ...common, iterations: iterations ?? 0 };
  return { ...common, milliseconds, nowMs: () => performance.now(), ...(iterations !== undefined && { mostIterations: iterations }) };
}

function answer({ problem, search }: ThreadTask): ThreadAnswer {
  try {
    return { plan: buildPlan(problem, budgetOf(search)) };
  } catch (error) {
    if (error instanceof MalformedPlanProblem) return { faults: error.faults };
    return { error: error instanceof Error ? error.message : String(error) };
  }
}

parentPort?.postMessage(answer(workerData as ThreadTask), []);
