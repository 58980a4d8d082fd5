/**
 * The project's own kind of problem in miniature, through the product's planner: weight that is not stabilised in
 * time. How the instances are mapped is told in mini-care.reader.ts.
 */
import { buildPlan, type Plan, type PlanProblem, validatePlan } from '#planning';
import { threadPlanner } from '../../apps/worker/src/planner-thread.js';
import { type MiniCareInstance, toProblem } from '../reference/planning/mini-care.reader.js';
import { type Adapter, ensure } from './adapter.js';

export const miniCare: Adapter<MiniCareInstance> = {
  objective: 'weight not stabilised in time; second stage: weighted tardiness',
  round: 'one ruin and recreate of buildPlan',
  defaultBudget: { schedules: 2_000 },
  best: ({ sum_wU: value }) => (value === undefined ? null : Number(value)),
  secondBest: ({ sum_wT_given_wU: value }) => (value === undefined ? null : Number(value)),
  async solve(instance, { seed, strands, budget }) {
    const problem = toProblem(instance);
    // Several as the service plans: each in a thread that reads a clock of its own.
    const plan = strands === 1 ? buildPlan(problem, { seed, ...budget() }) : await threadPlanner({ strands }).plan(problem, { seed, ...budget() });
    const [value, second] = checked(problem, plan);
    return { value, second, rounds: plan.iterations };
  },
};

/** Late weight and weighted tardiness of a plan that the validator accepts, from its assignments alone. */
function checked(problem: PlanProblem, plan: Plan): [late: number, tardiness: number] {
  const faults = validatePlan(problem, plan);
  ensure(faults.length === 0, `The plan breaks ${faults.length} rules, the first: ${JSON.stringify(faults[0])}`);
  let [late, tardiness] = [0, 0];
  for (const { id, deadlineSlot, weight, options } of problem.items) {
    const own = plan.assignments.filter(({ itemId }) => itemId === id);
    ensure(own.length > 0, `Item ${id} is not completed`);
    const stabilising = options[own[0]!.option]!.steps.findIndex(({ stabilises }) => stabilises === 'end');
    const at = (step: string): number => own.find((one) => one.step === step)?.startSlot ?? 0;
    const after = own.find(({ position }) => position === stabilising)!.endSlot - deadlineSlot - (at('thaw') - at('freeze'));
    if (after <= 0) continue;
    late += weight;
    tardiness += weight * after;
  }
  return [late, tardiness];
}
