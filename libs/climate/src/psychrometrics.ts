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
import {
  AIR_TEMP_RULE, AirPressurePa, Celsius, PRESSURE_RULE, RELATIVE_HUMIDITY_RULE, RelativeHumidityPct,
  type AltitudeM, type EnthalpyKjPerKg, type HumidityRatioKgPerKg, type LatentHeatJPerKg, type SpecificVolumeM3PerKg, type VapourPressurePa,
} from './units.js';

export { AIR_TEMP_RULE, PRESSURE_RULE, RELATIVE_HUMIDITY_RULE } from './units.js';

/** Air as it is measured, in plain numbers that are checked where they are used: dry bulb in C (-50 to 60), relative humidity in percent (0 to 100), pressure in Pa (sea level if absent). */
export interface MeasuredAir {
  airTempC: number;
  relativeHumidityPct: number;
  pressurePa?: number;
}

/** The same in typed units, which the functions here take: each number was checked and cannot be mistaken for another. */
export interface MoistAir extends MeasuredAir {
  airTempC: Celsius;
  relativeHumidityPct: RelativeHumidityPct;
  pressurePa?: AirPressurePa;
}

/** A checked reading in working numbers, with the pressure filled in and the vapour in it worked out. */
export interface AirState {
  t: number;
  pressure: number;
  /** Vapour pressure, Pa. */
  pa: number;
  /** Humidity ratio, kg/kg dry air. */
  w: number;
}

/** Air in typed units from what was measured. @throws ClimateRangeError for a number outside the ranges of `MeasuredAir` */
export function moistAir({ airTempC, relativeHumidityPct, pressurePa }: MeasuredAir): MoistAir {
  return {
    airTempC: Celsius(requireNumber('airTempC', airTempC, AIR_TEMP_RULE)),
    relativeHumidityPct: RelativeHumidityPct(relativeHumidityPct),
    ...(pressurePa !== undefined && { pressurePa: AirPressurePa(pressurePa) }),
  };
}

/** Checks a reading; `rule` narrows the temperatures the caller can answer for. */
export function airState(air: MeasuredAir, rule: NumberRule = AIR_TEMP_RULE): AirState {
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
export function saturationPressurePa(airTempC: Celsius): VapourPressurePa {
  return saturationPressure(requireNumber('airTempC', airTempC, { ...AIR_TEMP_RULE, min: -100, max: 200 })) as VapourPressurePa;
}

/** Vapour pressure in Pa. @throws ClimateRangeError for a reading outside the ranges of `MoistAir`. */
export function vapourPressurePa(air: MoistAir): VapourPressurePa {
  return airState(air).pa as VapourPressurePa;
}

/** Humidity ratio, kg of vapour per kg of dry air. @throws ClimateRangeError for a reading out of range. */
export function humidityRatio(air: MoistAir): HumidityRatioKgPerKg {
  return airState(air).w as HumidityRatioKgPerKg;
}

/** Thermodynamic wet bulb in C (over ice below 0 C). @throws ClimateRangeError for a reading out of range. */
export function wetBulbC(air: MoistAir): Celsius {
  const { t, w, pressure } = airState(air);
  return wetBulbFromRatio(t, w, pressure) as Celsius;
}

/**
 * Dew point in C (frost point below 0.01 C).
 * @throws ClimateRangeError for a reading out of range, and for 0 % air, which has no dew point.
 */
export function dewPointC(air: MoistAir): Celsius {
  const { t, pa } = airState(air);
  requireNumber('relativeHumidityPct', air.relativeHumidityPct, { ...RELATIVE_HUMIDITY_RULE, min: 0.01, hint: 'Perfectly dry air has no dew point.' });
  if (air.relativeHumidityPct === 100) return air.airTempC;
  // At -130 C vapour pressure is far below 0.01 % of saturation at -50 C, so the bracket always holds the root.
  return bracketedRoot((x) => Math.log(saturationPressure(x) / pa), -130, t, 1e-9) as Celsius;
}

/** Enthalpy in kJ per kg of dry air. @throws ClimateRangeError for a reading out of range. */
export function enthalpyKjPerKg(air: MoistAir): EnthalpyKjPerKg {
  const { t, w } = airState(air);
  return enthalpyKj(t, w) as EnthalpyKjPerKg;
}

/** Volume of moist air in m3 per kg of dry air. @throws ClimateRangeError for a reading out of range. */
export function specificVolumeM3PerKg(air: MoistAir): SpecificVolumeM3PerKg {
  const { t, w, pressure } = airState(air);
  return specificVolume(t, w, pressure) as SpecificVolumeM3PerKg;
}

/** Standard atmospheric pressure in Pa at -500 to 5000 m. Source: ASHRAE Fundamentals 2017 ch. 1. */
export function standardPressurePa(altitudeM: AltitudeM): AirPressurePa {
  return (SEA_LEVEL_PRESSURE_PA * (1 - 2.25577e-5 * altitudeM) ** 5.2559) as AirPressurePa;
}

/** Heat of evaporation in J/kg at a surface of -10 to 45 C (linear fit for 0-40 C). @throws ClimateRangeError */
export function latentHeatJPerKg(surfaceTempC: Celsius): LatentHeatJPerKg {
  return latentHeat(requireNumber('surfaceTempC', surfaceTempC, { min: -10, max: 45, unit: 'C' })) as LatentHeatJPerKg;
}
