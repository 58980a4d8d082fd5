/**
 * Moist air: what the hall's thermometer and hygrometer mean.
 *
 * Published: all equations and constants (ASHRAE Handbook - Fundamentals 2017, SI, chapter 1; latent heat: a linear fit
 * for 0-40 C, from memory). Our calibration: nothing in this file. Ideal-gas form, so humidity ratios
 * at saturation read 0.4-0.6 % below the real-gas tables of the same chapter.
 */
import { requireNumber, type NumberRule } from './climate-range.error.js';
import {
  enthalpyKj,
  latentHeat,
  ratioFromVapourPressure,
  saturationPressure,
  SEA_LEVEL_PRESSURE_PA,
  specificVolume,
  wetBulbFromRatio,
} from './moist-air.core.js';
import { bracketedRoot } from './root.js';

/** Air as it is measured: dry bulb in C (-50 to 60), relative humidity in percent (0 to 100), pressure in Pa (sea level if absent). */
export interface MoistAir {
  airTempC: number;
  relativeHumidityPct: number;
  pressurePa?: number;
}

/** A checked reading with the pressure filled in and the vapour in it worked out. */
export interface AirState {
  t: number;
  pressure: number;
  /** Vapour pressure, Pa. */
  pa: number;
  /** Humidity ratio, kg/kg dry air. */
  w: number;
}

export const AIR_TEMP_RULE: NumberRule = { min: -50, max: 60, unit: 'C', hint: 'Give the air temperature in degrees Celsius.' };
export const RELATIVE_HUMIDITY_RULE: NumberRule = { min: 0, max: 100, unit: '%', hint: 'Give relative humidity as a percentage, 55 for 55 %.' };
export const PRESSURE_RULE: NumberRule = { min: 50000, max: 110000, unit: 'Pa', hint: 'Give the air pressure in pascal, or leave it out for sea level.' };

/** Checks a reading; `rule` narrows the temperatures the caller can answer for. */
export function airState(air: MoistAir, rule: NumberRule = AIR_TEMP_RULE): AirState {
  const t = requireNumber('airTempC', air.airTempC, rule);
  const rh = requireNumber('relativeHumidityPct', air.relativeHumidityPct, RELATIVE_HUMIDITY_RULE) / 100;
  const pressure = requireNumber('pressurePa', air.pressurePa ?? SEA_LEVEL_PRESSURE_PA, PRESSURE_RULE);
  const pa = rh * saturationPressure(t);
  return { t, pressure, pa, w: ratioFromVapourPressure(pa, pressure) };
}

/**
 * Saturation pressure of water vapour in Pa over water (over ice at and below 0.01 C), for -100 to 200 C.
 * Source: ASHRAE Fundamentals 2017 ch. 1. @throws ClimateRangeError outside that range.
 */
export function saturationPressurePa(airTempC: number): number {
  return saturationPressure(requireNumber('airTempC', airTempC, { ...AIR_TEMP_RULE, min: -100, max: 200 }));
}

/** Vapour pressure in Pa. @throws ClimateRangeError for a reading outside the ranges of `MoistAir`. */
export function vapourPressurePa(air: MoistAir): number {
  return airState(air).pa;
}

/** Humidity ratio, kg of vapour per kg of dry air. @throws ClimateRangeError for a reading out of range. */
export function humidityRatio(air: MoistAir): number {
  return airState(air).w;
}

/** Thermodynamic wet bulb in C (over ice below 0 C). @throws ClimateRangeError for a reading out of range. */
export function wetBulbC(air: MoistAir): number {
  const { t, w, pressure } = airState(air);
  return wetBulbFromRatio(t, w, pressure);
}

/**
 * Dew point in C (frost point below 0.01 C).
 * @throws ClimateRangeError for a reading out of range, and for 0 % air, which has no dew point.
 */
export function dewPointC(air: MoistAir): number {
  const { t, pa } = airState(air);
  requireNumber('relativeHumidityPct', air.relativeHumidityPct, { ...RELATIVE_HUMIDITY_RULE, min: 0.01, hint: 'Perfectly dry air has no dew point.' });
  if (air.relativeHumidityPct === 100) return t;
  // At -130 C vapour pressure is far below 0.01 % of saturation at -50 C, so the bracket always holds the root.
  return bracketedRoot((x) => Math.log(saturationPressure(x) / pa), -130, t, 1e-9);
}

/** Enthalpy in kJ per kg of dry air. @throws ClimateRangeError for a reading out of range. */
export function enthalpyKjPerKg(air: MoistAir): number {
  const { t, w } = airState(air);
  return enthalpyKj(t, w);
}

/** Volume of moist air in m3 per kg of dry air. @throws ClimateRangeError for a reading out of range. */
export function specificVolumeM3PerKg(air: MoistAir): number {
  const { t, w, pressure } = airState(air);
  return specificVolume(t, w, pressure);
}

/** Standard atmospheric pressure in Pa at -500 to 5000 m. Source: ASHRAE Fundamentals 2017 ch. 1. @throws ClimateRangeError */
export function standardPressurePa(altitudeM: number): number {
  const z = requireNumber('altitudeM', altitudeM, { min: -500, max: 5000, unit: 'm', hint: 'Give the height above sea level in metres.' });
  return SEA_LEVEL_PRESSURE_PA * (1 - 2.25577e-5 * z) ** 5.2559;
}

/** Heat of evaporation in J/kg at a surface of -10 to 45 C (linear fit for 0-40 C). @throws ClimateRangeError */
export function latentHeatJPerKg(surfaceTempC: number): number {
  return latentHeat(requireNumber('surfaceTempC', surfaceTempC, { min: -10, max: 45, unit: 'C' }));
}
