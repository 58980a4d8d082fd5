/**
 * Which readings of air cannot be, and which are improbable. What cannot be is refused with the reason; what is improbable is
 * kept and marked, for a person to look at. All limits are ours (`calibration.ts`) but for 0 to 100 % of humidity.
 */
import { DEFAULT_CALIBRATION, type CalibrationValues } from './calibration.js';

const MINUTE_MS = 60_000;
const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;

/** Air that people and their loggers meet; our own choice, wider than any drying room. */
const TEMP_C = { min: -40, max: 60 } as const;
/** Numbers above 60 up to here read as Fahrenheit give air that can be. */
const FAHRENHEIT_MAX = 140;
/** -40 to 60 C in Kelvin. */
const KELVIN = { min: 233, max: 333 } as const;
/** No air of a flooded building is so dry; a logger that sends a fraction (0.62) or has failed (0) is below it. */
const DRIEST_PCT = 1;
/** How far ahead of our clock another clock may be. */
const CLOCK_SLACK_MS = 5 * MINUTE_MS;

/** Why a reading cannot be. `inC` is what the number would be in Celsius under the unit that is suspected. */
export type ReadingFault =
  | { code: 'temperature_impossible'; member: 'airTempC'; value: number }
  | { code: 'temperature_fahrenheit' | 'temperature_kelvin'; member: 'airTempC'; value: number; inC: number }
  | { code: 'humidity_impossible' | 'humidity_fraction'; member: 'relativeHumidityPct'; value: number }
  | { code: 'in_future' | 'before_flood'; member: 'measuredAt'; value: number };

export interface ReadingTimes {
  nowMs: number;
  floodAtMs: number;
}

/** Everything about a reading that cannot be; empty when it may be kept. Numbers must be finite. */
export function readingFaults(reading: { measuredAtMs: number; airTempC: number; relativeHumidityPct: number | null }, times: ReadingTimes, values: CalibrationValues = DEFAULT_CALIBRATION): ReadingFault[] {
  return [temperatureFault(reading.airTempC), humidityFault(reading.relativeHumidityPct), timeFault(reading.measuredAtMs, times, values)].filter((fault) => fault !== null);
}

function temperatureFault(value: number): ReadingFault | null {
  if (value >= TEMP_C.min && value <= TEMP_C.max) return null;
  if (value > TEMP_C.max && value <= FAHRENHEIT_MAX) return { code: 'temperature_fahrenheit', member: 'airTempC', value, inC: toTenth(((value - 32) * 5) / 9) };
  if (value >= KELVIN.min && value <= KELVIN.max) return { code: 'temperature_kelvin', member: 'airTempC', value, inC: toTenth(value - 273.15) };
  return { code: 'temperature_impossible', member: 'airTempC', value };
}

function humidityFault(value: number | null): ReadingFault | null {
  if (value === null || (value > DRIEST_PCT && value <= 100)) return null;
  return { code: value >= 0 && value <= DRIEST_PCT ? 'humidity_fraction' : 'humidity_impossible', member: 'relativeHumidityPct', value };
}

function timeFault(value: number, { nowMs, floodAtMs }: ReadingTimes, values: CalibrationValues): ReadingFault | null {
  if (value > nowMs + CLOCK_SLACK_MS) return { code: 'in_future', member: 'measuredAt', value };
  return value < floodAtMs - values.readingBeforeFloodD * DAY_MS ? { code: 'before_flood', member: 'measuredAt', value } : null;
}

const toTenth = (value: number) => Math.round(value * 10) / 10;

/**
 * Why a reading is in doubt. `unit`: so warm indoors that it may be Fahrenheit. `jump`: moved faster than air does, and no
 * second reading has confirmed it. `saturated`: soaked air for hours beside a running dehumidifier. `stuck`: exactly the same
 * values for hours.
 */
export const READING_DOUBTS = ['unit', 'jump', 'saturated', 'stuck'] as const;
export type ReadingDoubt = (typeof READING_DOUBTS)[number];

/** One reading of a sensor; humidity null for a thermometer. */
export interface SensorReading {
  measuredAtMs: number;
  airTempC: number;
  relativeHumidityPct: number | null;
}

/** What must be known of the place beside the readings. */
export interface DoubtFacts {
  place: 'drying-room' | 'freezer' | 'zone' | 'outdoors';
  /** A dehumidifier is running there. */
  machineRuns: boolean;
}

/** Hours after a reading within which it can change the doubts about others; outside nothing depends on it. */
export function doubtSpanH(values: CalibrationValues = DEFAULT_CALIBRATION): number {
  // A jump is compared over at most two steps of the time in which the whole scale may be crossed.
  const crossedH = (range: number, atOnce: number, perMin: number) => (2 * Math.max(0, range - atOnce)) / perMin / 60;
  return Math.max(
    values.sensorStuckH, values.sensorSaturatedH, crossedH(TEMP_C.max - TEMP_C.min, values.sensorJumpTempC, values.sensorJumpTempCPerMin),
    crossedH(TEMP_C.max - TEMP_C.min, values.freezerJumpTempC, values.freezerJumpTempCPerMin), crossedH(100, values.sensorJumpHumidityPct, values.sensorJumpHumidityPctPerMin),
  );
}

/**
 * The doubt about each reading of one sensor, null for those that are believed. They stand in the order of measuring, at
 * different moments. Depends on the set of readings alone, not on when they came; a reading that a person took is not judged.
 */
export function doubtsOf(readings: readonly SensorReading[], facts: DoubtFacts, values: CalibrationValues = DEFAULT_CALIBRATION): (ReadingDoubt | null)[] {
  const stuck = lasting(readings, (one, before) => sameValues(one, before), values.sensorStuckH, values);
  const saturated = lasting(readings, (one, before) => isSaturated(one, values) && isSaturated(before, values), values.sensorSaturatedH, values);
  const room = facts.place === 'drying-room' || facts.place === 'zone';
  return readings.map((reading, at) => {
    if (facts.place !== 'outdoors' && reading.airTempC >= values.sensorUnitTempC) return 'unit';
    if (jumps(readings, at, facts, values)) return 'jump';
    if (facts.machineRuns && saturated[at] === true && isSaturated(reading, values)) return 'saturated';
    // A freezer holds its temperature to the digit for hours, and a thermometer alone shows too little to tell.
    return room && reading.relativeHumidityPct !== null && stuck[at] === true ? 'stuck' : null;
  });
}

/** A jump from the reading before, unless that one was the odd one out and this leads back to where the air was. */
function jumps(readings: readonly SensorReading[], at: number, facts: DoubtFacts, values: CalibrationValues): boolean {
  const [reading, before, earlier] = [readings[at], readings[at - 1], readings[at - 2]];
  if (reading === undefined || before === undefined || plausible(before, reading, facts, values)) return false;
  return !(earlier !== undefined && !plausible(earlier, before, facts, values) && plausible(earlier, reading, facts, values));
}

function plausible(from: SensorReading, to: SensorReading, { place }: DoubtFacts, values: CalibrationValues): boolean {
  const minutes = (to.measuredAtMs - from.measuredAtMs) / MINUTE_MS;
  const [atOnce, perMin] = place === 'freezer' ? [values.freezerJumpTempC, values.freezerJumpTempCPerMin] : [values.sensorJumpTempC, values.sensorJumpTempCPerMin];
  if (Math.abs(to.airTempC - from.airTempC) > atOnce + perMin * minutes) return false;
  if (place === 'freezer' || from.relativeHumidityPct === null || to.relativeHumidityPct === null) return true;
  return Math.abs(to.relativeHumidityPct - from.relativeHumidityPct) <= values.sensorJumpHumidityPct + values.sensorJumpHumidityPctPerMin * minutes;
}

/** For each reading whether the relation to the one before held over all readings of the hours before it, of which there are enough. */
function lasting(readings: readonly SensorReading[], holds: (one: SensorReading, before: SensorReading) => boolean, hours: number, values: CalibrationValues): boolean[] {
  let windowStart = 0;
  let runStart = 0;
  return readings.map((reading, at) => {
    const before = readings[at - 1];
    if (before !== undefined && !holds(reading, before)) runStart = at;
    while ((readings[windowStart]?.measuredAtMs ?? 0) < reading.measuredAtMs - hours * HOUR_MS) windowStart += 1;
    const coveredMs = reading.measuredAtMs - (readings[windowStart]?.measuredAtMs ?? reading.measuredAtMs);
    // The window need not be covered to the minute: a reading every half hour begins it half an hour late.
    return runStart <= windowStart && at - windowStart + 1 >= values.sensorStuckReadings && coveredMs >= hours * COVERED * HOUR_MS;
  });
}

/** Share of the hours that readings must cover. */
const COVERED = 0.9;

function sameValues(one: SensorReading, other: SensorReading): boolean {
  return one.airTempC === other.airTempC && one.relativeHumidityPct === other.relativeHumidityPct;
}

function isSaturated(reading: SensorReading, values: CalibrationValues): boolean {
  return reading.relativeHumidityPct !== null && reading.relativeHumidityPct >= values.sensorSaturatedPct;
}
