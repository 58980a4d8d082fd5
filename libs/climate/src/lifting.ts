/**
 * What one lift may weigh, and how many people it takes.
 *
 * Published: the revised NIOSH lifting equation (Applications Manual, DHHS (NIOSH) 94-110, rev. 9/2021, as read in a public
 * transcription) and the team factors (UK HSE, Manual handling guidance L23). From memory: the coupling multipliers good and poor.
 * Ours: the wet bundle. The equation does not hold for loads that shift, wet floors, lifting while seated or with one hand,
 * or air far from 19-26 C and 35-50 %: with wet things its answer is an upper screen, so drain or use an aid first.
 */
import { requireChoice, requireNumber } from './climate-range.error.js';

export const LIFT_DURATIONS = ['short', 'moderate', 'long'] as const;
/** Up to 1 h with as much recovery after it; up to 2 h with 0.3 of it; up to 8 h. */
export type LiftDuration = (typeof LIFT_DURATIONS)[number];
export type Coupling = 'good' | 'fair' | 'poor';

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

/** Rows: lifts a minute; short, moderate and long below and from 75 cm (94-110, table 5). */
const FREQUENCY_TABLE: readonly (readonly [perMin: number, ...multipliers: [short: Pair, moderate: Pair, long: Pair]])[] = [
  [0.2, [1, 1], [0.95, 0.95], [0.85, 0.85]], [0.5, [0.97, 0.97], [0.92, 0.92], [0.81, 0.81]], [1, [0.94, 0.94], [0.88, 0.88], [0.75, 0.75]],
  [2, [0.91, 0.91], [0.84, 0.84], [0.65, 0.65]], [3, [0.88, 0.88], [0.79, 0.79], [0.55, 0.55]], [4, [0.84, 0.84], [0.72, 0.72], [0.45, 0.45]],
  [5, [0.8, 0.8], [0.6, 0.6], [0.35, 0.35]], [6, [0.75, 0.75], [0.5, 0.5], [0.27, 0.27]], [7, [0.7, 0.7], [0.42, 0.42], [0.22, 0.22]],
  [8, [0.6, 0.6], [0.35, 0.35], [0.18, 0.18]], [9, [0.52, 0.52], [0.3, 0.3], [0, 0.15]], [10, [0.45, 0.45], [0.26, 0.26], [0, 0.13]],
  [11, [0.41, 0.41], [0, 0.23], [0, 0]], [12, [0.37, 0.37], [0, 0.21], [0, 0]], [13, [0, 0.34], [0, 0], [0, 0]], [14, [0, 0.31], [0, 0], [0, 0]], [15, [0, 0.28], [0, 0], [0, 0]],
];
type Pair = readonly [below75Cm: number, from75Cm: number];

const LOAD_CONSTANT_KG = 23;
const COUPLING: Readonly<Record<Coupling, Pair>> = { good: [1, 1], fair: [0.95, 1], poor: [0.9, 0.9] };
const COLUMN: Readonly<Record<LiftDuration, 1 | 2 | 3>> = { short: 1, moderate: 2, long: 3 };

/** Frequency multiplier, interpolated linearly between the rows; 0 above 15 lifts a minute. @throws ClimateRangeError */
export function frequencyMultiplier(liftsPerMin: number, duration: LiftDuration, originCm: number): number {
  const perMin = Math.max(0.2, requireNumber('liftsPerMin', liftsPerMin, { min: 0, max: 60, unit: 'lifts a minute' }));
  const column = requireChoice('duration', duration, COLUMN);
  const side = originCm < 75 ? 0 : 1;
  const above = FREQUENCY_TABLE.findIndex(([row]) => row >= perMin);
  if (above < 0) return 0;
  const [high, low] = [FREQUENCY_TABLE[above]!, FREQUENCY_TABLE[Math.max(0, above - 1)]!];
  const share = high[0] === low[0] ? 0 : (perMin - low[0]) / (high[0] - low[0]);
  return low[column][side] + share * (high[column][side] - low[column][side]);
}

/** Recommended weight limit of one person in kg, at full precision; 0 where the equation allows no lift at all. @throws ClimateRangeError */
export function recommendedWeightKg(task: LiftTask): number {
  const horizontal = Math.max(25, requireNumber('horizontalCm', task.horizontalCm, { min: 0, max: 200, unit: 'cm' }));
  const vertical = requireNumber('verticalCm', task.verticalCm, { min: 0, max: 300, unit: 'cm' });
  const origin = requireNumber('originCm', task.originCm, { min: 0, max: 300, unit: 'cm' });
  const travel = Math.max(25, requireNumber('travelCm', task.travelCm, { min: 0, max: 300, unit: 'cm' }));
  const asymmetry = requireNumber('asymmetryDeg', task.asymmetryDeg, { min: 0, max: 180, unit: 'degrees' });
  if (horizontal > 63 || vertical > 175 || travel > 175 || asymmetry > 135) return 0;
  const coupling = requireChoice('coupling', task.coupling, COUPLING)[vertical < 75 ? 0 : 1];
  return LOAD_CONSTANT_KG * (25 / horizontal) * (1 - 0.003 * Math.abs(vertical - 75)) * (0.82 + 4.5 / travel) * (1 - 0.0032 * asymmetry) * frequencyMultiplier(task.liftsPerMin, task.duration, origin) * coupling;
}

/** Capacity of one, two and three people as multiples of one's: two lift 2/3 and three 1/2 of the sum; a fourth adds nothing. */
const TEAM_CAPACITY = [1, 4 / 3, 3 / 2] as const;

/** People who lift a load together, 1 to 3; null when it takes an aid instead of people. @throws ClimateRangeError */
export function peopleForLift(loadKg: number, limitOfOneKg: number): number | null {
  const load = requireNumber('loadKg', loadKg, { min: 0, max: 100_000, unit: 'kg' });
  const limit = requireNumber('limitOfOneKg', limitOfOneKg, { min: 0, max: LOAD_CONSTANT_KG, unit: 'kg' });
  const people = TEAM_CAPACITY.findIndex((capacity) => load <= capacity * limit);
  return people < 0 ? null : people + 1;
}

/** A wet bundle from the floor onto a table, now and then over two hours, in gloves and without handles. Ours. */
export const WET_BUNDLE: LiftTask = Object.freeze({ horizontalCm: 40, verticalCm: 10, originCm: 10, travelCm: 80, asymmetryDeg: 0, liftsPerMin: 0.2, duration: 'moderate', coupling: 'poor' });
