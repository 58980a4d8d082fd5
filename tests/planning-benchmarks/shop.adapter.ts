/** Shops: weighted tardiness with one machine per operation (jobshop-twt), makespan with a choice of machines (fjsp). */
import { compileShop, searchShop, type Shop } from '#planning';
import { type Adapter, ensure, type Expected, type Outcome, type Task } from './adapter.js';

interface TardinessShop { machines: number; jobs: { r: number; d: number; w: number; ops: [number, number][] }[] }
interface FlexibleShop { machines: number; jobs: [number, number][][][] }

const number = (column: string) => (expected: Expected) => (expected[column] === undefined ? null : Number(expected[column]));
const round = 'one step of tabu search: one operation moved';

export const jobShop: Adapter<TardinessShop> = {
  objective: 'sum of weighted tardiness', round, defaultBudget: { ms: 20_000 }, best: number('sum_wT'),
  solve: ({ machines, jobs }, task) => solve({
    machines, objective: 'weightedTardiness',
    jobs: jobs.map(({ r, d, w, ops }) => ({ release: r, due: d, weight: w, operations: ops.map(([machine, duration]) => [{ machine, duration }]) })),
  }, task),
};

export const flexibleShop: Adapter<FlexibleShop> = {
  objective: 'makespan', round, defaultBudget: { ms: 10_000 }, best: number('ub'),
  solve: ({ machines, jobs }, task) => solve({
    machines, objective: 'makespan',
    jobs: jobs.map((steps) => ({ release: 0, due: 0, weight: 1, operations: steps.map((choices) => choices.map(([machine, duration]) => ({ machine, duration }))) })),
  }, task),
};

function solve(shop: Shop, { seed, budget, enough }: Task): Outcome {
  const { start, machine, value, rounds } = searchShop(compileShop(shop), seed, budget(), enough);
  const checked = shopValueOf(shop, [...start], [...machine]);
  ensure(checked === value, `The search says ${value}, the plan is worth ${checked}.`);
  return { value: checked, rounds };
}

/** What a plan is worth, after a look at every release, sequence, choice of machine, and pair of neighbours on a machine. */
export function shopValueOf({ machines, jobs, objective }: Shop, start: number[], machine: number[]): number {
  const held: { from: number; to: number }[][] = Array.from({ length: machines }, () => []);
  let at = 0;
  const ends = jobs.map(({ release, operations }, j) => operations.reduce((now, choices, step) => {
    const [from, on] = [start[at]!, machine[at]!];
    at += 1;
    const choice = choices.find((one) => one.machine === on);
    ensure(choice !== undefined, `Operation ${step} of job ${j} is on a machine it cannot go to.`);
    ensure(Number.isInteger(from) && from >= now, `Operation ${step} of job ${j} starts before it may.`);
    const to = from + choice!.duration;
    held[on]!.push({ from, to });
    return to;
  }, release));
  ensure(at === start.length && at === machine.length, 'The plan does not hold every operation once.');
  held.forEach((list, k) => list.sort((a, b) => a.from - b.from || a.to - b.to).forEach(({ from }, i) => ensure(i === 0 || list[i - 1]!.to <= from, `Machine ${k} holds two operations at a time.`)));
  if (objective === 'makespan') return Math.max(0, ...ends);
  return jobs.reduce((sum, { weight, due }, j) => sum + weight * Math.max(0, ends[j]! - due), 0);
}
