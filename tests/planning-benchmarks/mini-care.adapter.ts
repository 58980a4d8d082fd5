/**
 * The project's own kind of problem in miniature, through the product's planner: weight that is not stabilised in
 * time. How the instances are mapped, and what the planner's model leaves out, is told in mini-care.reader.ts.
 */
import { buildPlan, type Plan, type PlanProblem, validatePlan } from '#planning';
import { type MiniCareInstance, toProblem } from '../reference/planning/mini-care.reader.js';
import { type Adapter, ensure } from './adapter.js';

export const miniCare: Adapter<MiniCareInstance> = {
  objective: 'weight not stabilised in time',
  round: 'one ruin and recreate of buildPlan; with a time, reruns with twice the rounds while it lasts',
  defaultBudget: { schedules: 2_000 },
  best: ({ sum_wU: value }) => (value === undefined ? null : Number(value)),
  solve(instance, { seed, budget }) {
    const problem = toProblem(instance);
    const given = budget();
    if ('iterations' in given) return { value: checkedLate(problem, buildPlan(problem, { seed, iterations: given.iterations })), rounds: given.iterations };
    const until = given.nowMs() + given.milliseconds;
    let value = Number.POSITIVE_INFINITY;
    let rounds = 0;
    for (let iterations = 64; ; iterations *= 2) {
      const began = given.nowMs();
      value = Math.min(value, checkedLate(problem, buildPlan(problem, { seed, iterations })));
      rounds += iterations;
      const took = given.nowMs() - began;
      if (value === 0 || given.nowMs() + 2 * took > until) return { value, rounds };
    }
  },
};

/** Late weight of a plan that the validator accepts, from its assignments alone. */
function checkedLate(problem: PlanProblem, plan: Plan): number {
  const faults = validatePlan(problem, plan);
  ensure(faults.length === 0, `The plan breaks ${faults.length} rules, the first: ${JSON.stringify(faults[0])}`);
  return problem.items.filter((item) => {
    const stabilising = item.options[0]!.steps.findIndex(({ stabilises }) => stabilises === 'end');
    const done = plan.assignments.find(({ itemId, position }) => itemId === item.id && position === stabilising);
    return !done || done.endSlot > item.deadlineSlot;
  }).reduce((sum, { weight }) => sum + weight, 0);
}
