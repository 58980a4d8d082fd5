/**
 * The mould clock of one thing as it is kept: a dose that grows stretch by stretch, and on what it rests. Plain data in and out, so
 * that a new reading costs only its own stretch and the state can lie in a table between two readings.
 *
 * Ours throughout: how stretches without readings are filled. A gap is never good news: it counts as the worse of its two ends, or as
 * saturated air at the last known temperature, at the temperature outside, or at an assumed one, in this order.
 */
import { requireChoice, requireNumber, type NumberRule } from './climate-range.error.js';
import { DEFAULT_CALIBRATION, type CalibrationValues } from './calibration.js';
import { sorptionOf, type Material, type SorptionProperties } from './materials.js';
import { mouldFactor, mouldRateUnchecked, surfaceConditions, type MouldClass } from './mould-clock.js';
import { AIR_TEMP_RULE, RELATIVE_HUMIDITY_RULE } from './psychrometrics.js';

/** Where a thing is. `room` and `freezer` may have readings of their own; `unknown`: nobody knows, so the air outside counts, saturated. */
export const CLOCK_PLACEMENTS = ['room', 'freezer', 'outdoors', 'unknown'] as const;
export type ClockPlacement = (typeof CLOCK_PLACEMENTS)[number];

/**
 * On what a stretch rests. `measured`: between two readings close together; `interpolated`: a straight line over a short gap, or the
 * last reading held for as long; `assumed`: filled on the cautious side.
 */
export const CLOCK_BASES = ['measured', 'interpolated', 'assumed'] as const;
export type ClockBasis = (typeof CLOCK_BASES)[number];

/** Air at a moment. Humidity `null` where the sensor has none: it counts as saturated. */
export interface ClockReading {
  /** Epoch milliseconds. */
  atMs: number;
  /** -50 to 60 C. */
  airTempC: number;
  /** 0 to 100 %. */
  relativeHumidityPct: number | null;
}

/** The thing whose clock it is. */
export interface ClockThing {
  material: Material | SorptionProperties;
  mouldClass: MouldClass;
}

/** The clock of a thing up to a moment; plain JSON. */
export interface ClockState {
  /** Up to when the dose is reckoned, epoch milliseconds. */
  atMs: number;
  /** 0 fresh, 1 the 48 h end of the rule. Never falls. */
  dose: number;
  /** The same dose by what it rests on. */
  doseBy: Record<ClockBasis, number>;
  /** Hours reckoned so far by what they rest on. */
  hoursBy: Record<ClockBasis, number>;
  /** Hours of them in which the clock stood still. */
  pausedHours: number;
  /** The part of the dose gained while nobody knew how wet the thing was, which counts as wet. */
  doseWetnessUnknown: number;
}

/** What is known of a stretch of time that begins where the state ends. */
export interface ClockStretch {
  untilMs: number;
  placement: ClockPlacement;
  /** The last reading of the place at or before the beginning, and the first at or after the end; `null` for none (yet). */
  before: ClockReading | null;
  after: ClockReading | null;
  /**
   * Water in the thing, kg per kg dry; hold the last known value until the next weighing. `null`: not known, or bagged or heaped so
   * that the air does not reach it. It then counts as wet at air temperature.
   */
  moistureX: number | null;
  /** Air outside, for places without readings; `null` when unknown. */
  outdoor: Omit<ClockReading, 'atMs'> | null;
}

/** A piece of a stretch in which everything stayed the same; the steps of the sum. */
export interface ClockStep {
  fromMs: number;
  untilMs: number;
  basis: ClockBasis;
  surfaceTempC: number;
  waterActivity: number;
  doseGained: number;
}

export const HOUR_MS = 3_600_000;
/** Air between two readings is taken at the middle of each such step of the absolute clock, so that a stretch cut anywhere counts the same. */
const STEP_MS = HOUR_MS / 4;
const MOMENT_RULE: NumberRule = { min: -8.64e15, max: 8.64e15, unit: 'ms', hint: 'Give moments as epoch milliseconds.' };
const DOSE_RULE: NumberRule = { min: 0, max: 1e6, unit: '(dose)' };

/** A clock that begins: when the thing came out of the water, or when the flood fell where nobody knows. A dose brought along counts as assumed. @throws ClimateRangeError */
export function startClock(atMs: number, dose = 0): ClockState {
  requireNumber('dose', dose, DOSE_RULE);
  return { atMs: requireNumber('atMs', atMs, MOMENT_RULE), dose, doseBy: { measured: 0, interpolated: 0, assumed: dose }, hoursBy: { measured: 0, interpolated: 0, assumed: 0 }, pausedHours: 0, doseWetnessUnknown: 0 };
}

/**
 * The clock after one more stretch. Additive: cutting a stretch in two, with the same readings around it, counts the same. A changed
 * calibration holds for the stretches to come; to apply it to the past, reckon again from the readings.
 * @throws ClimateRangeError for a stretch that runs backwards and for readings out of range
 */
export function advanceClock(state: ClockState, stretch: ClockStretch, thing: ClockThing, values: CalibrationValues = DEFAULT_CALIBRATION): ClockState {
  return addSteps(state, stretchSteps(state.atMs, stretch, thing, values), stretch);
}

/** Puts the steps of a stretch onto a state. */
export function addSteps(state: ClockState, steps: readonly ClockStep[], stretch: Pick<ClockStretch, 'untilMs' | 'moistureX'>): ClockState {
  const next: ClockState = { ...state, doseBy: { ...state.doseBy }, hoursBy: { ...state.hoursBy }, atMs: stretch.untilMs };
  for (const { fromMs, untilMs, basis, doseGained } of steps) {
    const hours = (untilMs - fromMs) / HOUR_MS;
    next.dose += doseGained;
    next.doseBy[basis] += doseGained;
    next.hoursBy[basis] += hours;
    if (doseGained === 0) next.pausedHours += hours;
    if (stretch.moistureX === null) next.doseWetnessUnknown += doseGained;
  }
  return next;
}

/** The steps of a stretch from `fromMs` on. @throws ClimateRangeError */
export function stretchSteps(fromMs: number, stretch: ClockStretch, thing: ClockThing, values: CalibrationValues): ClockStep[] {
  checkStretch(fromMs, stretch);
  const sorption = sorptionOf(thing.material, values);
  const factor = mouldFactor(thing.mouldClass, values);
  const steps: ClockStep[] = [];
  for (const part of partsOf(fromMs, stretch, (reading) => rateIn(reading, stretch.moistureX, sorption, factor, values), values)) {
    for (let at = part.fromMs; at < part.untilMs; ) {
      const gridMs = Math.floor(at / STEP_MS) * STEP_MS;
      const untilMs = part.steady ? part.untilMs : Math.min(part.untilMs, gridMs + STEP_MS);
      const air = part.airAt(gridMs + STEP_MS / 2);
      const surface = surfaceIn(air, stretch.moistureX, sorption, values);
      const rate = mouldRateUnchecked(surface.surfaceTempC, surface.waterActivity, factor, values);
      const humidityMissed = air.relativeHumidityPct === null && stretch.moistureX !== null && rate > 0;
      steps.push({ fromMs: at, untilMs, basis: humidityMissed ? 'assumed' : part.basis, ...surface, doseGained: (rate * (untilMs - at)) / HOUR_MS });
      at = untilMs;
    }
  }
  return steps;
}

type Air = Omit<ClockReading, 'atMs'>;

/** A part of a stretch that rests on one thing. */
interface Part {
  fromMs: number;
  untilMs: number;
  basis: ClockBasis;
  /** The air does not change within it. */
  steady: boolean;
  airAt: (ms: number) => Air;
}

function partsOf(fromMs: number, stretch: ClockStretch, rateOf: (air: Air) => number, values: CalibrationValues): Part[] {
  const { untilMs, before, after } = stretch;
  const steady = (from: number, until: number, basis: ClockBasis, air: Air): Part => ({ fromMs: from, untilMs: until, basis, steady: true, airAt: () => air });
  const unread = stretch.placement === 'unknown' || (before === null && after === null);
  if (unread) return [steady(fromMs, untilMs, 'assumed', airUnread(stretch, values))];
  if (before !== null && after !== null) {
    const gapH = (after.atMs - before.atMs) / HOUR_MS;
    if (gapH > values.readingGapInterpolatedMaxH) return [steady(fromMs, untilMs, 'assumed', rateOf(after) > rateOf(before) ? after : before)];
    return [{ fromMs, untilMs, basis: gapH <= values.readingGapMeasuredMaxH ? 'measured' : 'interpolated', steady: false, airAt: (ms) => between(before, after, ms) }];
  }
  // One end only: the reading is held for a short while, beyond it the air counts as saturated at the same temperature.
  const held = (before ?? after)!;
  const holdMs = values.readingGapInterpolatedMaxH * HOUR_MS;
  const saturated = { airTempC: held.airTempC, relativeHumidityPct: 100 };
  const edgeMs = Math.min(untilMs, Math.max(fromMs, before === null ? held.atMs - holdMs : held.atMs + holdMs));
  const parts = before === null
    ? [steady(fromMs, edgeMs, 'assumed', saturated), steady(edgeMs, untilMs, 'interpolated', held)]
    : [steady(fromMs, edgeMs, 'interpolated', held), steady(edgeMs, untilMs, 'assumed', saturated)];
  return parts.filter((part) => part.untilMs > part.fromMs);
}

/** Air of a place that nobody reads. */
function airUnread({ placement, outdoor }: ClockStretch, values: CalibrationValues): Air {
  if (placement === 'freezer') return { airTempC: values.freezerAssumedTempC, relativeHumidityPct: 100 };
  if (outdoor === null) return { airTempC: values.assumedTempC, relativeHumidityPct: 100 };
  return placement === 'outdoors' ? outdoor : { airTempC: outdoor.airTempC, relativeHumidityPct: 100 };
}

function between(before: ClockReading, after: ClockReading, ms: number): Air {
  const share = after.atMs === before.atMs ? 1 : Math.min(1, Math.max(0, (ms - before.atMs) / (after.atMs - before.atMs)));
  const mixed = (a: number, b: number): number => a + share * (b - a);
  const humidity = before.relativeHumidityPct === null || after.relativeHumidityPct === null ? null : mixed(before.relativeHumidityPct, after.relativeHumidityPct);
  return { airTempC: mixed(before.airTempC, after.airTempC), relativeHumidityPct: humidity };
}

function surfaceIn({ airTempC, relativeHumidityPct }: Air, moistureX: number | null, sorption: SorptionProperties, values: CalibrationValues): { surfaceTempC: number; waterActivity: number } {
  return surfaceConditions({ airTempC, relativeHumidityPct: relativeHumidityPct ?? 100 }, sorption, moistureX, values);
}

function rateIn(air: Air, moistureX: number | null, sorption: SorptionProperties, factor: number, values: CalibrationValues): number {
  const { surfaceTempC, waterActivity } = surfaceIn(air, moistureX, sorption, values);
  return mouldRateUnchecked(surfaceTempC, waterActivity, factor, values);
}

function checkStretch(fromMs: number, stretch: ClockStretch): void {
  requireNumber('untilMs', stretch.untilMs, { ...MOMENT_RULE, min: requireNumber('atMs', fromMs, MOMENT_RULE), hint: 'A stretch begins where the clock stands; reckon again from the readings to change the past.' });
  requireChoice('placement', stretch.placement, PLACEMENT_KNOWN);
  if (stretch.before !== null) checkReading('before', stretch.before, { max: fromMs });
  if (stretch.after !== null) checkReading('after', stretch.after, { min: stretch.untilMs });
  if (stretch.outdoor !== null) checkAir('outdoor', stretch.outdoor);
}

const PLACEMENT_KNOWN: Readonly<Record<ClockPlacement, true>> = { room: true, freezer: true, outdoors: true, unknown: true };

/** @throws ClimateRangeError naming the reading by `name` */
export function checkReading(name: string, reading: ClockReading, within: { min?: number; max?: number } = {}): void {
  requireNumber(`${name}.atMs`, reading.atMs, { ...MOMENT_RULE, ...within });
  checkAir(name, reading);
}

function checkAir(name: string, { airTempC, relativeHumidityPct }: Air): void {
  requireNumber(`${name}.airTempC`, airTempC, AIR_TEMP_RULE);
  if (relativeHumidityPct !== null) requireNumber(`${name}.relativeHumidityPct`, relativeHumidityPct, RELATIVE_HUMIDITY_RULE);
}
