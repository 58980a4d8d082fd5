/**
 * What a dehumidifier really takes out of the air at hand, as a share of its label.
 *
 * Published: the coefficients for water removal and energy factor (`dehumidifier-curves.ts`) and the ANSI/AHAM DH-1 rating
 * point 80 F / 60 %. Our calibration: the window they are read in, the frost fade, desiccant units, the cap of promises, the
 * litres per kilowatt-hour of a machine whose label does not say, and the bounds of electric power.
 */
import { ClimateRangeError, requireNumber, type NumberRule } from './climate-range.error.js';
import { DEFAULT_CALIBRATION, type CalibrationValues } from './calibration.js';
import { biquadratic, DEHUMIDIFIER_CURVES } from './dehumidifier-curves.js';
import { RELATIVE_HUMIDITY_RULE } from './psychrometrics.js';

/** A registered machine: its label and the point the label holds at. Ask for the point; sellers often quote 30 C / 80 %. */
export interface Dehumidifier {
  kind: 'refrigerant' | 'desiccant';
  ratedLitresPerDay: number;
  ratedAtTempC: number;
  ratedAtRelativeHumidityPct: number;
  /** Desiccant only: the maker's own sheet states constant removal from 1 to 30 C. Without it the refrigerant curve stands in. */
  makerStatesConstantRemoval?: boolean;
  /** Energy factor of the label at its rating point, litres per kWh; the calibration's if absent. */
  litresPerKwhAtRating?: number;
  /** Electric power of the nameplate, W; taken as it stands, before any curve. */
  electricPowerW?: number;
}

/** Rating points that labels are commonly given at. The first is published, the others as marked in the guidance. */
export const RATING_POINTS = Object.freeze({
  /** ANSI/AHAM DH-1: 80 F dry bulb, 69.6 F wet bulb. */
  'aham-dh-1': { ratedAtTempC: 80 * (5 / 9) - 160 / 9, ratedAtRelativeHumidityPct: 60 },
  /** US DOE appendix X1, portable units: 65 F. */
  'doe-portable': { ratedAtTempC: 65 * (5 / 9) - 160 / 9, ratedAtRelativeHumidityPct: 60 },
  /** US DOE appendix X1, whole-home units: 73 F. */
  'doe-whole-home': { ratedAtTempC: 73 * (5 / 9) - 160 / 9, ratedAtRelativeHumidityPct: 60 },
  /** EN 810 / ISO 18871 class of conditions; from memory. */
  'en-810': { ratedAtTempC: 27, ratedAtRelativeHumidityPct: 60 },
  /** What many shop pages quote; common practice. */
  'shop-30-80': { ratedAtTempC: 30, ratedAtRelativeHumidityPct: 80 },
});

const MACHINE_TEMP_RULE: NumberRule = { min: -20, max: 60, unit: 'C' };
const RATED_TEMP_RULE: NumberRule = { min: 10, max: 32.2, unit: 'C', hint: 'Give the temperature of the rating point from the label or the maker.' };
/** Below 50 % the curve nears zero at cool points, and a ratio to it would mean nothing. */
const RATED_HUMIDITY_RULE: NumberRule = { min: 50, max: 80, unit: '%', hint: 'Give the humidity of the rating point from the label or the maker.' };
const RATED_OUTPUT_RULE: NumberRule = { min: 0, max: 5000, unit: 'litres per day' };
/** Upper edges at which the curve is read: own choice within the tested range. The lower temperature edge is the frost fade's start. */
const CURVE_TEMP_MAX_C = 32.2;
const CURVE_HUMIDITY_PCT = { min: 30, max: 80 };
const KG_PER_LITRE = 1;
const POWER_SHARE = { least: 0.5, most: 1.2 };

/**
 * Share of the rated removal at this air, 1 at the machine's own rating point.
 * `promise` caps it at the calibration's `promiseFactorMax`, so that nothing promised rests on more than the label.
 * @throws ClimateRangeError
 */
export function dehumidifierFactor(machine: Dehumidifier, air: { airTempC: number; relativeHumidityPct: number }, promise: boolean, values: CalibrationValues = DEFAULT_CALIBRATION): number {
  requireDehumidifier(machine);
  requireNumber('airTempC', air.airTempC, MACHINE_TEMP_RULE);
  requireNumber('relativeHumidityPct', air.relativeHumidityPct, RELATIVE_HUMIDITY_RULE);
  return factorUnchecked(machine, air.airTempC, air.relativeHumidityPct, promise, values);
}

/** Water removed at this air in kg/h; `promise` as in `dehumidifierFactor`. @throws ClimateRangeError */
export function dehumidifierRemovalKgPerH(machine: Dehumidifier, air: { airTempC: number; relativeHumidityPct: number }, promise: boolean, values: CalibrationValues = DEFAULT_CALIBRATION): number {
  return (ratedKgPerDay(machine) / 24) * dehumidifierFactor(machine, air, promise, values);
}

/** Refuses a machine that cannot be reckoned with. @throws ClimateRangeError */
export function requireDehumidifier(machine: Dehumidifier): Dehumidifier {
  if (machine.kind !== 'refrigerant' && machine.kind !== 'desiccant') {
    throw new ClimateRangeError(`kind is ${String(machine.kind)}; choose refrigerant or desiccant.`, 'kind');
  }
  requireNumber('ratedLitresPerDay', machine.ratedLitresPerDay, RATED_OUTPUT_RULE);
  requireNumber('ratedAtTempC', machine.ratedAtTempC, RATED_TEMP_RULE);
  requireNumber('ratedAtRelativeHumidityPct', machine.ratedAtRelativeHumidityPct, RATED_HUMIDITY_RULE);
  requireNumber('litresPerKwhAtRating', machine.litresPerKwhAtRating ?? 1, { min: 0.1, max: 10, unit: 'litres per kWh' });
  requireNumber('electricPowerW', machine.electricPowerW ?? 0, { min: 0, max: 50_000, unit: 'W', hint: 'Give the electric power of the nameplate in watts.' });
  return machine;
}

/** Sum over machines in kg/h without checks, as a function of room humidity, for inner loops. */
export function removalCurve(machines: readonly Dehumidifier[], airTempC: number, promise: boolean, values: CalibrationValues): (relativeHumidityPct: number) => number {
  return (rh) => machines.reduce((sum, machine) => sum + (ratedKgPerDay(machine) / 24) * factorUnchecked(machine, airTempC, rh, promise, values), 0);
}

function ratedKgPerDay(machine: Dehumidifier): number {
  return machine.ratedLitresPerDay * KG_PER_LITRE;
}

function factorUnchecked(machine: Dehumidifier, airTempC: number, rhPct: number, promise: boolean, values: CalibrationValues): number {
  const factor = machine.kind === 'desiccant' && machine.makerStatesConstantRemoval === true
    ? Number(airTempC >= 1 && airTempC <= 30)
    : refrigerantFactor(machine, airTempC, rhPct, values);
  return promise ? Math.min(values.promiseFactorMax, factor) : factor;
}

function refrigerantFactor(machine: Dehumidifier, airTempC: number, rhPct: number, values: CalibrationValues): number {
  const rated = curve(machine.ratedAtTempC, machine.ratedAtRelativeHumidityPct, values);
  const { frostFadeStartTempC: start, frostFadeEndTempC: end } = values;
  const frost = Math.min(1, Math.max(0, (airTempC - end) / (start - end)));
  return (frost * Math.max(0, curve(airTempC, rhPct, values))) / rated;
}

/** The published biquadratic inside its window, not yet normalised; it still rises with humidity at the window's edges. */
function curve(airTempC: number, rhPct: number, values: CalibrationValues, name: 'nrel-removal' | 'nrel-energy-factor' = 'nrel-removal'): number {
  const x = Math.min(CURVE_TEMP_MAX_C, Math.max(values.frostFadeStartTempC, airTempC));
  const y = Math.min(CURVE_HUMIDITY_PCT.max, Math.max(CURVE_HUMIDITY_PCT.min, rhPct));
  return biquadratic(DEHUMIDIFIER_CURVES[name].coefficients, x, y);
}

/**
 * Electric power of a running machine in kW: the nameplate where given, else removal over energy factor by the published
 * curves. A frosting machine draws its power all the same. Own bounds: 0.5 to 1.2 of the power at the rating point, because both
 * curves run to zero in dry air, where a machine does not. @throws ClimateRangeError
 */
export function dehumidifierPowerKw(machine: Dehumidifier, air: { airTempC: number; relativeHumidityPct: number }, values: CalibrationValues = DEFAULT_CALIBRATION): number {
  requireDehumidifier(machine);
  const t = requireNumber('airTempC', air.airTempC, MACHINE_TEMP_RULE);
  const rh = requireNumber('relativeHumidityPct', air.relativeHumidityPct, RELATIVE_HUMIDITY_RULE);
  if (machine.electricPowerW !== undefined) return machine.electricPowerW / 1000;
  const { ratedAtTempC, ratedAtRelativeHumidityPct } = machine;
  const atRating = machine.ratedLitresPerDay / 24 / (machine.litresPerKwhAtRating ?? values.litresPerKwhAtRating);
  if (machine.kind === 'desiccant') return atRating;
  const removal = curve(t, rh, values) / curve(ratedAtTempC, ratedAtRelativeHumidityPct, values);
  const energyFactor = curve(t, rh, values, 'nrel-energy-factor') / curve(ratedAtTempC, ratedAtRelativeHumidityPct, values, 'nrel-energy-factor');
  return atRating * Math.min(POWER_SHARE.most, Math.max(POWER_SHARE.least, energyFactor > 0 ? removal / energyFactor : 0));
}
