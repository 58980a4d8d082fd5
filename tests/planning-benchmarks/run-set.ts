/** Solves a set, instance by instance, and sums up how near the values came to the expected ones. */
import type { SearchBudget } from '#planning';
import type { Adapter, Task } from './adapter.js';
import { miniCare } from './mini-care.adapter.js';
import { multiMode, project } from './project.adapter.js';
import { onTime, tardiness } from './one-machine.adapter.js';
import { flexibleShop, jobShop } from './shop.adapter.js';
import { type BenchOptions, UsageError } from './options.js';
import { readSet, type Row } from './read-set.js';

export interface Report {
  set: string;
  objective: string;
  /** Instances solved; every solution was checked. */
  n: number;
  /** Mean of 100 * (value / reference - 1); where the reference is 0, a reached one counts as 0 and another only as missed. */
  meanDeviationPercent: number | null;
  deviationFrom: string;
  /** The same from the best known value, which is the reference in most sets. */
  meanFromBestPercent: number | null;
  /** Instances that reached the best known value, and those that went below it. */
  hits: number;
  better: number;
  /** Instances that reached the second objective too, where the set has one. */
  hitsOfBoth: number | null;
  /** Names of those that did not reach it, up to twenty. */
  missed: string[];
  seed: number;
  budget: Record<string, string | number | boolean>;
  meanRounds: number;
  seconds: number;
}

/** The adapter for a set by its name; an unseen set of the same family (`rcpsp-j90`) is read by the same one. */
export function adapterOf({ set, objective }: BenchOptions): Adapter<never> {
  if (set.startsWith('single-machine-rj-wu')) return onTime('U' === objective ? 'U' : 'wU');
  if (set.startsWith('single-machine-wt')) return objective === 'wT' ? tardiness : onTime(objective);
  if (set.startsWith('rcpsp-')) return project(set);
  if (set.startsWith('mrcpsp')) return multiMode;
  if (set.startsWith('mini-care')) return miniCare;
  if (set.startsWith('jobshop-twt')) return jobShop;
  if (set.startsWith('fjsp')) return flexibleShop;
  throw new UsageError(`There is no adapter for "${set}". There are single-machine-wt*, single-machine-rj-wu, rcpsp-*, mrcpsp, jobshop-twt, fjsp and mini-care.`);
}

export async function runSet(options: BenchOptions): Promise<Report> {
  const adapter = adapterOf(options);
  const rows = readSet(options.set, options.data).filter((_, i) => i % options.every === 0);
  const started = clockOf(options.clock);
  const results: Awaited<ReturnType<typeof solve>>[] = [];
  // One after the other: each has the machine to itself.
  for (const row of rows) results.push(await solve(adapter, row, options));
  const seconds = (clockOf(options.clock) - started) / 1_000;
  const fromBest = mean(results.map(({ value, best }) => deviation(value, best)));
  const fromReference = adapter.reference ? mean(results.map(({ value, reference }) => deviation(value, reference))) : fromBest;
  return {
    set: options.set, objective: adapter.objective, n: rows.length,
    meanDeviationPercent: fromReference, deviationFrom: adapter.reference?.name ?? 'best known value', meanFromBestPercent: fromBest,
    hits: results.filter(({ value, best }) => best !== null && value <= best).length,
    better: results.filter(({ value, best }) => best !== null && value < best).length,
    hitsOfBoth: adapter.secondBest === undefined ? null : results.filter(({ value, best, second, secondBest }) => best !== null && value <= best && second !== null && secondBest !== null && second <= secondBest).length,
    missed: results.filter(({ value, best }) => best !== null && value > best).map(({ name }) => name).slice(0, 20),
    seed: options.seed, budget: budgetInWords(adapter, options),
    meanRounds: Math.round(results.reduce((sum, { rounds }) => sum + rounds, 0) / Math.max(1, results.length)),
    seconds: Math.round(seconds * 10) / 10,
  };
}

async function solve(adapter: Adapter<never>, row: Row, options: BenchOptions) {
  const best = adapter.best(row.expected);
  const task: Task = { seed: options.seed, strands: options.strands, budget: () => budgetOf(adapter, options), enough: options.stopAtExpected ? (best ?? 0) : 0 };
  const { value, second = null, rounds } = await adapter.solve(row.instance as never, task);
  return { name: row.name, value, second, secondBest: adapter.secondBest?.(row.expected) ?? null, rounds, best, reference: adapter.reference?.of(row.expected) ?? null };
}

function budgetOf(adapter: Adapter<never>, options: BenchOptions): SearchBudget {
  const { defaultBudget } = adapter;
  if (options.schedules !== null) return { iterations: options.schedules };
  if (options.ms === null && 'schedules' in defaultBudget) return { iterations: defaultBudget.schedules };
  const milliseconds = options.ms ?? ('ms' in defaultBudget ? defaultBudget.ms : 1_000);
  return { milliseconds, nowMs: () => clockOf(options.clock) };
}

function budgetInWords(adapter: Adapter<never>, options: BenchOptions): Report['budget'] {
  const budget = budgetOf(adapter, options);
  const end = { stopAtExpected: options.stopAtExpected, ...(options.strands > 1 && { strands: options.strands }) };
  return 'iterations' in budget ? { schedules: budget.iterations, round: adapter.round, ...end } : { ms: budget.milliseconds, clock: options.clock, round: adapter.round, ...end };
}

function clockOf(clock: BenchOptions['clock']): number {
  if (clock === 'wall') return performance.now();
  const { user, system } = process.cpuUsage();
  return (user + system) / 1_000;
}

function deviation(value: number, from: number | null): number | null {
  if (from === null || (from === 0 && value !== 0)) return null;
  return from === 0 ? 0 : 100 * (value / from - 1);
}

/** Mean over those that have a value, to four digits. */
function mean(values: (number | null)[]): number | null {
  const known = values.filter((value) => value !== null);
  return known.length === 0 ? null : Math.round((1e4 * known.reduce((sum, value) => sum + value, 0)) / known.length) / 1e4;
}
