/**
 * Work and rest in heat: wet-bulb globe temperature (WBGT), what clothing adds to it, and minutes of work in an hour.
 *
 * From memory, as read only in public implementations and not in the documents: the WBGT weights, the limits of NIOSH 2016-106,
 * the metabolic classes, the clothing additions. Ours: the estimate from air without a globe thermometer, and rounding down.
 * A meter at the place beats every estimate.
 */
import { requireChoice, requireNumber } from './climate-range.error.js';
import { wetBulbC, type MoistAir } from './psychrometrics.js';

/** What still air adds to the estimate, degrees Celsius: the natural wet bulb stays warmer than the ventilated one. Ours. */
export const STILL_AIR_MARGIN_C = 0.5;

/** WBGT in a hall without radiant heat, `0.7 wet bulb + 0.3 air`, degrees Celsius; add `STILL_AIR_MARGIN_C` in still air. @throws ClimateRangeError */
export function wbgtIndoorC(air: MoistAir): number {
  return 0.7 * wetBulbC(air) + 0.3 * air.airTempC;
}

/** Degrees Celsius that clothing adds to the WBGT. */
export const CLOTHING_ADDITION_C = Object.freeze({ 'work-clothes': 0, 'sms-coverall': 0.5, 'film-coverall': 1, 'double-layer': 3, 'vapour-barrier': 11 });
export type HeatClothing = keyof typeof CLOTHING_ADDITION_C;

/** Metabolic rates, watts. */
export const METABOLIC_RATE_W = Object.freeze({ light: 180, moderate: 300, heavy: 415, 'very-heavy': 520 });
export type WorkEffort = keyof typeof METABOLIC_RATE_W;
const REST_W = 115;

/** One hour of work as it is done. */
export interface HeatWork {
  wbgtC: number;
  clothing: HeatClothing;
  effort: WorkEffort;
  /** Volunteers are not, unless they have worked in such heat for days. */
  acclimatised: boolean;
}

/** The metabolic rate in watts that may be kept up for an hour at a WBGT: `59.9 - 14.1 log10 M` turned round, for the acclimatised `56.7 - 11.5 log10 M`. */
export function sustainableRateW(wbgtWithClothingC: number, acclimatised: boolean): number {
  const wbgt = requireNumber('wbgtC', wbgtWithClothingC, { min: -40, max: 80, unit: 'degrees Celsius' });
  return acclimatised ? 10 ** ((56.7 - wbgt) / 11.5) : 10 ** ((59.9 - wbgt) / 14.1);
}

/** Minutes of work in each hour, the rest of it resting in the same place: 0, 15, 30, 45 or 60, rounded down. @throws ClimateRangeError */
export function workMinutesPerHour(work: HeatWork): number {
  const rate = requireChoice('effort', work.effort, METABOLIC_RATE_W);
  const sustainable = sustainableRateW(work.wbgtC + requireChoice('clothing', work.clothing, CLOTHING_ADDITION_C), work.acclimatised);
  const share = Math.min(1, Math.max(0, (sustainable - REST_W) / (rate - REST_W)));
  return Math.floor(share * 4) * 15;
}
