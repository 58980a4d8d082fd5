/**
 * The mould clock: a rule-of-practice countdown, never a statement that mould will start at some hour.
 *
 * Published: the exponents 0.68 and 13.9, the critical humidity RHcrit(T) and the stop at or below 0 C (Hukka and Viitanen,
 * A mathematical model of mould growth on wooden material, Wood Science and Technology 33, 1999; read in two independent public
 * implementations, the paper as abstract). They were found on WOOD and are extrapolated here to textile, paper, leather and photographs.
 * Our calibration: 48 h at 22 C and saturation (to the agency rule "dry or freeze within 24-48 h": US EPA mold course and
 * 402-K-01-001 ch. 3; NPS/AIC sheet via University of Iowa), the class ratio for synthetics, flat growth above 35 C, and that
 * a dose is never taken back: drying and freezing pause the clock, they do not reset it.
 */
import { requireChoice, requireNumber, type NumberRule } from './climate-range.error.js';
import { DEFAULT_CALIBRATION, type CalibrationValues } from './calibration.js';
import { sorptionOf, type Material, type SorptionProperties } from './materials.js';
import { wetSurfaceFromRatio } from './moist-air.core.js';
import { airState, RELATIVE_HUMIDITY_RULE, type MeasuredAir } from './psychrometrics.js';
import { activity, MOISTURE_RULE } from './water-in-things.js';

/** `sensitive`: textile, paper, leather, photographs and anything soiled. `clean-synthetic`: clean man-made fibre only. */
export const MOULD_CLASSES = ['sensitive', 'clean-synthetic'] as const;
export type MouldClass = (typeof MOULD_CLASSES)[number];

/** A stretch of time during which a surface stayed much the same. */
export interface ClockSegment {
  hours: number;
  /** Temperature of the item's own surface, C. */
  surfaceTempC: number;
  /** 0 to 1; 1 for anything wet or unknown. */
  waterActivity: number;
}

/** What the clock says, with the band that the sources span. */
export interface MouldClock {
  /** 0 fresh, 1 the 48 h end of the rule. */
  dose: number;
  state: 'in-time' | 'amber' | 'red';
  /** The clock stands still now: at or below 0 C, or too dry to grow. It is not reset. */
  paused: boolean;
  /** Hours to red if nothing changes; `null` while paused, 0 once red. */
  hoursLeft: number | null;
  /** The same for the short and the long end of what the sources span; `null` while paused. */
  hoursLeftBand: { shortest: number; longest: number } | null;
  statement: string;
}

const SURFACE_TEMP_RULE: NumberRule = { min: -60, max: 60, unit: 'C' };
const ACTIVITY_RULE: NumberRule = { min: 0, max: 1, unit: '(0 to 1)', hint: 'Use 1 for goods that are wet or not measured.' };
const DOSE_RULE: NumberRule = { min: 0, max: 1e6, unit: '(dose)' };
const REFERENCE_TEMP_C = 22;
const SENSITIVE_MIN_PCT = 80;
const CLASS_FACTORS: Readonly<Record<MouldClass, (values: CalibrationValues) => number>> = {
  sensitive: () => 1,
  'clean-synthetic': (values) => values.cleanSyntheticFactor,
};

/**
 * Critical surface humidity in percent for growth at a temperature (Hukka and Viitanen 1999), never below the 80 % of
 * sensitive materials. @throws ClimateRangeError
 */
export function criticalHumidityPct(surfaceTempC: number): number {
  return criticalPctOf(requireNumber('surfaceTempC', surfaceTempC, SURFACE_TEMP_RULE), SENSITIVE_MIN_PCT);
}

/** Critical humidity without checks, for a class of material that needs at least `minPct` to grow. */
export function criticalPctOf(t: number, minPct: number): number {
  return t > 20 ? minPct : Math.max(minPct, -0.00267 * t ** 3 + 0.16 * t * t - 3.13 * t + 100);
}

/** Dose gained per hour; 0 at or below 0 C and below the critical humidity. @throws ClimateRangeError */
export function mouldRatePerH(surfaceTempC: number, waterActivity: number, mouldClass: MouldClass = 'sensitive', values: CalibrationValues = DEFAULT_CALIBRATION): number {
  requireNumber('surfaceTempC', surfaceTempC, SURFACE_TEMP_RULE);
  requireNumber('waterActivity', waterActivity, ACTIVITY_RULE);
  return mouldRateUnchecked(surfaceTempC, waterActivity, mouldFactor(mouldClass, values), values);
}

/** The km of a class: 1 or the calibration's ratio. @throws ClimateRangeError */
export function mouldFactor(mouldClass: MouldClass, values: CalibrationValues): number {
  return requireChoice('mouldClass', mouldClass, CLASS_FACTORS)(values);
}

/** `mouldRatePerH` without checks, for inner loops. */
export function mouldRateUnchecked(t: number, aw: number, factor: number, values: CalibrationValues): number {
  if (t <= 0 || 100 * aw < criticalPctOf(t, SENSITIVE_MIN_PCT)) return 0;
  return (factor / values.mouldHoursAtReference) * (Math.min(t, values.mouldPlateauTempC) / REFERENCE_TEMP_C) ** 0.68 * Math.min(aw, 1) ** 13.9;
}

/**
 * Surface temperature and water activity of a thing in given air: the wet bulb while X is above the critical moisture, else
 * the air; the wetter of the thing and the air. (Over water also below 0 C.) `moistureX: null` (unknown) counts as wet at AIR temperature, the faster side.
 * @throws ClimateRangeError
 */
export function surfaceConditions(air: MeasuredAir, material: Material | SorptionProperties, moistureX: number | null, values: CalibrationValues = DEFAULT_CALIBRATION): { surfaceTempC: number; waterActivity: number } {
  const { t, w, pressure } = airState(air);
  const sorption = sorptionOf(material, values);
  if (moistureX === null) return { surfaceTempC: t, waterActivity: 1 };
  const x = requireNumber('moistureX', moistureX, MOISTURE_RULE);
  return {
    surfaceTempC: x > sorption.criticalX ? wetSurfaceFromRatio(t, w, pressure) : t,
    waterActivity: Math.max(activity(sorption, x), air.relativeHumidityPct / 100),
  };
}

/** Dose after a history, starting from `startDose`. Additive over segments and never falling. @throws ClimateRangeError */
export function mouldDose(history: readonly ClockSegment[], mouldClass: MouldClass = 'sensitive', startDose = 0, values: CalibrationValues = DEFAULT_CALIBRATION): number {
  const start = requireNumber('startDose', startDose, DOSE_RULE);
  return history.reduce((dose, segment) => {
    const hours = requireNumber('hours', segment.hours, { min: 0, max: 1e6, unit: 'h', hint: 'A stretch of history cannot be negative; put the segments in order of time.' });
    return dose + hours * mouldRatePerH(segment.surfaceTempC, segment.waterActivity, mouldClass, values);
  }, start);
}

/** Hours to red in the conditions of now: `null` while the clock stands still, 0 once red. @throws ClimateRangeError */
export function mouldHoursLeft(dose: number, now: { surfaceTempC: number; waterActivity: number }, mouldClass: MouldClass = 'sensitive', values: CalibrationValues = DEFAULT_CALIBRATION): number | null {
  const rate = mouldRatePerH(now.surfaceTempC, now.waterActivity, mouldClass, values);
  const left = values.redDose - requireNumber('dose', dose, DOSE_RULE);
  if (left <= 0) return 0;
  return rate === 0 ? null : left / rate;
}

/** The whole clock for a dose and the conditions of now. @throws ClimateRangeError */
export function mouldClock(dose: number, now: { surfaceTempC: number; waterActivity: number }, mouldClass: MouldClass = 'sensitive', values: CalibrationValues = DEFAULT_CALIBRATION): MouldClock {
  const hoursLeft = mouldHoursLeft(dose, now, mouldClass, values);
  const rate = mouldRatePerH(now.surfaceTempC, now.waterActivity, mouldClass, values);
  const paused = rate === 0;
  const state = dose >= values.redDose ? 'red' : dose >= values.amberDose ? 'amber' : 'in-time';
  const leftAt = (referenceHours: number): number => Math.max(0, ((referenceHours / values.mouldHoursAtReference) * values.redDose - dose) / rate);
  const hoursLeftBand = paused ? null : { shortest: leftAt(values.mouldHoursShortest), longest: leftAt(values.mouldHoursLongest) };
  return { dose, state, paused, hoursLeft, hoursLeftBand, statement: clockStatement(state, paused, hoursLeft) };
}

function clockStatement(state: MouldClock['state'], paused: boolean, hoursLeft: number | null): string {
  const rule = 'This is a rule-of-practice clock, not a forecast of when mould starts.';
  if (state === 'red') return `The time the rule of practice allows is used up: look for mould before handling, wear protection, and ask the lead. ${rule}`;
  if (paused || hoursLeft === null) return `The clock stands still at this temperature and dryness; it goes on from here when warmed or wetted. ${rule}`;
  return `About ${Math.floor(hoursLeft)} h left by the 48 h rule of practice if nothing changes. ${rule}`;
}

/** How a room stands for the dry things in it. */
export interface RoomClimate {
  overCap: boolean;
  /** `mould-possible`: at or above the critical humidity even for dry goods; otherwise by the cap. */
  state: 'below-cap' | 'near-cap' | 'over-cap' | 'mould-possible';
  statement: string;
}

/** Judges a room reading against its cap and the critical humidity for mould. @throws ClimateRangeError */
export function roomState(room: { airTempC: number; relativeHumidityPct: number; capPct?: number }, values: CalibrationValues = DEFAULT_CALIBRATION): RoomClimate {
  const t = requireNumber('airTempC', room.airTempC, SURFACE_TEMP_RULE);
  const rh = requireNumber('relativeHumidityPct', room.relativeHumidityPct, RELATIVE_HUMIDITY_RULE);
  const cap = requireNumber('capPct', room.capPct ?? values.roomCapPct, { min: 30, max: 100, unit: '%' });
  const overCap = rh > cap;
  if (mouldRateUnchecked(t, rh / 100, 1, values) > 0) {
    return { overCap, state: 'mould-possible', statement: 'Air this damp lets mould grow even on things that are dry. Hang nothing more; dehumidify, or move goods to a drier or colder place.' };
  }
  if (overCap) return { overCap, state: 'over-cap', statement: 'The room is above its cap. Hang nothing more until it falls.' };
  if (rh > cap - values.nearCapPct) return { overCap, state: 'near-cap', statement: 'The room is close to its cap. Add wet goods only as others come off.' };
  return { overCap, state: 'below-cap', statement: 'The room is below its cap. Goods themselves stay damp long after the air reads dry: check each before packing.' };
}
