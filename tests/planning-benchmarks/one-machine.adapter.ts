/** One machine: sum of weighted tardiness, weight or number of late jobs, with or without release dates. */
import { type OneMachineJobs, searchOnTime, searchTardiness } from '#planning';
import { type Adapter, ensure } from './adapter.js';

interface Instance { n: number; r?: number[]; p: number[]; w: number[]; d: number[] }

export const tardiness: Adapter<Instance> = {
  objective: 'sum of weighted tardiness',
  round: 'one disturbance with its descent',
  defaultBudget: { ms: 1_000 },
  best: ({ sum_wT: value }) => (value === undefined ? null : Number(value)),
  solve(instance, { seed, budget, enough }) {
    const { order, value, rounds } = searchTardiness(jobsOf(instance), seed, budget(), enough);
    const checked = tardinessOf(instance, [...order]);
    ensure(checked === value, `The search says ${value}, the order is worth ${checked}.`);
    return { value: checked, rounds };
  },
};

/** Late jobs by weight (`wU`) or number (`U`). */
export function onTime(objective: 'wU' | 'U'): Adapter<Instance> {
  return {
    objective: objective === 'wU' ? 'weight of late jobs' : 'number of late jobs',
    round: 'one ruin and recreate',
    defaultBudget: { ms: 1_000 },
    best: (expected) => (expected[`sum_${objective}`] === undefined ? null : Number(expected[`sum_${objective}`])),
    solve(instance, { seed, budget, enough }) {
      const weighed = objective === 'wU' ? instance : { ...instance, w: instance.w.map(() => 1) };
      const { accepted, lateWeight, rounds } = searchOnTime(jobsOf(weighed), seed, budget(), enough);
      const checked = lateWeightOf(weighed, [...accepted]);
      ensure(checked === lateWeight, `The search says ${lateWeight}, the choice leaves ${checked} late.`);
      return { value: checked, rounds };
    },
  };
}

function jobsOf({ n, r, p, w, d }: Instance): OneMachineJobs {
  return { release: r ? Int32Array.from(r) : new Int32Array(n), duration: Int32Array.from(p), weight: Int32Array.from(w), due: Int32Array.from(d) };
}

function tardinessOf({ n, p, w, d }: Instance, order: number[]): number {
  ensure(order.length === n && new Set(order).size === n && order.every((job) => job >= 0 && job < n), 'The order does not hold every job once.');
  const ends = order.map((_, i) => order.slice(0, i + 1).reduce((sum, job) => sum + p[job]!, 0));
  return order.reduce((sum, job, i) => sum + w[job]! * Math.max(0, ends[i]! - d[job]!), 0);
}

function lateWeightOf({ n, r, p, w, d }: Instance, accepted: number[]): number {
  ensure(new Set(accepted).size === accepted.length && accepted.every((job) => job >= 0 && job < n), 'A job is accepted twice.');
  let now = 0;
  for (const job of accepted) {
    now = Math.max(now, r?.[job] ?? 0) + p[job]!;
    ensure(now <= d[job]!, `Job ${job} is accepted and late.`);
  }
  const inTime = new Set(accepted);
  return w.reduce((sum, weight, job) => sum + (inTime.has(job) ? 0 : weight), 0);
}
