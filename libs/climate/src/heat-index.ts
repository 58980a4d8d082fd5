/**
 * The heat index, for display only: it holds for shade, light wind and ordinary clothes, never for suits.
 * Published: the regression with both adjustments (US National Weather Service, heat index equation page), the bands 80/90/105/130 F
 * (as read in a web calculator; newer charts use 103 and 125, from memory).
 */
import { requireNumber, type NumberRule } from './climate-range.error.js';
import { RELATIVE_HUMIDITY_RULE } from './psychrometrics.js';

const TEMP_F_RULE: NumberRule = { min: -60, max: 140, unit: 'F' };

/** Heat index in F. @throws ClimateRangeError */
export function heatIndexF(airTempF: number, relativeHumidityPct: number): number {
  const t = requireNumber('airTempF', airTempF, TEMP_F_RULE);
  const rh = requireNumber('relativeHumidityPct', relativeHumidityPct, RELATIVE_HUMIDITY_RULE);
  const simple = (0.5 * (t + 61 + 1.2 * (t - 68) + 0.094 * rh) + t) / 2;
  if (simple < 80) return simple;
  const regression =
    -42.379 + 2.04901523 * t + 10.14333127 * rh - 0.22475541 * t * rh - 0.00683783 * t * t - 0.05481717 * rh * rh + 0.00122874 * t * t * rh + 0.00085282 * t * rh * rh - 0.00000199 * t * t * rh * rh;
  if (rh < 13 && t >= 80 && t <= 112) return regression - ((13 - rh) / 4) * Math.sqrt(Math.max(0, 17 - Math.abs(t - 95)) / 17);
  if (rh > 85 && t >= 80 && t <= 87) return regression + (((rh - 85) / 10) * (87 - t)) / 5;
  return regression;
}

/** Heat index in C. @throws ClimateRangeError */
export function heatIndexC(air: { airTempC: number; relativeHumidityPct: number }): number {
  const airTempC = requireNumber('airTempC', air.airTempC, { min: -50, max: 60, unit: 'C' });
  return ((heatIndexF((airTempC * 9) / 5 + 32, air.relativeHumidityPct) - 32) * 5) / 9;
}

export const HEAT_INDEX_BANDS = ['none', 'caution', 'extreme-caution', 'danger', 'extreme-danger'] as const;
export type HeatIndexBand = (typeof HEAT_INDEX_BANDS)[number];

/** The band of a heat index in F: from 80, 90, 105 and 130. @throws ClimateRangeError */
export function heatIndexBand(indexF: number): HeatIndexBand {
  const index = requireNumber('indexF', indexF, { min: -100, max: 2000, unit: 'F' });
  if (index < 80) return 'none';
  if (index < 90) return 'caution';
  if (index < 105) return 'extreme-caution';
  return index <= 130 ? 'danger' : 'extreme-danger';
}
