/** From weighings to runs that a fit may use, and what it may not, each with the reason. See `fit-arrangement.ts`. */
import { ClimateRangeError, requireChoice, requireNumber } from './climate-range.error.js';
import type { CalibrationValues } from './calibration.js';
import { airSpan, requireReadings, type AirReading } from './air-history.js';
import { BUILDS, type Build } from './drying.js';
import { AREA_RULE } from './evaporation.js';
import { sorptionOf, type Material, type SorptionProperties } from './materials.js';
import { DRY_MASS_RULE } from './water-in-things.js';

/** One weighing. */
export interface Weighing {
  atMs: number;
  massKg: number;
  /** Smallest step that the scale shows, kg. */
  scaleDivisionKg: number;
}

/** Weighings of one thing, or of like things weighed together, in one place and arrangement. */
export interface WeighingSeries {
  /** The caller's name for it, to find it again in the answer. */
  id: string;
  material: Material | SorptionProperties;
  build?: Build;
  /** Dry mass in kg; `null` when nobody knows it. */
  dryMassKg: number | null;
  /** How far the dry mass may be off, as a share: 0 when weighed, 0.3 for a guess from the size (default 0). */
  dryMassErrorFraction?: number;
  /** Every breathing face, m2. */
  exposedAreaM2: number;
  weighings: readonly Weighing[];
  /** The air of the place over that time, in order. */
  air: readonly AirReading[];
}

/**
 * Why a weighing, or the stretch that ends with it, does not count. `below-critical`: at or below critical moisture, where
 * goods slow down by themselves. `weight-went-up`: by more than the scale can be wrong (wetted again, mixed up). `no-partner`:
 * nothing beside it to compare with.
 */
export const LEFT_OUT_REASONS = ['dry-mass-not-known', 'below-critical', 'weight-went-up', 'same-time', 'air-not-known', 'air-outside-model', 'air-dries-nothing', 'no-partner'] as const;
export type LeftOutReason = (typeof LEFT_OUT_REASONS)[number];

/** A weighing that was not used as the end of a stretch, or at all. */
export interface LeftOut {
  seriesId: string;
  atMs: number;
  reason: LeftOutReason;
}

/** Weighings in a row that belong together: what was lost, against what kE = 1 would have lost. */
export interface FitRun {
  seriesId: string;
  fromMs: number;
  toMs: number;
  weighings: number;
  lossKg: number;
  /** Loss at kE = 1 over the same time, kg. */
  expectedKg: number;
  /** The factor this run shows on its own, and its standard error from scale, hygrometer and scatter about the line. */
  factor: number;
  factorError: number;
  /** The part of it that the scale alone accounts for. */
  scaleError: number;
}

interface Point {
  atMs: number;
  massKg: number;
  sdKg: number;
  /** Loss expected at kE = 1 since the run began, kg. */
  expectedKg: number;
  humiditySum: number;
}

const BUILD_NAMES = Object.fromEntries(BUILDS.map((build) => [build, build])) as Record<Build, Build>;

/** Standard error of one weighing, kg: rectangular within `scaleErrorDivisions` either way. */
export function weighingErrorKg(weighing: Weighing, values: CalibrationValues): number {
  return (values.scaleErrorDivisions * weighing.scaleDivisionKg) / Math.sqrt(3);
}

/** Runs of one series and what was left out. @throws ClimateRangeError */
export function runsOf(series: WeighingSeries, values: CalibrationValues): { runs: FitRun[]; leftOut: LeftOut[] } {
  const { weighings } = checkSeries(series);
  const leftOut: LeftOut[] = [];
  const leave = (atMs: number, reason: LeftOutReason): void => void leftOut.push({ seriesId: series.id, atMs, reason });
  if (series.dryMassKg === null) {
    for (const { atMs } of weighings) leave(atMs, 'dry-mass-not-known');
    return { runs: [], leftOut };
  }
  const wetAbove = series.dryMassKg * (1 + (series.dryMassErrorFraction ?? 0)) * (1 + sorptionOf(series.material, values).criticalX);
  const runs: Point[][] = [[]];
  for (const weighing of weighings) {
    if (weighing.massKg <= wetAbove) {
      leave(weighing.atMs, 'below-critical');
      continue;
    }
    const run = runs.at(-1)!;
    const last = run.at(-1);
    const step = last === undefined ? NOTHING_LOST : stepBetween(series, last, weighing, values);
    if (step.reason !== null) leave(weighing.atMs, step.reason);
    if (step.reason === 'same-time') continue;
    const point = { atMs: weighing.atMs, massKg: weighing.massKg, sdKg: weighingErrorKg(weighing, values) };
    // What breaks a run begins the next one.
    if (step.reason !== null) runs.push([{ ...point, expectedKg: 0, humiditySum: 0 }]);
    else run.push({ ...point, expectedKg: (last?.expectedKg ?? 0) + step.expectedKg, humiditySum: (last?.humiditySum ?? 0) + step.expectedKg * step.humidityPct });
  }
  // A weighing that stands alone was already named if it broke the run before it.
  for (const run of runs) if (run.length === 1 && !leftOut.some((left) => left.atMs === run[0]!.atMs)) leave(run[0]!.atMs, 'no-partner');
  return { runs: runs.filter((run) => run.length > 1).map((run) => summarise(series.id, run, values)), leftOut };
}

function checkSeries(series: WeighingSeries): WeighingSeries {
  requireNumber('exposedAreaM2', series.exposedAreaM2, AREA_RULE);
  requireChoice('build', series.build ?? 'thin', BUILD_NAMES);
  if (series.dryMassKg !== null) requireNumber('dryMassKg', series.dryMassKg, DRY_MASS_RULE);
  requireNumber('dryMassErrorFraction', series.dryMassErrorFraction ?? 0, { min: 0, max: 1, unit: '(share)' });
  requireReadings(series.air);
  series.weighings.forEach((weighing, i) => {
    requireWeighing(weighing);
    if (i > 0 && weighing.atMs < series.weighings[i - 1]!.atMs) throw new ClimateRangeError(`The weighings of ${series.id} are out of order; sort them by time.`, 'weighings');
  });
  return series;
}

/** @throws ClimateRangeError */
export function requireWeighing(weighing: Weighing): Weighing {
  requireNumber('atMs', weighing.atMs, { min: -8.64e15, max: 8.64e15, unit: 'milliseconds since 1970' });
  requireNumber('massKg', weighing.massKg, { min: 0, exclusiveMin: true, max: 1e6, unit: 'kg' });
  requireNumber('scaleDivisionKg', weighing.scaleDivisionKg, { min: 0, exclusiveMin: true, max: 1000, unit: 'kg', hint: 'Give the smallest step the scale shows, in kilograms: 0.005 for 5 g.' });
  return weighing;
}

interface StepBetween {
  reason: LeftOutReason | null;
  expectedKg: number;
  humidityPct: number;
}

const NOTHING_LOST: StepBetween = { reason: null, expectedKg: 0, humidityPct: 0 };

function stepBetween(series: WeighingSeries, last: Point, next: Weighing, values: CalibrationValues): StepBetween {
  const refused = (reason: LeftOutReason): StepBetween => ({ ...NOTHING_LOST, reason });
  if (next.atMs === last.atMs) return refused('same-time');
  // Twice the standard error of the difference: a rise within it is the scale, not water.
  if (next.massKg - last.massKg > 2 * Math.hypot(weighingErrorKg(next, values), last.sdKg)) return refused('weight-went-up');
  const span = airSpan(series.air, last.atMs, next.atMs, values);
  if (span.fluxKgPerM2 === null) return refused(span.outsideModel ? 'air-outside-model' : 'air-not-known');
  if (span.fluxKgPerM2 < 1e-9) return refused('air-dries-nothing');
  return { reason: null, expectedKg: span.fluxKgPerM2 * series.exposedAreaM2, humidityPct: span.meanRelativeHumidityPct! };
}

/** The factor is the slope of a straight line through mass against expected loss, by weighted least squares. */
function summarise(seriesId: string, run: readonly Point[], values: CalibrationValues): FitRun {
  const weights = run.map((point) => 1 / point.sdKg ** 2);
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const mean = (of: (point: Point) => number): number => run.reduce((sum, point, i) => sum + weights[i]! * of(point), 0) / total;
  const meanG = mean((point) => point.expectedKg);
  const meanM = mean((point) => point.massKg);
  const spread = run.reduce((sum, point, i) => sum + weights[i]! * (point.expectedKg - meanG) ** 2, 0);
  const factor = -run.reduce((sum, point, i) => sum + weights[i]! * (point.expectedKg - meanG) * (point.massKg - meanM), 0) / spread;
  const misfit = run.reduce((sum, point, i) => sum + weights[i]! * (point.massKg - meanM + factor * (point.expectedKg - meanG)) ** 2, 0);
  const birge = run.length > 2 ? Math.max(1, Math.sqrt(misfit / (run.length - 2))) : 1;
  const scaleError = 1 / Math.sqrt(spread);
  const last = run.at(-1)!;
  // The driving force falls as 100 % - RH, so an error of the hygrometer weighs the more the damper the air.
  const humidityShare = values.hygrometerErrorPct / Math.max(1, 100 - last.humiditySum / last.expectedKg);
  return {
    seriesId,
    fromMs: run[0]!.atMs,
    toMs: last.atMs,
    weighings: run.length,
    lossKg: run[0]!.massKg - last.massKg,
    expectedKg: last.expectedKg,
    factor,
    factorError: Math.hypot(scaleError * birge, Math.max(0, factor) * humidityShare),
    scaleError,
  };
}
