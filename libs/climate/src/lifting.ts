/**
 * The revised NIOSH lifting equation: what one person may lift under given circumstances.
 *
 * Published: the equation with its limits and the frequency table (Applications Manual, DHHS (NIOSH) 94-110, 1994, rev. 9/2021, as
 * read in a public transcription). From memory: the coupling multipliers good and poor. Ours: the wet bundle, and that a limit is
 * reckoned at full precision where the manual's worksheets round each multiplier (2 % apart). Composite index for mixed tasks:
 * not here, none of it was read. Where the equation does not hold at all says `lifting-scope.ts`.
 */
import { requireChoice, requireNumber } from './climate-range.error.js';

export const LIFT_DURATIONS = ['short', 'moderate', 'long'] as const;
/** Up to 1 h with as much recovery after it; up to 2 h with 0.3 of it; up to 8 h. */
export type LiftDuration = (typeof LIFT_DURATIONS)[number];
/** `poor`: no handles, gloves, sagging or slippery loads. */
export const LIFT_COUPLINGS = ['good', 'fair', 'poor'] as const;
export type Coupling = (typeof LIFT_COUPLINGS)[number];

/** One lift, metric. Heights are those of the hands above the floor. */
export interface LiftTask {
  /** From the ankles to the hands, cm. */
  horizontalCm: number;
  /** At the end of the lift that is evaluated, cm. */
  verticalCm: number;
  /** Where the lift begins, cm: the frequency multiplier goes by it. */
  originCm: number;
  /** Travel between both ends, cm. */
  travelCm: number;
  /** Turn of the trunk, degrees. */
  asymmetryDeg: number;
  liftsPerMin: number;
  duration: LiftDuration;
  coupling: Coupling;
}

/** The constants of the equation in one system of units; the two are not exact conversions, so a lift is reckoned in one of them. */
interface LiftConstants {
  load: number;
  reach: { min: number; max: number };
  height: { best: number; perUnit: number; max: number };
  travel: { min: number; max: number; factor: number };
}

const METRIC: LiftConstants = { load: 23, reach: { min: 25, max: 63 }, height: { best: 75, perUnit: 0.003, max: 175 }, travel: { min: 25, max: 175, factor: 4.5 } };
const US: LiftConstants = { load: 51, reach: { min: 10, max: 25 }, height: { best: 30, perUnit: 0.0075, max: 70 }, travel: { min: 10, max: 70, factor: 1.8 } };
/** Turn of the trunk beyond which nothing may be lifted, degrees. */
const ASYMMETRY_MAX_DEG = 135;
/** Most lifts a minute in the table. */
export const LIFTS_PER_MIN_MAX = 15;
/** The load constant: what one person may lift where everything is at its best, kg. */
export const LOAD_CONSTANT_KG = METRIC.load;

/** Rows: lifts a minute; short, moderate and long below and from 75 cm (94-110, table 5). */
const FREQUENCY_TABLE: readonly (readonly [perMin: number, ...multipliers: [short: Pair, moderate: Pair, long: Pair]])[] = [
  [0.2, [1, 1], [0.95, 0.95], [0.85, 0.85]], [0.5, [0.97, 0.97], [0.92, 0.92], [0.81, 0.81]], [1, [0.94, 0.94], [0.88, 0.88], [0.75, 0.75]],
  [2, [0.91, 0.91], [0.84, 0.84], [0.65, 0.65]], [3, [0.88, 0.88], [0.79, 0.79], [0.55, 0.55]], [4, [0.84, 0.84], [0.72, 0.72], [0.45, 0.45]],
  [5, [0.8, 0.8], [0.6, 0.6], [0.35, 0.35]], [6, [0.75, 0.75], [0.5, 0.5], [0.27, 0.27]], [7, [0.7, 0.7], [0.42, 0.42], [0.22, 0.22]],
  [8, [0.6, 0.6], [0.35, 0.35], [0.18, 0.18]], [9, [0.52, 0.52], [0.3, 0.3], [0, 0.15]], [10, [0.45, 0.45], [0.26, 0.26], [0, 0.13]],
  [11, [0.41, 0.41], [0, 0.23], [0, 0]], [12, [0.37, 0.37], [0, 0.21], [0, 0]], [13, [0, 0.34], [0, 0], [0, 0]], [14, [0, 0.31], [0, 0], [0, 0]], [15, [0, 0.28], [0, 0], [0, 0]],
];
type Pair = readonly [below75Cm: number, from75Cm: number];

const COUPLING: Readonly<Record<Coupling, Pair>> = { good: [1, 1], fair: [0.95, 1], poor: [0.9, 0.9] };
const COLUMN: Readonly<Record<LiftDuration, 1 | 2 | 3>> = { short: 1, moderate: 2, long: 3 };

/** Frequency multiplier, interpolated linearly between the rows; 0 above 15 lifts a minute. @throws ClimateRangeError */
export function frequencyMultiplier(liftsPerMin: number, duration: LiftDuration, originCm: number): number {
  return frequencyIn(METRIC, liftsPerMin, duration, originCm);
}

function frequencyIn({ height }: LiftConstants, liftsPerMin: number, duration: LiftDuration, origin: number): number {
  const perMin = Math.max(0.2, requireNumber('liftsPerMin', liftsPerMin, { min: 0, max: 60, unit: 'lifts a minute' }));
  const column = requireChoice('duration', duration, COLUMN);
  const side = origin < height.best ? 0 : 1;
  const above = FREQUENCY_TABLE.findIndex(([row]) => row >= perMin);
  if (above < 0) return 0;
  const [high, low] = [FREQUENCY_TABLE[above]!, FREQUENCY_TABLE[Math.max(0, above - 1)]!];
  const share = high[0] === low[0] ? 0 : (perMin - low[0]) / (high[0] - low[0]);
  return low[column][side] + share * (high[column][side] - low[column][side]);
}

/** The multipliers of one lift, 0 to 1 each; 0 where the equation allows no lift. */
export interface LiftMultipliers {
  horizontal: number;
  vertical: number;
  distance: number;
  asymmetry: number;
  frequency: number;
  coupling: number;
}

/** Every multiplier of a lift, at full precision. @throws ClimateRangeError */
export function liftMultipliers(task: LiftTask): LiftMultipliers {
  return multipliersIn(METRIC, task, { horizontal: task.horizontalCm, vertical: task.verticalCm, origin: task.originCm, travel: task.travelCm }, 'Cm');
}

function multipliersIn(constants: LiftConstants, task: Pick<LiftTask, 'asymmetryDeg' | 'liftsPerMin' | 'duration' | 'coupling'>, lengths: { horizontal: number; vertical: number; origin: number; travel: number }, unit: 'Cm' | 'In'): LiftMultipliers {
  const length = (name: keyof typeof lengths, max: number): number => requireNumber(`${name}${unit}`, lengths[name], { min: 0, max, unit: unit === 'Cm' ? 'cm' : 'in' });
  const { reach, height, travel: far } = constants;
  const horizontal = Math.max(reach.min, length('horizontal', 200));
  const vertical = length('vertical', 300);
  const travel = Math.max(far.min, length('travel', 300));
  const asymmetry = requireNumber('asymmetryDeg', task.asymmetryDeg, { min: 0, max: 180, unit: 'degrees' });
  return {
    horizontal: horizontal > reach.max ? 0 : reach.min / horizontal,
    vertical: vertical > height.max ? 0 : 1 - height.perUnit * Math.abs(vertical - height.best),
    distance: travel > far.max ? 0 : 0.82 + far.factor / travel,
    asymmetry: asymmetry > ASYMMETRY_MAX_DEG ? 0 : 1 - 0.0032 * asymmetry,
    frequency: frequencyIn(constants, task.liftsPerMin, task.duration, length('origin', 300)),
    coupling: requireChoice('coupling', task.coupling, COUPLING)[vertical < height.best ? 0 : 1],
  };
}

/** Recommended weight limit of one person in kg, at full precision; 0 where the equation allows no lift at all. @throws ClimateRangeError */
export function recommendedWeightKg(task: LiftTask): number {
  return product(METRIC.load, liftMultipliers(task));
}

/** The same by the constants of the manual's US units, inches and pounds: for its worked examples. @throws ClimateRangeError */
export function recommendedWeightLb(task: Pick<LiftTask, 'asymmetryDeg' | 'liftsPerMin' | 'duration' | 'coupling'> & { horizontalIn: number; verticalIn: number; originIn: number; travelIn: number }): number {
  return product(US.load, multipliersIn(US, task, { horizontal: task.horizontalIn, vertical: task.verticalIn, origin: task.originIn, travel: task.travelIn }, 'In'));
}

function product(load: number, factors: LiftMultipliers): number {
  return Object.values(factors).reduce((weight: number, factor: number) => weight * factor, load);
}

/** Reach H in cm where nobody measured it, from the depth of the load: 20 cm and half of it, 25 cm and half of it with the hands below 25 cm. @throws ClimateRangeError */
export function horizontalFromDepthCm(depthCm: number, verticalCm: number): number {
  const half = requireNumber('depthCm', depthCm, { min: 0, max: 200, unit: 'cm' }) / 2;
  return (requireNumber('verticalCm', verticalCm, { min: 0, max: 300, unit: 'cm' }) >= 25 ? 20 : 25) + half;
}

/** `raised`: above what nearly all healthy workers can lift over a shift; `very-high`: nearly everyone is at increased risk. */
export type LiftReading = 'within' | 'raised' | 'very-high';

/** The lifting index, load over limit, and how the manual reads it: aim at 1 or less; above 3 nearly everyone is at increased risk. `null` where nothing may be lifted. @throws ClimateRangeError */
export function liftingIndex(loadKg: number, limitKg: number): { index: number | null; reading: LiftReading } {
  const load = requireNumber('loadKg', loadKg, { min: 0, max: 100_000, unit: 'kg' });
  const limit = requireNumber('limitKg', limitKg, { min: 0, max: METRIC.load, unit: 'kg' });
  if (limit === 0) return load === 0 ? { index: 0, reading: 'within' } : { index: null, reading: 'very-high' };
  const index = load / limit;
  return { index, reading: index <= 1 ? 'within' : index <= 3 ? 'raised' : 'very-high' };
}

/** A wet bundle from the floor onto a table, now and then over two hours, in gloves and without handles. Ours. */
export const WET_BUNDLE: LiftTask = Object.freeze({ horizontalCm: 40, verticalCm: 10, originCm: 10, travelCm: 80, asymmetryDeg: 0, liftsPerMin: 0.2, duration: 'moderate', coupling: 'poor' });
