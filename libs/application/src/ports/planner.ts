import type { Plan, PlanBudget, PlanProblem } from '#planning';

/** Computes a plan somewhere; `buildPlan` of the planning library, run where it stops nobody else. */
export interface Planner {
  /** Rejects with `MalformedPlanProblem` for a problem that cannot be planned. Tells `onProgress` of the budget how many rounds are done. */
  plan(problem: PlanProblem, budget: PlanBudget): Promise<Plan>;
}
