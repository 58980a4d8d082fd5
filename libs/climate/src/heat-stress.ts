/**
 * Work and rest in heat: wet-bulb globe temperature (WBGT), what clothing adds to it, and minutes of work in an hour.
 *
 * Published, as read in copies and not in the documents: the WBGT weights (ISO 7243), the limits and metabolic classes of NIOSH
 * 2016-106, the clothing additions (OSHA heat hazard recognition; hood and short sleeves from a national table after ISO 7243).
 * Common practice: the outdoor screening estimate. Ours: the estimate for a hall from air alone and its margin, rounding down to
 * quarters of an hour. A meter at the place beats every estimate; the estimate stands in `wbgt.ts`, the whole check in `heat-work.ts`.
 */
import { requireChoice, requireNumber, type NumberRule } from './climate-range.error.js';
import { CALIBRATION } from './calibration.js';
import { moistAir, wetBulbC, type MeasuredAir } from './psychrometrics.js';

/** What still air adds to the estimate, degrees Celsius: the natural wet bulb stays warmer than the ventilated one. Ours. */
export const STILL_AIR_MARGIN_C = CALIBRATION.wbgtStillAirMarginC.value;

/** WBGT in a hall without radiant heat, `0.7 wet bulb + 0.3 air`, degrees Celsius; add `STILL_AIR_MARGIN_C` in still air. @throws ClimateRangeError */
export function wbgtIndoorC(air: MeasuredAir): number {
  return 0.7 * wetBulbC(moistAir(air)) + 0.3 * air.airTempC;
}

/** Degrees Celsius that clothing adds to the WBGT. Fully encapsulating suits are not in the table: nothing here holds for them. */
export const CLOTHING_ADDITION_C = Object.freeze({ 'work-clothes': 0, 'cloth-coverall': 0, 'sms-coverall': 0.5, 'film-coverall': 1, 'double-layer': 3, 'vapour-barrier': 11 });
export type HeatClothing = keyof typeof CLOTHING_ADDITION_C;

/** Degrees Celsius that a hood adds, and that short sleeves take off ordinary work clothes. */
export const HOOD_ADDITION_C = 1;
export const SHORT_SLEEVES_ADDITION_C = -1;

/** What somebody wears. */
export interface HeatWear {
  clothing: HeatClothing;
  hood?: boolean;
  /** Counts with ordinary work clothes only. */
  shortSleeves?: boolean;
}

/** Degrees Celsius that all of it adds. @throws ClimateRangeError */
export function clothingAdditionC({ clothing, hood = false, shortSleeves = false }: HeatWear): number {
  const layer = requireChoice('clothing', clothing, CLOTHING_ADDITION_C);
  return layer + (hood ? HOOD_ADDITION_C : 0) + (shortSleeves && clothing === 'work-clothes' ? SHORT_SLEEVES_ADDITION_C : 0);
}

/** Metabolic rates, watts. */
export const METABOLIC_RATE_W = Object.freeze({ light: 180, moderate: 300, heavy: 415, 'very-heavy': 520 });
export type WorkEffort = keyof typeof METABOLIC_RATE_W;
/** Resting, watts. */
export const REST_RATE_W = 115;

/** One hour of work as it is done. */
export interface HeatWork extends HeatWear {
  wbgtC: number;
  effort: WorkEffort;
  /** Volunteers are not, unless they have worked in such heat for days. */
  acclimatised: boolean;
}

/** Up to what the screening estimate gives for the hottest steam that the psychrometrics take. */
const WBGT_RULE: NumberRule = { min: -40, max: 150, unit: 'degrees Celsius' };

/** The metabolic rate in watts that may be kept up for an hour at a WBGT: `59.9 - 14.1 log10 M` turned round, for the acclimatised `56.7 - 11.5 log10 M`. */
export function sustainableRateW(wbgtWithClothingC: number, acclimatised: boolean): number {
  const wbgt = requireNumber('wbgtC', wbgtWithClothingC, WBGT_RULE);
  return acclimatised ? 10 ** ((56.7 - wbgt) / 11.5) : 10 ** ((59.9 - wbgt) / 14.1);
}

/** The WBGT, with what clothing adds, up to which work at a metabolic rate may go on all hour: the recommended alert limit, for the acclimatised the recommended exposure limit. @throws ClimateRangeError */
export function heatLimitC(metabolicRateW: number, acclimatised: boolean): number {
  const log = Math.log10(requireNumber('metabolicRateW', metabolicRateW, { min: 50, max: 1000, unit: 'W' }));
  return acclimatised ? 56.7 - 11.5 * log : 59.9 - 14.1 * log;
}

/** Minutes of work in each hour, the rest of it resting in the same place: 0, 15, 30, 45 or 60, rounded down. @throws ClimateRangeError */
export function workMinutesPerHour(work: HeatWork): number {
  const rate = requireChoice('effort', work.effort, METABOLIC_RATE_W);
  const sustainable = sustainableRateW(requireNumber('wbgtC', work.wbgtC, WBGT_RULE) + clothingAdditionC(work), work.acclimatised);
  const share = Math.min(1, Math.max(0, (sustainable - REST_RATE_W) / (rate - REST_RATE_W)));
  return Math.floor(share * 4) * 15;
}
