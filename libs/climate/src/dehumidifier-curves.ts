/**
 * Published curves of what a refrigerant dehumidifier does away from its rating point: x air temperature in C, y relative
 * humidity in percent, `c1 + c2 x + c3 x^2 + c4 y + c5 y^2 + c6 x y`, to be divided by its own value at the rating point.
 * The coefficients are the published part. `nrel` is used; `energyplus` is held beside it, to show how far two sources differ.
 */
import { requireChoice, requireNumber } from './climate-range.error.js';

type Coefficients = readonly [number, number, number, number, number, number];

/** One curve with its source. */
export interface DehumidifierCurve {
  readonly coefficients: Coefficients;
  readonly cite: string;
}

const NREL = 'Winkler, Christensen and Tomerlin, Laboratory Test Report for Six ENERGY STAR Dehumidifiers, NREL, 2011 (coefficients read in copies that cite it; report title from memory)';
const ENERGYPLUS = 'EnergyPlus example dehumidifier, box 21-32.22 C and 40-80 %, as copied in the Modelica Buildings library of LBNL (Fluid.Humidifiers data records)';
const curveOf = (cite: string, ...coefficients: Coefficients): DehumidifierCurve => Object.freeze({ coefficients: Object.freeze(coefficients), cite });

export const DEHUMIDIFIER_CURVES = Object.freeze({
  /** Water removal, used throughout. */
  'nrel-removal': curveOf(NREL, -1.162525707, 0.02271469, -0.000113208, 0.021110538, -0.0000693034, 0.000378843),
  /** Litres per kilowatt-hour, used for electric power. */
  'nrel-energy-factor': curveOf(NREL, -1.902154518, 0.063466565, -0.000622839, 0.039540407, -0.000125637, -0.000176722),
  'energyplus-removal': curveOf(ENERGYPLUS, -2.72487866408, 0.100711983591, -0.000990538285, 0.050053043874, -0.000203629282, -0.000341750531),
  'energyplus-energy-factor': curveOf(ENERGYPLUS, -2.388319068955, 0.093047739452, -0.0013697003270, 0.066533716758, -0.000343198063, -0.000562490295),
});
export type DehumidifierCurveName = keyof typeof DEHUMIDIFIER_CURVES;

/** Value of a curve, not yet normalised. Give the EnergyPlus ones points inside their box. @throws ClimateRangeError */
export function dehumidifierCurveValue(name: DehumidifierCurveName, airTempC: number, relativeHumidityPct: number): number {
  const { coefficients } = requireChoice('name', name, DEHUMIDIFIER_CURVES);
  return biquadratic(coefficients, requireNumber('airTempC', airTempC, { min: 0, max: 45, unit: 'C' }), requireNumber('relativeHumidityPct', relativeHumidityPct, { min: 0, max: 100, unit: '%' }));
}

/** Unchecked, for inner loops. */
export function biquadratic([c1, c2, c3, c4, c5, c6]: Coefficients, x: number, y: number): number {
  return c1 + c2 * x + c3 * x * x + c4 * y + c5 * y * y + c6 * x * y;
}
