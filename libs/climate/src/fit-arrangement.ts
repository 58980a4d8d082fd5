/**
 * The arrangement factor kE refitted from weigh-ins, with an honest interval.
 *
 * Method: a Bayesian update on a grid (textbook; own code). Prior: log-normal about the factor in force, spread
 * `arrangementPriorSpread`. Each run of weighings gives a slope (mass lost against what kE = 1 would have lost) with the error
 * of scale and hygrometer; runs scatter about the common factor by a share that is not known either and is integrated out
 * (half-normal, `arrangementScatter`). Published: nothing here. Our calibration: both spreads, the scale and hygrometer errors
 * (that a scale in trade use may be off by about a division: OIML R 76, from memory), wider spreads for thick goods. What all
 * readings share, such as a hygrometer that always reads low, cannot be seen and ends up in the factor.
 */
import { DEFAULT_CALIBRATION, type CalibrationValues } from './calibration.js';
import { arrangementFactor, type ReachInput } from './evaporation.js';
import { runsOf, type FitRun, type LeftOut, type WeighingSeries } from './fit-runs.js';
import type { Advice } from './advice.js';

/** A factor with its 95 % and 80 % intervals. */
export interface FactorEstimate {
  /** Median. */
  factor: number;
  interval80: { low: number; high: number };
  interval95: { low: number; high: number };
}

export interface ArrangementFit extends FactorEstimate {
  /** What was believed before any weighing. */
  prior: FactorEstimate;
  /** The data behind it: one entry for each run of weighings. */
  used: readonly FitRun[];
  leftOut: readonly LeftOut[];
  /** By how much runs scatter about the factor, as a share (posterior mean). */
  scatter: number;
  /** The weighings narrowed what was believed before to less than four fifths of its width. */
  informative: boolean;
  advice: Advice<FitAdvice>;
}

export type FitAdvice = 'fit-from-weighings' | 'fit-says-little' | 'fit-no-data';

const Z80 = 1.2815515655446004;
const Z95 = 1.959963984540054;
const GRID = 401;
const SCATTERS = 25;

/**
 * Fits kE for ONE material in ONE place and arrangement (the caller sorts the weighings so). Two weighings of one thing are
 * already of use. Without any that count the answer is the prior.
 * @throws ClimateRangeError for weighings or readings out of range or out of order
 */
export function fitArrangement(input: ReachInput & { series: readonly WeighingSeries[] }, values: CalibrationValues = DEFAULT_CALIBRATION): ArrangementFit {
  const centre = arrangementFactor(input, values);
  const sorted = input.series.map((series) => runsOf(series, values));
  const used = sorted.flatMap(({ runs }) => runs);
  const leftOut = sorted.flatMap((one) => one.leftOut);
  // Inside controls drying of thick goods: their effective factor may lie far from the table, and scatters more.
  const slow = input.series.some(({ build }) => build === 'thick' || build === 'closed') ? values.thickSpreadTimes : 1;
  const priorSpread = values.arrangementPriorSpread * slow;
  const prior = logNormal(centre, priorSpread);
  if (used.length === 0) {
    return { ...prior, prior, used, leftOut, scatter: values.arrangementScatter, informative: false, advice: { code: 'fit-no-data', values: { factor: centre }, text: 'No weighing could be used: the factor is the general one. Weigh a thing twice while it is clearly wet, some hours apart.' } };
  }
  const posterior = posteriorOf(used, Math.log(centre), priorSpread, values.arrangementScatter * slow);
  const estimate = widened(posterior.quantile, priorSpread, scaleLimit(used, posterior.quantile(0.5)));
  const informative = width(estimate) < 0.8 * width(prior);
  return { ...estimate, prior, used, leftOut, scatter: posterior.scatter, informative, advice: adviceOf(estimate, used, informative) };
}

function width({ interval95 }: FactorEstimate): number {
  return Math.log(interval95.high / interval95.low);
}

function logNormal(centre: number, spread: number): FactorEstimate {
  const at = (z: number): number => centre * Math.exp(z * spread);
  return { factor: centre, interval80: { low: at(-Z80), high: at(Z80) }, interval95: { low: at(-Z95), high: at(Z95) } };
}

/** What the scales alone leave open over all runs, as a standard error of ln kE. */
function scaleLimit(runs: readonly FitRun[], factor: number): number {
  return 1 / Math.sqrt(runs.reduce((sum, run) => sum + (factor / run.scaleError) ** 2, 0));
}

/** Quantiles, held apart by at least what scale and prior allow: the narrower of the two, never less. */
function widened(quantile: (p: number) => number, priorSpread: number, scaleSpread: number): FactorEstimate {
  const factor = quantile(0.5);
  const least = Math.min(priorSpread, scaleSpread);
  const around = (p: number, z: number): { low: number; high: number } => ({
    low: Math.min(quantile(p), factor * Math.exp(-z * least)),
    high: Math.max(quantile(1 - p), factor * Math.exp(z * least)),
  });
  return { factor, interval80: around(0.1, Z80), interval95: around(0.025, Z95) };
}

/** Posterior of ln kE and of the scatter on a grid that reaches six prior spreads and every run. */
function posteriorOf(runs: readonly FitRun[], centre: number, priorSpread: number, scatterSpread: number): { quantile: (p: number) => number; scatter: number } {
  const grid = logGrid(runs, centre, priorSpread);
  const logs = new Float64Array(SCATTERS * GRID);
  for (let s = 0; s < SCATTERS; s += 1) {
    for (let i = 0; i < GRID; i += 1) logs[s * GRID + i] = logPosterior(runs, grid[i]!, scatterAt(s, scatterSpread), centre, priorSpread, scatterSpread);
  }
  const top = logs.reduce((most, log) => Math.max(most, log), -Infinity);
  const density = new Float64Array(GRID);
  let scatterSum = 0;
  let weightSum = 0;
  logs.forEach((log, at) => {
    const weight = Math.exp(log - top);
    density[at % GRID]! += weight;
    scatterSum += weight * scatterAt(Math.floor(at / GRID), scatterSpread);
    weightSum += weight;
  });
  return { quantile: quantilesOf(grid, density), scatter: scatterSum / weightSum };
}

function scatterAt(index: number, spread: number): number {
  return ((index + 0.5) / SCATTERS) * 4 * spread;
}

/** As fine as the sharpest run needs, over the ground that prior and runs cover. */
function logGrid(runs: readonly FitRun[], centre: number, priorSpread: number): Float64Array {
  const seen = runs.filter(({ factor }) => factor > 0).map(({ factor }) => Math.log(factor));
  const low = Math.min(centre - 6 * priorSpread, ...seen.map((lnK) => lnK - 0.5));
  const high = Math.max(centre + 6 * priorSpread, ...seen.map((lnK) => lnK + 0.5));
  return Float64Array.from({ length: GRID }, (_, i) => low + ((high - low) * i) / (GRID - 1));
}

function logPosterior(runs: readonly FitRun[], lnK: number, scatter: number, centre: number, priorSpread: number, scatterSpread: number): number {
  const k = Math.exp(lnK);
  let log = -0.5 * ((lnK - centre) / priorSpread) ** 2 - 0.5 * (scatter / scatterSpread) ** 2;
  for (const run of runs) {
    const variance = run.factorError ** 2 + (k * scatter) ** 2;
    log -= 0.5 * Math.log(variance) + (0.5 * (run.factor - k) ** 2) / variance;
  }
  return log;
}

function quantilesOf(grid: Float64Array, density: Float64Array): (p: number) => number {
  const cumulative = new Float64Array(GRID);
  for (let i = 1; i < GRID; i += 1) cumulative[i] = cumulative[i - 1]! + (density[i]! + density[i - 1]!) / 2;
  const total = cumulative[GRID - 1]!;
  return (p) => {
    const wanted = p * total;
    let i = 1;
    while (i < GRID - 1 && cumulative[i]! < wanted) i += 1;
    const share = (wanted - cumulative[i - 1]!) / Math.max(Number.MIN_VALUE, cumulative[i]! - cumulative[i - 1]!);
    return Math.exp(grid[i - 1]! + share * (grid[i]! - grid[i - 1]!));
  };
}

function adviceOf(estimate: FactorEstimate, used: readonly FitRun[], informative: boolean): Advice<FitAdvice> {
  const weighings = used.reduce((sum, run) => sum + run.weighings, 0);
  const { low, high } = estimate.interval80;
  const numbers = { factor: estimate.factor, low, high, weighings, runs: used.length };
  if (!informative) {
    return { code: 'fit-says-little', values: numbers, text: `The ${weighings} weighings say little against their own error: wait longer between weighings, or use a finer scale. The factor stays near the general one.` };
  }
  return { code: 'fit-from-weighings', values: numbers, text: `Fitted from ${weighings} weighings: ${estimate.factor.toFixed(2)}, most likely between ${low.toFixed(2)} and ${high.toFixed(2)} (80 %).` };
}
