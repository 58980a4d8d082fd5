/**
 * The air of a place as it was read, for reckoning backwards. Own convention: a reading holds until the next one, but no
 * longer than `readingHoldH` of the calibration; before the first reading and after the hold the air is not known.
 */
import { ClimateRangeError, requireNumber } from './climate-range.error.js';
import type { CalibrationValues } from './calibration.js';
import { airSpeed, DRYING_TEMP_RULE, filmCoefficient, wetFace } from './evaporation.js';
import { airState, AIR_TEMP_RULE, type MeasuredAir } from './psychrometrics.js';

/** One reading of the air at a place; `airSpeedMPerS` (0 to 2) where somebody measured it over the goods. */
export interface AirReading extends MeasuredAir {
  atMs: number;
  airSpeedMPerS?: number;
}

/** What wet faces would have lost between two times. */
export interface AirSpan {
  /** Water from one square metre of one wet face at kE = 1, kg/m2; `null` when the air was not known all the way. */
  fluxKgPerM2: number | null;
  /** Mean relative humidity over the known hours, %; `null` when none was known. */
  meanRelativeHumidityPct: number | null;
  /** Air below 1 C or above 45 C, where the drying model does not hold, on the way. */
  outsideModel: boolean;
}

const MS_PER_H = 3_600_000;

/** Checks readings and their order. @throws ClimateRangeError */
export function requireReadings(readings: readonly AirReading[]): void {
  readings.forEach((reading, i) => {
    requireNumber('atMs', reading.atMs, { min: -8.64e15, max: 8.64e15, unit: 'milliseconds since 1970' });
    if (i > 0 && reading.atMs < readings[i - 1]!.atMs) throw new ClimateRangeError('The readings of the air are out of order; sort them by time.', 'air');
    airState(reading, AIR_TEMP_RULE);
  });
}

/** Sums up checked readings between two times. */
export function airSpan(readings: readonly AirReading[], fromMs: number, toMs: number, values: CalibrationValues): AirSpan {
  const holdMs = values.readingHoldH * MS_PER_H;
  let flux = 0;
  let known = 0;
  let humidity = 0;
  let outsideModel = false;
  readings.forEach((reading, i) => {
    const start = Math.max(fromMs, reading.atMs);
    const end = Math.min(toMs, readings[i + 1]?.atMs ?? Infinity, reading.atMs + holdMs);
    if (end <= start) return;
    const hours = (end - start) / MS_PER_H;
    known += hours;
    humidity += hours * reading.relativeHumidityPct;
    if (reading.airTempC < DRYING_TEMP_RULE.min || reading.airTempC > DRYING_TEMP_RULE.max) outsideModel = true;
    else flux += hours * fluxOf(reading, values);
  });
  const whole = known >= (toMs - fromMs) / MS_PER_H - 1e-9;
  return { fluxKgPerM2: whole && !outsideModel ? flux : null, meanRelativeHumidityPct: known > 0 ? humidity / known : null, outsideModel };
}

/** Flux of one wet face at kE = 1 in the air of a reading, kg/(m2 h). */
export function fluxOf(reading: MeasuredAir & { airSpeedMPerS?: number }, values: CalibrationValues): number {
  const { t, w, pressure } = airState(reading, DRYING_TEMP_RULE);
  return wetFace(t, w, pressure, filmCoefficient(airSpeed(reading.airSpeedMPerS, values))).fluxKgPerM2H;
}
