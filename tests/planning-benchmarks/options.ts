/** What the command line asks for. */
import { parseArgs } from 'node:util';

/** Something about the call that the caller can put right. */
export class UsageError extends Error {}

export const OBJECTIVES = ['wT', 'wU', 'U'] as const;

export interface BenchOptions {
  set: string;
  data: string;
  seed: number;
  /** Rounds per instance, or null when it is milliseconds. What a round is, the README says for each set. */
  schedules: number | null;
  ms: number | null;
  /** Which clock milliseconds are: the one on the wall, or the processor time of this process (on a shared machine). */
  clock: 'wall' | 'cpu';
  /** For one machine: weighted tardiness, weight of late jobs, or number of late jobs. */
  objective: (typeof OBJECTIVES)[number];
  /** Goes on to the next instance when the expected value is reached; saves time where that is the proved optimum. */
  stopAtExpected: boolean;
  /** Looks at each k-th instance only. */
  every: number;
  /** Searches beside each other, of which the best is taken, as the service plans; each in a thread of its own when more than one. */
  strands: number;
}

const USAGE = `npm run bench:planning -- --set <name> --data <folder> [--schedules N | --ms N] [--seed S]
  [--objective wT|wU|U] [--clock wall|cpu] [--stop-at-expected] [--every K] [--strands N]`;

/** @throws UsageError with a sentence on what to change. */
export function readOptions(args: string[]): BenchOptions {
  const values = parsed(args);
  if (!values.set || !values.data) throw new UsageError(`Name a set and the folder it is in.\n${USAGE}`);
  if (values.schedules !== undefined && values.ms !== undefined) throw new UsageError('Give --schedules or --ms, not both.');
  const clock = values.clock ?? 'wall';
  if (clock !== 'wall' && clock !== 'cpu') throw new UsageError(`--clock is wall or cpu, not "${clock}".`);
  const objective = OBJECTIVES.find((one) => one === (values.objective ?? 'wT'));
  if (!objective) throw new UsageError(`--objective is one of ${OBJECTIVES.join(', ')}, not "${values.objective}".`);
  return {
    set: values.set, data: values.data, clock, objective,
    seed: whole('seed', values.seed ?? '1', -(2 ** 31)),
    schedules: values.schedules === undefined ? null : whole('schedules', values.schedules, 0),
    ms: values.ms === undefined ? null : whole('ms', values.ms, 1),
    stopAtExpected: values['stop-at-expected'] === true,
    every: whole('every', values.every ?? '1', 1),
    strands: strandsOf(values),
  };
}

/** Only the product's planner has strands, and the time of its threads is not that of this process. */
function strandsOf({ set, strands = '1', clock }: { set?: string; strands?: string; clock?: string }): number {
  const count = whole('strands', strands, 1);
  if (count > 1 && !set?.startsWith('mini-care')) throw new UsageError('--strands is for mini-care alone: the other sets are searched by one search.');
  if (count > 1 && clock === 'cpu') throw new UsageError('--clock cpu is the time of one process and says nothing of several threads: leave it out with --strands.');
  return count;
}

function parsed(args: string[]) {
  const text = { type: 'string' } as const;
  try {
    return parseArgs({ args, options: { set: text, data: text, seed: text, schedules: text, ms: text, clock: text, objective: text, every: text, strands: text, 'stop-at-expected': { type: 'boolean' } } }).values;
  } catch (error) {
    throw new UsageError(`${error instanceof Error ? error.message : String(error)}\n${USAGE}`);
  }
}

function whole(name: string, text: string, least: number): number {
  const value = Number(text);
  if (!/^-?\d+$/.test(text) || value < least || value >= 2 ** 31) throw new UsageError(`--${name} is a whole number from ${least} to 2147483647, not "${text}".`);
  return value;
}
