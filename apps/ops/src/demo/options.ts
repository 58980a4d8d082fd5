import { parseArgs } from 'node:util';

/** How the demo is asked for. */
export interface DemoOptions {
  /** Ends when the day is over, instead of serving on. */
  once: boolean;
  /** kills -9 spread over the day. */
  kills: number;
  apis: number;
  workers: number;
  /** Share of the whole scenario, over 0 to 1. */
  scale: number;
  seed: number;
  /** Rounds of improvement of each plan; null for the demo's own. */
  planIterations: number | null;
  /** Keeps the planning problems of the day for `npm run demo:plans`. */
  keepProblems: boolean;
}

export const DEMO_USAGE = 'demo [--once] [--scale 0.1] [--seed 7] [--apis 1] [--workers 1] [--kills 0] [--plan-iterations 40] [--keep-problems]';

/** Reads the arguments. @throws Error with a sentence that says which one is wrong */
export function readOptions(args: string[]): DemoOptions {
  const { values } = parseArgs({
    args,
    options: {
      once: { type: 'boolean', default: false }, kills: { type: 'string', default: '0' }, apis: { type: 'string', default: '1' }, workers: { type: 'string', default: '1' },
      scale: { type: 'string', default: '1' }, seed: { type: 'string', default: '7' }, 'plan-iterations': { type: 'string' },
      'keep-problems': { type: 'boolean', default: false },
    },
  });
  const iterations = values['plan-iterations'];
  return {
    once: values.once,
    kills: whole('kills', values.kills, 0, 100),
    apis: whole('apis', values.apis, 1, 8),
    workers: whole('workers', values.workers, 1, 8),
    scale: share(values.scale),
    seed: whole('seed', values.seed, 0, 2 ** 31 - 1),
    keepProblems: values['keep-problems'],
    planIterations: iterations === undefined ? null : whole('plan-iterations', iterations, 0, 1_000_000),
  };
}

function whole(name: string, text: string, from: number, to: number): number {
  const value = Number(text);
  if (!/^\d+$/.test(text) || value < from || value > to) throw new Error(`--${name} takes a whole number from ${from} to ${to}.`);
  return value;
}

function share(text: string): number {
  const value = Number(text);
  if (!(value >= 0.02 && value <= 1)) throw new Error('--scale takes a share from 0.02 to 1.');
  return value;
}
