/**
 * How fast a wet face gives up water while it is still wet through: the constant-rate flux.
 *
 * Published: the form of the pool equation, seen in inch-pound units as (95 + 0.425 v)(pw - pa)/Y with undisturbed pools at
 * 74 % of it (ASHRAE Transactions 1998, 104-1A, Rates of evaporation from swimming pools, abstract). From memory: its SI
 * constants 0.089 and 0.0782 (converting the inch-pound ones gives 0.0885 and 0.0779). That every fabric dries at the same
 * rate per area, set by the air film: Fourt, Sookne, Frishman and Harris, The Rate of Drying of Fabrics (abstract).
 * Our calibration: arrangement factors and face counts. A textile has no heat reservoir, so its surface is taken at the WET
 * BULB; the air temperature there would be wrong by a factor near three. Trust the level to +-30 % until fitted from weighings.
 */
import { requireChoice, requireNumber, type NumberRule } from './climate-range.error.js';
import { DEFAULT_CALIBRATION, type CalibrationKey, type CalibrationValues } from './calibration.js';
import { latentHeat, saturationPressure, vapourPressureFromRatio, wetSurfaceFromRatio } from './moist-air.core.js';
import { airState, type AirState, type MeasuredAir } from './psychrometrics.js';
import { bracketedRoot } from './root.js';

/** How the air reaches the faces. */
export const AIR_REACHES = ['packed-rack', 'open-rack', 'fan-across'] as const;
export type AirReach = (typeof AIR_REACHES)[number];

/** How a thing is laid or hung, which decides how many of its faces breathe. */
export const PLACEMENTS = ['flat-on-board', 'flat-on-mesh', 'hung-single', 'draped-double', 'heap'] as const;
export type Placement = (typeof PLACEMENTS)[number];

/** Drying is modelled from 1 to 45 C: colder goods freeze, hotter air is never right for treasures. */
export const DRYING_TEMP_RULE: NumberRule = { min: 1, max: 45, unit: 'C', hint: 'The drying model holds from 1 to 45 C; colder goods freeze rather than dry.' };
export const AIR_SPEED_RULE: NumberRule = { min: 0, max: 2, unit: 'm/s', hint: 'The drying model holds up to 2 m/s.' };
export const AREA_RULE: NumberRule = { min: 0, exclusiveMin: true, max: 100000, unit: 'm2', hint: 'Give the area in square metres.' };
const FACTOR_RULE: NumberRule = { min: 0, exclusiveMin: true, max: 5, unit: '(factor)' };

/** Air over wet faces. Best between 5 and 98 % RH; `airSpeedMPerS` 0 to 2, still air if absent. */
export interface DryingAir extends MeasuredAir {
  airSpeedMPerS?: number;
}

/** Either a named reach or a factor kE fitted from weighings; without both, `packed-rack`, the slowest. */
export interface ReachInput {
  airReach?: AirReach;
  arrangementFactor?: number;
}

const REACH_KEYS: Readonly<Record<AirReach, CalibrationKey>> = { 'packed-rack': 'packedRackFactor', 'open-rack': 'openRackFactor', 'fan-across': 'fanAcrossFactor' };
const FACE_KEYS: Readonly<Record<Placement, CalibrationKey>> = {
  'flat-on-board': 'facesFlatOnBoard', 'flat-on-mesh': 'facesFlatOnMesh', 'hung-single': 'facesHungSingle', 'draped-double': 'facesDrapedDouble', heap: 'facesHeap',
};

/** The arrangement factor kE, 1 for a fan across the faces. @throws ClimateRangeError */
export function arrangementFactor(input: ReachInput, values: CalibrationValues = DEFAULT_CALIBRATION): number {
  if (input.arrangementFactor !== undefined) return requireNumber('arrangementFactor', input.arrangementFactor, FACTOR_RULE);
  return values[requireChoice('airReach', input.airReach ?? 'packed-rack', REACH_KEYS)];
}

/** How many faces breathe in a placement; multiply by the area of one face. @throws ClimateRangeError */
export function faceCount(placement: Placement, values: CalibrationValues = DEFAULT_CALIBRATION): number {
  return values[requireChoice('placement', placement, FACE_KEYS)];
}

/** Breathing area in m2 of a thing with `faceAreaM2` on one side. @throws ClimateRangeError */
export function exposedAreaM2(faceAreaM2: number, placement: Placement, values: CalibrationValues = DEFAULT_CALIBRATION): number {
  return requireNumber('faceAreaM2', faceAreaM2, AREA_RULE) * faceCount(placement, values);
}

/**
 * Water leaving one square metre of one wet face, kg/(m2 h), while X is above its critical value.
 * `radiationFactor` (0 to 1, default 0) credits a single open line facing a warm room; inside a rack leave it 0. No sun term.
 * @throws ClimateRangeError outside 1-45 C, 0-100 % RH, 0-2 m/s
 */
export function constantRateFluxKgPerM2H(input: DryingAir & ReachInput & { radiationFactor?: number }, values: CalibrationValues = DEFAULT_CALIBRATION): number {
  const air = airState(input, DRYING_TEMP_RULE);
  const film = arrangementFactor(input, values) * filmCoefficient(airSpeed(input.airSpeedMPerS, values));
  const radiation = requireNumber('radiationFactor', input.radiationFactor ?? 0, { min: 0, max: 1, unit: '(share)' });
  const surface = radiation === 0 ? wetSurfaceFromRatio(air.t, air.w, air.pressure) : warmedSurfaceC(air, film, radiation);
  return flux(film, surface, air.pa);
}

/** Checks an air speed, or takes the still-air value of the calibration. */
export function airSpeed(airSpeedMPerS: number | undefined, values: CalibrationValues): number {
  return requireNumber('airSpeedMPerS', airSpeedMPerS ?? values.stillAirSpeedMPerS, AIR_SPEED_RULE);
}

/** W/(m2 Pa): the pool equation's film, SI constants from memory (see the head of the file). */
export function filmCoefficient(speedMPerS: number): number {
  return 0.089 + 0.0782 * speedMPerS;
}

/** Unchecked wet bulb and flux at kE = 1 for inner loops, from the humidity ratio. */
export function wetFace(t: number, w: number, pressure: number, film: number): { surfaceC: number; fluxKgPerM2H: number } {
  const surfaceC = wetSurfaceFromRatio(t, w, pressure);
  return { surfaceC, fluxKgPerM2H: flux(film, surfaceC, vapourPressureFromRatio(w, pressure)) };
}

function flux(film: number, surfaceC: number, pa: number): number {
  return Math.max(0, (film * (saturationPressure(surfaceC) - pa)) / latentHeat(surfaceC)) * 3600;
}

/**
 * Surface of a face that also receives radiation from a room at air temperature:
 * (he g + F hr)(t - ts) = he (ps(ts) - pa), with g such that F = 0 gives the wet bulb; emissivity 0.95 (from memory).
 */
function warmedSurfaceC(air: AirState, film: number, radiation: number): number {
  const tw = wetSurfaceFromRatio(air.t, air.w, air.pressure);
  if (air.t - tw < 1e-6) return tw;
  const g = (saturationPressure(tw) - air.pa) / (air.t - tw);
  const hr = 4 * 0.95 * 5.670374e-8 * (air.t + 273.15) ** 3;
  const miss = (ts: number): number => film * (saturationPressure(ts) - air.pa) - (film * g + radiation * hr) * (air.t - ts);
  return bracketedRoot(miss, tw, air.t, 1e-9);
}
