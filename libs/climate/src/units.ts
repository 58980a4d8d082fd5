/**
 * Quantities of moist air as types: a humidity cannot stand where a temperature is asked, nor vapour pressure where the pressure of the air is.
 * At run time each is a plain number; its constructor, of the same name, is where a wrong one is refused. Inner loops work with plain
 * numbers (`moist-air.core.ts`) and pay for none of it.
 *
 * Ranges: what the equations of `psychrometrics.ts` answer for (ASHRAE Fundamentals 2017 ch. 1); those of answers are what they can come to, rounded outwards.
 */
import { requireNumber, type NumberRule } from './climate-range.error.js';

declare const quantity: unique symbol;

/** A number that is known to be of one quantity and unit. Sums with it give a plain number again. */
export type Quantity<Name extends string> = number & { readonly [quantity]: Name };
/** A number of no known quantity: one that is known already is not to be called another. */
type Bare = number & { readonly [quantity]?: never };

/** Temperature in C: -130 to 200, from the coldest frost point to the end of the equation of saturation. Functions narrow it. */
export type Celsius = Quantity<'temperature, C'>;
/** Relative humidity in percent, 0 to 100. */
export type RelativeHumidityPct = Quantity<'relative humidity, %'>;
/** Pressure of the air in Pa, 50 000 to 110 000. */
export type AirPressurePa = Quantity<'pressure of the air, Pa'>;
/** Pressure of the vapour in the air, or at saturation, in Pa: 0 to 1 600 000 (saturation at 200 C). */
export type VapourPressurePa = Quantity<'pressure of vapour, Pa'>;
/** kg of vapour per kg of dry air, 0 to 0.5. */
export type HumidityRatioKgPerKg = Quantity<'humidity ratio, kg/kg'>;
/** kJ per kg of dry air, from dry air at 0 C: -60 to 1200. */
export type EnthalpyKjPerKg = Quantity<'enthalpy, kJ/kg'>;
/** m3 of moist air per kg of dry air, 0.5 to 3.5. */
export type SpecificVolumeM3PerKg = Quantity<'specific volume, m3/kg'>;
/** Height above sea level in m, -500 to 5000. */
export type AltitudeM = Quantity<'altitude, m'>;
/** Heat of evaporation in J/kg, 2 300 000 to 2 600 000. */
export type LatentHeatJPerKg = Quantity<'heat of evaporation, J/kg'>;

export const AIR_TEMP_RULE: NumberRule = { min: -50, max: 60, unit: 'C', hint: 'Give the air temperature in degrees Celsius.' };
export const RELATIVE_HUMIDITY_RULE: NumberRule = { min: 0, max: 100, unit: '%', hint: 'Give relative humidity as a percentage, 55 for 55 %.' };
export const PRESSURE_RULE: NumberRule = { min: 50000, max: 110000, unit: 'Pa', hint: 'Give the air pressure in pascal, or leave it out for sea level.' };

/**
 * Makes a quantity of a plain number; `parameter` is its name in a refusal, where the caller has a better one.
 * @throws ClimateRangeError, which names it, the value, the limits and the unit
 */
export interface QuantityOf<Q> {
  (value: Bare, parameter?: string): Q;
}

function quantityOf<Q extends Quantity<string>>(name: string, rule: NumberRule): QuantityOf<Q> {
  return (value, parameter = name) => requireNumber(parameter, value, rule) as Q;
}

export const Celsius = quantityOf<Celsius>('tempC', { min: -130, max: 200, unit: 'C', hint: 'Give the temperature in degrees Celsius.' });
export const RelativeHumidityPct = quantityOf<RelativeHumidityPct>('relativeHumidityPct', RELATIVE_HUMIDITY_RULE);
export const AirPressurePa = quantityOf<AirPressurePa>('pressurePa', PRESSURE_RULE);
export const VapourPressurePa = quantityOf<VapourPressurePa>('vapourPressurePa', { min: 0, max: 1_600_000, unit: 'Pa', hint: 'Give the vapour pressure in pascal.' });
export const HumidityRatioKgPerKg = quantityOf<HumidityRatioKgPerKg>('humidityRatioKgPerKg', { min: 0, max: 0.5, unit: 'kg/kg', hint: 'Give kilograms of vapour per kilogram of dry air, 0.0073 for 7.3 g/kg.' });
export const EnthalpyKjPerKg = quantityOf<EnthalpyKjPerKg>('enthalpyKjPerKg', { min: -60, max: 1_200, unit: 'kJ/kg', hint: 'Give kilojoules per kilogram of dry air.' });
export const SpecificVolumeM3PerKg = quantityOf<SpecificVolumeM3PerKg>('specificVolumeM3PerKg', { min: 0.5, max: 3.5, unit: 'm3/kg', hint: 'Give cubic metres per kilogram of dry air.' });
export const AltitudeM = quantityOf<AltitudeM>('altitudeM', { min: -500, max: 5000, unit: 'm', hint: 'Give the height above sea level in metres.' });
export const LatentHeatJPerKg = quantityOf<LatentHeatJPerKg>('latentHeatJPerKg', { min: 2_300_000, max: 2_600_000, unit: 'J/kg', hint: 'Give joules per kilogram of water.' });
