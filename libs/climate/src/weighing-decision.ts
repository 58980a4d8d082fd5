/**
 * Ready, not yet, or weigh again: what weighings say about a thing that dries, and when to weigh it next.
 *
 * Two ways to ready. By target: the mass is below dry mass x (1 + target) by more than scale and dry mass can be wrong. By
 * rest: between two weighings it lost less than anything still above the target would have lost in that air and time, even on
 * the slow side of its factor. The second needs no dry mass, but air dry enough (a thing also comes to rest, wet, in damp air),
 * a scale fine enough and time enough, and each of them is said when it is missing. Published: nothing here. Our calibration:
 * the margins (two standard errors), least and longest times. Thick and closed goods get a least time and no other.
 */
import type { Advice } from './advice.js';
import { ClimateRangeError, requireChoice, requireNumber } from './climate-range.error.js';
import { DEFAULT_CALIBRATION, type CalibrationValues } from './calibration.js';
import { requireReadings, type AirReading } from './air-history.js';
import { BUILDS, type Build } from './drying.js';
import { AREA_RULE, arrangementFactor, type ReachInput } from './evaporation.js';
import { requireWeighing, weighingErrorKg, type Weighing } from './fit-runs.js';
import { sorptionOf, type Material, type SorptionProperties } from './materials.js';
import { airState, type MeasuredAir } from './psychrometrics.js';
import { decide } from './weighing-rules.js';
import { DRY_MASS_RULE, dryTargetX, MOISTURE_RULE } from './water-in-things.js';

/** A thing on its rack, its weighings and its air. */
export interface WeighingQuestion extends ReachInput {
  nowMs: number;
  material: Material | SorptionProperties;
  /** `thin` if absent. */
  build?: Build;
  /** kg; `null` when nobody knows it. */
  dryMassKg: number | null;
  /** How far the dry mass may be off, as a share: 0 when weighed (default), 0.3 for a guess from the size. */
  dryMassErrorFraction?: number;
  /** Every breathing face, m2. */
  exposedAreaM2: number;
  /** At least one, in order of time, none after now. */
  weighings: readonly Weighing[];
  /** Air of the place, in order of time; may be empty. */
  air: readonly AirReading[];
  /** The air from now on; the last reading if absent. */
  expectedAir?: MeasuredAir & { airSpeedMPerS?: number };
  /** Interval of a fitted factor; without it the factor is trusted to `thinErrorFraction`. */
  factorBand?: { low: number; high: number };
  targetX?: number;
}

export const WEIGHING_CODES = [
  'at-target', 'at-rest', 'above-target', 'still-falling', 'air-too-damp', 'near-target', 'one-weighing', 'interval-too-short', 'scale-too-coarse', 'weight-went-up', 'air-not-known',
] as const;
export type WeighingCode = (typeof WEIGHING_CODES)[number];

/** What to do, why, and when to weigh next. A ready thing is still looked at and felt, and conditioned at or below 65 %. */
export interface WeighingDecision {
  decision: 'ready' | 'not-yet' | 'weigh-again';
  code: WeighingCode;
  /** When the next weighing will tell something; `null` when ready, or when something else must change first. */
  weighAgainAtMs: number | null;
  /** Mass at which it counts as dry; `null` without a dry mass. */
  targetMassKg: number | null;
  /** Water above that mass at the last weighing, kg, not below 0; `null` without a dry mass. */
  waterLeftKg: number | null;
  /** By the model, from the last weighing on; all `null` when unknown. For thick and closed goods the earliest only. */
  readyAtMs: { earliest: number | null; likely: number | null; latest: number | null };
  advice: Advice<WeighingCode>;
}

/** The question in working numbers. */
export interface CheckedWeighing {
  question: WeighingQuestion;
  sorption: SorptionProperties;
  target: number;
  slow: boolean;
  factor: { low: number; likely: number; high: number };
  expected: (MeasuredAir & { airSpeedMPerS?: number }) | null;
  last: Weighing;
  lastErrorKg: number;
}

const BUILD_NAMES = Object.fromEntries(BUILDS.map((build) => [build, build])) as Record<Build, Build>;

/** Decides. @throws ClimateRangeError for numbers out of range, times out of order, or no weighing at all */
export function weighingDecision(question: WeighingQuestion, values: CalibrationValues = DEFAULT_CALIBRATION): WeighingDecision {
  return decide(check(question, values), values);
}

function check(question: WeighingQuestion, values: CalibrationValues): CheckedWeighing {
  const last = requireTimes(question);
  const build = requireChoice('build', question.build ?? 'thin', BUILD_NAMES);
  const sorption = sorptionOf(question.material, values);
  requireNumber('exposedAreaM2', question.exposedAreaM2, AREA_RULE);
  requireNumber('dryMassErrorFraction', question.dryMassErrorFraction ?? 0, { min: 0, max: 1, unit: '(share)' });
  if (question.dryMassKg !== null) requireNumber('dryMassKg', question.dryMassKg, DRY_MASS_RULE);
  requireReadings(question.air);
  if (question.expectedAir !== undefined) airState(question.expectedAir);
  const likely = arrangementFactor(question, values);
  const trust = 1 - values.thinErrorFraction;
  return {
    question,
    sorption,
    target: requireNumber('targetX', question.targetX ?? dryTargetX(sorption, values), MOISTURE_RULE),
    slow: build !== 'thin',
    factor: { low: question.factorBand?.low ?? likely * trust, likely, high: question.factorBand?.high ?? likely / trust },
    expected: question.expectedAir ?? question.air.at(-1) ?? null,
    last,
    lastErrorKg: weighingErrorKg(last, values),
  };
}

function requireTimes(question: WeighingQuestion): Weighing {
  requireNumber('nowMs', question.nowMs, { min: -8.64e15, max: 8.64e15, unit: 'milliseconds since 1970' });
  question.weighings.forEach((weighing, i) => {
    requireWeighing(weighing);
    if (i > 0 && weighing.atMs < question.weighings[i - 1]!.atMs) throw new ClimateRangeError('The weighings are out of order; sort them by time.', 'weighings');
  });
  const last = question.weighings.at(-1);
  if (last === undefined) throw new ClimateRangeError('Give at least one weighing.', 'weighings');
  if (last.atMs > question.nowMs) throw new ClimateRangeError('A weighing is later than now; check the times.', 'weighings');
  return last;
}
