/** The planner's thread: one problem in, one answer out. */
import { parentPort, workerData } from 'node:worker_threads';
import { buildPlan, MalformedPlanProblem, type PlanBudget, type PlanProblem } from '#planning';
import type { ThreadAnswer } from './planner-thread.js';

function answer({ problem, budget }: { problem: PlanProblem; budget: PlanBudget }): ThreadAnswer {
  try {
    return { plan: buildPlan(problem, budget) };
  } catch (error) {
    if (error instanceof MalformedPlanProblem) return { faults: error.faults };
    return { error: error instanceof Error ? error.message : String(error) };
  }
}

parentPort?.postMessage(answer(workerData as { problem: PlanProblem; budget: PlanBudget }), []);
