/**
 * Moist-air relations without argument checks, for inner loops. Plain numbers: t in C, pressures in Pa, W in kg water
 * vapour per kg dry air. The checked, documented surface is `psychrometrics.ts`.
 *
 * Published: ASHRAE Handbook - Fundamentals 2017, SI edition, chapter 1 (equations for saturation pressure, humidity
 * ratio, enthalpy, specific volume and thermodynamic wet bulb), read in the PsychroLib implementation of that chapter.
 */
import { bracketedRoot } from './root.js';

/** Standard sea-level pressure, ASHRAE Fundamentals 2017 ch. 1 table 1. */
export const SEA_LEVEL_PRESSURE_PA = 101325;
/** Ratio of the molar masses of water and dry air, ASHRAE Fundamentals 2017 ch. 1. */
export const MASS_RATIO = 0.621945;
/** Specific heat of dry air, J/(kg K), ASHRAE Fundamentals 2017 ch. 1. */
export const DRY_AIR_HEAT_J_PER_KG_K = 1006;
/** The two branches meet at the triple point; switching at 0 C would leave a step that stalls a dew-point search. */
const TRIPLE_POINT_C = 0.01;

export function saturationPressure(t: number): number {
  const k = t + 273.15;
  const k2 = k * k;
  if (t <= TRIPLE_POINT_C) {
    return Math.exp(-5.6745359e3 / k + 6.3925247 - 9.677843e-3 * k + 6.2215701e-7 * k2 + 2.0747825e-9 * k2 * k - 9.484024e-13 * k2 * k2 + 4.1635019 * Math.log(k));
  }
  return Math.exp(-5.8002206e3 / k + 1.3914993 - 4.8640239e-2 * k + 4.1764768e-5 * k2 - 1.4452093e-8 * k2 * k + 6.5459673 * Math.log(k));
}

export function ratioFromVapourPressure(pa: number, pressure: number): number {
  return (MASS_RATIO * pa) / (pressure - pa);
}

export function vapourPressureFromRatio(w: number, pressure: number): number {
  return (pressure * w) / (MASS_RATIO + w);
}

export function saturationRatio(t: number, pressure: number): number {
  return ratioFromVapourPressure(saturationPressure(t), pressure);
}

/** Relative humidity in percent; rounding may not lift saturated air above 100. */
export function relativeHumidityPctFromRatio(t: number, w: number, pressure: number): number {
  return Math.min(100, (100 * vapourPressureFromRatio(w, pressure)) / saturationPressure(t));
}

/** m3 of moist air per kg of dry air. */
export function specificVolume(t: number, w: number, pressure: number): number {
  return (287.042 * (t + 273.15) * (1 + 1.607858 * w)) / pressure;
}

/** kJ per kg of dry air, zero for dry air at 0 C. */
export function enthalpyKj(t: number, w: number): number {
  return 1.006 * t + w * (2501 + 1.86 * t);
}

/** J/kg; linear fit for 0-40 C from memory, used here also for surfaces somewhat below 0 C. */
export function latentHeat(t: number): number {
  return 2.501e6 - 2361 * t;
}

function ratioOverWater(t: number, tw: number, pressure: number): number {
  return ((2501 - 2.326 * tw) * saturationRatio(tw, pressure) - 1.006 * (t - tw)) / (2501 + 1.86 * t - 4.186 * tw);
}

function ratioOverIce(t: number, tw: number, pressure: number): number {
  return ((2830 - 0.24 * tw) * saturationRatio(tw, pressure) - 1.006 * (t - tw)) / (2830 + 1.86 * t - 2.1 * tw);
}

/**
 * Thermodynamic wet bulb in C. Within about 0.3 K of 0 C the definition has two answers, over water and over ice; the one
 * over water is taken, as goods here are wet, not iced.
 */
export function wetBulbFromRatio(t: number, w: number, pressure: number): number {
  const overWater = t > 0 && ratioOverWater(t, 0, pressure) <= w;
  return overWater ? wetSurfaceFromRatio(t, w, pressure) : solveUpTo(Math.min(t, 0), (tw) => ratioOverIce(t, tw, pressure) - w);
}

/**
 * Temperature in C that a wet face without heat reservoir settles at: the wet bulb over water, also somewhat below 0 C.
 * A change to ice there would make the drying rate jump up with humidity, and the room balance lose its single root.
 */
export function wetSurfaceFromRatio(t: number, w: number, pressure: number): number {
  return solveUpTo(t, (tw) => ratioOverWater(t, tw, pressure) - w);
}

function solveUpTo(high: number, miss: (tw: number) => number): number {
  if (miss(high) <= 0) return high;
  let low = high - 8;
  while (miss(low) > 0) low -= 8;
  return bracketedRoot(miss, low, high, 1e-12);
}
