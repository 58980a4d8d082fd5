/**
 * The air of one drying room: what machines and outdoor air can take away, and whether to open a window.
 *
 * Published: moist-air relations (ASHRAE Fundamentals 2017 ch. 1) and the dehumidifier curve (see `dehumidifier.ts`). The
 * balance itself is bookkeeping of mass. Our calibration: the humidity cap and the margin before a window is advised. Room
 * temperature is measured and given; holding it needs heat, which is reported and not assumed.
 */
import { requireNumber, type NumberRule } from './climate-range.error.js';
import { DEFAULT_CALIBRATION, type CalibrationValues } from './calibration.js';
import { removalCurve, requireDehumidifier, type Dehumidifier } from './dehumidifier.js';
import { DRYING_TEMP_RULE } from './evaporation.js';
import { ratioFromVapourPressure, relativeHumidityPctFromRatio, saturationPressure, SEA_LEVEL_PRESSURE_PA, specificVolume } from './moist-air.core.js';
import { airState, PRESSURE_RULE, RELATIVE_HUMIDITY_RULE, type MeasuredAir } from './psychrometrics.js';

/** A drying room as registered and measured. Outdoor air enters at `airChangesPerH` (0 to 60). */
export interface RoomInput {
  volumeM3: number;
  airTempC: number;
  airChangesPerH: number;
  outdoorTempC: number;
  outdoorRelativeHumidityPct: number;
  dehumidifiers: readonly Dehumidifier[];
  pressurePa?: number;
}

/** Where sustained removal comes from; `outdoorAirKgPerH` is negative when the outdoor air is wetter than the cap. */
export interface SustainedRemoval {
  totalKgPerH: number;
  perDayKg: number;
  dehumidifiersKgPerH: number;
  outdoorAirKgPerH: number;
  advice: string;
}

/** A checked room in working numbers. */
export interface CheckedRoom {
  t: number;
  pressure: number;
  outdoorT: number;
  outdoorW: number;
  ach: number;
  volumeM3: number;
  saturationW: number;
}

export const VOLUME_RULE: NumberRule = { min: 1, max: 1e6, unit: 'm3', hint: 'Give the room volume in cubic metres.' };
export const CAP_RULE: NumberRule = { min: 30, max: 100, unit: '%', hint: 'Give the room humidity that must not be passed, in percent.' };
export const ACH_RULE: NumberRule = { min: 0, max: 60, unit: 'air changes per hour' };
export const OUTDOOR_TEMP_RULE: NumberRule = { min: -50, max: 60, unit: 'C' };

/** Checks a room. @throws ClimateRangeError naming the first number that is out of range. */
export function checkRoom(room: RoomInput): CheckedRoom {
  const t = requireNumber('airTempC', room.airTempC, DRYING_TEMP_RULE);
  const pressure = requireNumber('pressurePa', room.pressurePa ?? SEA_LEVEL_PRESSURE_PA, PRESSURE_RULE);
  const outdoorT = requireNumber('outdoorTempC', room.outdoorTempC, OUTDOOR_TEMP_RULE);
  const outdoorRh = requireNumber('outdoorRelativeHumidityPct', room.outdoorRelativeHumidityPct, RELATIVE_HUMIDITY_RULE);
  room.dehumidifiers.forEach(requireDehumidifier);
  return {
    t,
    pressure,
    outdoorT,
    outdoorW: ratioAtHumidity(outdoorT, outdoorRh, pressure),
    ach: requireNumber('airChangesPerH', room.airChangesPerH, ACH_RULE),
    volumeM3: requireNumber('volumeM3', room.volumeM3, VOLUME_RULE),
    saturationW: ratioAtHumidity(t, 100, pressure),
  };
}

/** Humidity ratio at a relative humidity in percent, unchecked. */
export function ratioAtHumidity(t: number, relativeHumidityPct: number, pressure: number): number {
  return ratioFromVapourPressure((relativeHumidityPct / 100) * saturationPressure(t), pressure);
}

/** Kilograms of dry air in the room when its air has humidity ratio `w`. */
export function dryAirKg(checked: CheckedRoom, w: number): number {
  return checked.volumeM3 / specificVolume(checked.t, w, checked.pressure);
}

/** Relative humidity in percent of room air with humidity ratio `w`. */
export function roomHumidityPct(checked: CheckedRoom, w: number): number {
  return relativeHumidityPctFromRatio(checked.t, w, checked.pressure);
}

/**
 * Quick screen: water the room can shed hour after hour while it stays at `capPct` (default the calibration's cap), in
 * kg/h; 0 when infiltrating air brings more than the machines take. Machines count at most their rating.
 * @throws ClimateRangeError
 */
export function sustainedRemovalKgPerH(room: RoomInput & { capPct?: number }, values: CalibrationValues = DEFAULT_CALIBRATION): number {
  return sustainedRemoval(room, values).totalKgPerH;
}

/** `sustainedRemovalKgPerH` with its parts and a sentence for people. @throws ClimateRangeError */
export function sustainedRemoval(room: RoomInput & { capPct?: number }, values: CalibrationValues = DEFAULT_CALIBRATION): SustainedRemoval {
  const checked = checkRoom(room);
  const cap = requireNumber('capPct', room.capPct ?? values.roomCapPct, CAP_RULE);
  const capW = ratioAtHumidity(checked.t, cap, checked.pressure);
  const dehumidifiersKgPerH = removalCurve(room.dehumidifiers, checked.t, true, values)(cap);
  const outdoorAirKgPerH = dryAirKg(checked, capW) * checked.ach * (capW - checked.outdoorW);
  const totalKgPerH = Math.max(0, dehumidifiersKgPerH + outdoorAirKgPerH);
  const advice = totalKgPerH === 0
    ? 'This room cannot shed water at its cap: close it and add a dehumidifier before hanging anything wet.'
    : `About ${totalKgPerH.toFixed(1)} kg of water an hour can leave this room; more wet goods at once only raise its humidity.`;
  return { totalKgPerH, perDayKg: 24 * totalKgPerH, dehumidifiersKgPerH, outdoorAirKgPerH, advice };
}

/** Whether outdoor air would dry the room, and by how much. */
export interface VentilationAdvice {
  /** `ventilate` only when the outdoor air is drier by more than the margin; `keep-closed` when it is wetter. */
  advice: 'ventilate' | 'no-difference' | 'keep-closed';
  /** Humidity ratio indoors minus outdoors, kg/kg; negative means outdoor air adds water. */
  dryingPotentialKgPerKg: number;
  /** Water removed per 1000 m3 of exchanged air, in kg. */
  removalKgPer1000M3: number;
  statement: string;
}

/**
 * Compares the water in the two airs, not their relative humidities: cool air at 90 % often dries a warm room.
 * @throws ClimateRangeError
 */
export function ventilationAdvice(indoor: MeasuredAir, outdoor: MeasuredAir, values: CalibrationValues = DEFAULT_CALIBRATION): VentilationAdvice {
  const inside = airState(indoor);
  const outside = airState({ ...outdoor, pressurePa: outdoor.pressurePa ?? indoor.pressurePa });
  const potential = inside.w - outside.w;
  const removalKgPer1000M3 = (1000 * potential) / specificVolume(inside.t, inside.w, inside.pressure);
  const shared = { dryingPotentialKgPerKg: potential, removalKgPer1000M3 };
  if (potential <= 0) {
    return { ...shared, advice: 'keep-closed', statement: 'Outdoor air holds as much water as the room or more: opening windows would not dry it. Keep it closed.' };
  }
  if (potential < values.ventilationMarginKgPerKg) {
    return { ...shared, advice: 'no-difference', statement: 'Outdoor air is drier by less than two ordinary hygrometers can tell. Leave the windows as they are and measure again.' };
  }
  return { ...shared, advice: 'ventilate', statement: 'Outdoor air is drier: exchanging air takes water away. Keep the room warm and keep rain, dust and draughts off the goods.' };
}

/**
 * Humidity ratio over time in a room with a linear source K (W* - W) and constant removal D: the exact solution, and the
 * time constant that tells how quickly a room answers. Textbook first-order balance.
 */
export function linearRoomHumidity(input: {
  dryAirKg: number;
  airChangesPerH: number;
  outdoorHumidityRatio: number;
  sourceKgPerH: number;
  sourceHumidityRatio: number;
  removalKgPerH: number;
  startHumidityRatio: number;
  hours: number;
}): { steadyHumidityRatio: number; timeConstantH: number; humidityRatio: number } {
  const ratioRule: NumberRule = { min: 0, max: 1, unit: 'kg/kg' };
  const mass = requireNumber('dryAirKg', input.dryAirKg, { min: 0, exclusiveMin: true, max: 1e7, unit: 'kg' });
  const source = requireNumber('sourceKgPerH', input.sourceKgPerH, { min: 0, max: 1e7, unit: 'kg/h per kg/kg' });
  const exchange = source + mass * requireNumber('airChangesPerH', input.airChangesPerH, ACH_RULE);
  requireNumber('sourceKgPerH + dryAirKg * airChangesPerH', exchange, { min: 0, exclusiveMin: true, max: 1e9, unit: 'kg/h', hint: 'A sealed room without a source never settles.' });
  const inflow = source * requireNumber('sourceHumidityRatio', input.sourceHumidityRatio, ratioRule)
    + (exchange - source) * requireNumber('outdoorHumidityRatio', input.outdoorHumidityRatio, ratioRule);
  const steady = (inflow - requireNumber('removalKgPerH', input.removalKgPerH, { min: 0, max: 1e6, unit: 'kg/h' })) / exchange;
  const timeConstantH = mass / exchange;
  const hours = requireNumber('hours', input.hours, { min: 0, max: 1e5, unit: 'h' });
  const start = requireNumber('startHumidityRatio', input.startHumidityRatio, ratioRule);
  return { steadyHumidityRatio: steady, timeConstantH, humidityRatio: steady + (start - steady) * Math.exp(-hours / timeConstantH) };
}
