/** Projects over resources of limited capacity (RCPSP), and with several modes and stocks (MRCPSP): makespan. */
import { compileProject, type Project, searchProject } from '#planning';
import { type Adapter, ensure, type Expected, type Outcome, type Task } from './adapter.js';

interface SingleMode { cap: number[]; dur: number[]; req: number[][]; succ: number[][] }
interface MultiMode { capR: number[]; capN: number[]; modes: { dur: number; r: number[]; n: number[] }[][]; succ: number[][] }

const number = (column: string) => (expected: Expected) => (expected[column] === undefined ? null : Number(expected[column]));
const common = { objective: 'makespan', round: 'one schedule: every activity gets a start once; a justification pass counts as one', defaultBudget: { schedules: 5_000 }, best: number('ub') };

/** Deviations are from the optimum in j30 and from the critical path in the larger sets, as in the literature. */
export function project(set: string): Adapter<SingleMode> {
  return {
    ...common,
    ...(set === 'rcpsp-j30' ? {} : { reference: { name: 'critical path', of: number('cpm') } }),
    solve: ({ cap, dur, req, succ }, task) => solve({ capacity: cap, stock: [], modes: dur.map((duration, j) => [{ duration, demand: req[j]!, stock: [] }]), successors: succ }, task),
  };
}

export const multiMode: Adapter<MultiMode> = {
  ...common,
  solve: ({ capR, capN, modes, succ }, task) => solve({ capacity: capR, stock: capN, modes: modes.map((list) => list.map(({ dur, r, n }) => ({ duration: dur, demand: r, stock: n }))), successors: succ }, task),
};

function solve(problem: Project, { seed, budget, enough }: Task): Outcome {
  const compiled = compileProject(problem);
  const plan = searchProject(compiled, seed, budget(), enough);
  ensure(plan.excess === 0, 'No plan within the stocks was found.');
  const value = makespanOf(problem, [...plan.start], Array.from(plan.modes, (mode) => compiled.givenMode[mode]!));
  ensure(value === plan.makespan, `The search says ${plan.makespan}, the plan takes ${value}.`);
  return { value, rounds: plan.rounds };
}

/** Makespan of a plan, after a look at every precedence, every slot of every resource, and every stock. */
export function makespanOf({ capacity, stock, modes, successors }: Project, start: number[], mode: number[]): number {
  const chosen = modes.map((list, j) => list[mode[j]!]!);
  const finish = start.map((from, j) => from + chosen[j]!.duration);
  const makespan = Math.max(...finish);
  ensure(start.length === modes.length && start.every((from) => Number.isInteger(from) && from >= 0), 'An activity has no start.');
  successors.forEach((list, j) => { for (const next of list) ensure(start[next]! >= finish[j]!, `Activity ${next} starts before ${j} ends.`); });
  capacity.forEach((amount, r) => {
    for (let slot = 0; slot < makespan; slot += 1) {
      const used = chosen.reduce((sum, { demand }, j) => sum + (start[j]! <= slot && slot < finish[j]! ? demand[r]! : 0), 0);
      ensure(used <= amount, `Resource ${r} is overdrawn in slot ${slot}.`);
    }
  });
  stock.forEach((amount, s) => ensure(chosen.reduce((sum, one) => sum + one.stock[s]!, 0) <= amount, `Stock ${s} is overdrawn.`));
  return makespan;
}
