/**
 * How much water goods hold, at which humidity they come to rest, and how available their water is to mould.
 *
 * Published: book uptakes (US National Archives, library materials). Our calibration: the shape of Xe(RH) through the 65 %
 * regain, the pore ceiling and every stage factor. The regains and their marks are in `materials.ts`.
 */
import { requireChoice, requireNumber, type NumberRule } from './climate-range.error.js';
import { DEFAULT_CALIBRATION, type CalibrationValues } from './calibration.js';
import { FIBRE_DENSITY_KG_PER_M3, sorptionOf, type Material, type SorptionProperties } from './materials.js';
import type { MarkedNumber } from './marks.js';
import { RELATIVE_HUMIDITY_RULE } from './psychrometrics.js';

export const DRY_MASS_RULE: NumberRule = { min: 0, exclusiveMin: true, max: 100000, unit: 'kg', hint: 'Give the dry mass in kilograms.' };
export const MOISTURE_RULE: NumberRule = { min: 0, max: 20, unit: 'kg water per kg dry', hint: 'Give water as a multiple of the dry mass: 0.8 for 80 %.' };

/** Where the curve Xe(RH) changes shape: the humidity at which regains are tabulated. */
const KNEE = 0.65;
const WATER_KG_PER_M3 = 1000;

/** Stages of getting water out before air drying. `hand-wrung` and `spun` are for utility textiles only, never for treasures. */
export const WATER_STAGES = ['dripping', 'drained', 'hand-wrung', 'blotted', 'spun'] as const;
export type WaterStage = (typeof WATER_STAGES)[number];

/** Goods as they lie: thickness and areal mass, when known, give a ceiling for dripping and drained water. */
export interface StageInput {
  stage: WaterStage;
  material?: Material;
  /** Batting or stuffing inside: blotting reaches less of the water. */
  padded?: boolean;
  thicknessM?: number;
  arealMassKgPerM2?: number;
}

/** Mass of the wet goods in kg, dry mass x (1 + X). @throws ClimateRangeError */
export function wetMassKg(dryMassKg: number, moistureX: number): number {
  return requireNumber('dryMassKg', dryMassKg, DRY_MASS_RULE) * (1 + requireNumber('moistureX', moistureX, MOISTURE_RULE));
}

/**
 * Most water the pores can hold in kg/kg: `rho_w (thickness / areal mass - 1 / rho_fibre)`, 0 when there is no pore room.
 * Own formula; that water follows thickness is published (Fourt, Sookne, Frishman and Harris, The Rate of Drying of Fabrics, abstract).
 */
export function poreCeilingX(thicknessM: number, arealMassKgPerM2: number, material: Material = 'cotton'): number {
  const thickness = requireNumber('thicknessM', thicknessM, { min: 0, exclusiveMin: true, max: 0.5, unit: 'm', hint: 'Give the thickness in metres: 0.004 for 4 mm.' });
  const areal = requireNumber('arealMassKgPerM2', arealMassKgPerM2, { min: 0, exclusiveMin: true, max: 50, unit: 'kg/m2' });
  const density = requireChoice('material', material, FIBRE_DENSITY_KG_PER_M3).value;
  return Math.max(0, WATER_KG_PER_M3 * (thickness / areal - 1 / density));
}

/** Moisture X to expect at a stage; own calibration throughout, to be refitted from weighings. @throws ClimateRangeError */
export function moistureAtStageX(input: StageInput, values: CalibrationValues = DEFAULT_CALIBRATION): number {
  const ceiling = input.thicknessM !== undefined && input.arealMassKgPerM2 !== undefined
    ? poreCeilingX(input.thicknessM, input.arealMassKgPerM2, input.material)
    : null;
  const atStage: Record<WaterStage, number> = {
    dripping: ceiling === null ? values.drippingX : ceiling * values.drippingOfCeiling,
    drained: ceiling === null ? values.drainedX : ceiling * values.drainedOfCeiling,
    'hand-wrung': values.handWrungX,
    blotted: input.padded === true ? values.paddedBlottedX : values.blottedX,
    spun: values.spunX,
  };
  const expected = requireChoice('stage', input.stage, atStage);
  return ceiling === null ? expected : Math.min(expected, ceiling);
}

/**
 * Moisture of goods that somebody has called damp, or dry to the touch, and the most that they may hold: shares of what such goods
 * hold blotted (paper: of the published average of wet old books). Own calibration.
 */
export function dampMoistureX({ material, padded }: Pick<StageInput, 'material' | 'padded'>, values: CalibrationValues = DEFAULT_CALIBRATION): { expectedX: number; mostX: number } {
  const blotted = material === 'paper' ? BOOK_UPTAKE['pre-1840'].value : padded === true ? values.paddedBlottedX : values.blottedX;
  return { expectedX: values.dampOfBlotted * blotted, mostX: values.dampOfBlottedMost * blotted };
}

/** Water that must still leave in kg, never negative: dry mass x (X now - target X). @throws ClimateRangeError */
export function waterToRemoveKg(input: { dryMassKg: number; startX: number; targetX: number }): number {
  const mass = requireNumber('dryMassKg', input.dryMassKg, DRY_MASS_RULE);
  return mass * Math.max(0, requireNumber('startX', input.startX, MOISTURE_RULE) - requireNumber('targetX', input.targetX, MOISTURE_RULE));
}

/** Water to remove from goods at a stage down to their dry target, in kg. @throws ClimateRangeError */
export function waterToRemoveAtStageKg(input: StageInput & { dryMassKg: number }, values: CalibrationValues = DEFAULT_CALIBRATION): number {
  const material = input.material ?? 'unknown';
  return waterToRemoveKg({ dryMassKg: input.dryMassKg, startX: moistureAtStageX(input, values), targetX: dryTargetX(material, values) });
}

/** Water uptake of books by period, in parts of their own mass. */
export const BOOK_UPTAKE: Readonly<Record<'modern' | 'pre-1840' | 'pre-1840-worst', MarkedNumber>> = Object.freeze({
  modern: bookUptake(0.6, 'up to 60 %'),
  'pre-1840': bookUptake(0.8, 'about 80 % on average'),
  'pre-1840-worst': bookUptake(2, 'some up to 200 %'),
});
export type BookPeriod = keyof typeof BOOK_UPTAKE;

function bookUptake(value: number, words: string): MarkedNumber {
  return Object.freeze({ value, mark: 'published', cite: `US National Archives, preservation guidance on library materials after water damage: ${words} of their own mass` });
}

/** Water held by soaked books in kg. @throws ClimateRangeError */
export function booksWaterKg(input: { count: number; dryMassKgEach: number; period: BookPeriod }): number {
  const count = requireNumber('count', input.count, { min: 0, max: 1e7, unit: 'books' });
  return count * requireNumber('dryMassKgEach', input.dryMassKgEach, DRY_MASS_RULE) * requireChoice('period', input.period, BOOK_UPTAKE).value;
}

/**
 * Moisture Xe at which goods come to rest in air of this humidity: a straight line through the 65 % regain, then a parabola
 * to fibre saturation. Own shape; its error affects the last tenth or two of the drying time.
 */
export function equilibriumMoistureX(material: Material | SorptionProperties, relativeHumidityPct: number, values: CalibrationValues = DEFAULT_CALIBRATION): number {
  return equilibriumX(sorptionOf(material, values), requireNumber('relativeHumidityPct', relativeHumidityPct, RELATIVE_HUMIDITY_RULE) / 100);
}

/** Water activity (0 to 1) of goods with moisture X: the inverse of `equilibriumMoistureX`, 1 at and above fibre saturation. */
export function waterActivity(material: Material | SorptionProperties, moistureX: number, values: CalibrationValues = DEFAULT_CALIBRATION): number {
  return activity(sorptionOf(material, values), requireNumber('moistureX', moistureX, MOISTURE_RULE));
}

/**
 * Moisture X at which goods count as dry: 65 % regain plus a margin, held below the activity of every mould threshold used
 * here. Own calibration. Condition at or below 65 % RH afterwards.
 */
export function dryTargetX(material: Material | SorptionProperties, values: CalibrationValues = DEFAULT_CALIBRATION): number {
  const sorption = sorptionOf(material, values);
  return Math.min(sorption.regainAt65X + values.dryTargetMarginX, equilibriumX(sorption, values.dryTargetActivityMax));
}

/** Unchecked Xe for inner loops; humidity as a fraction. */
export function equilibriumX(s: SorptionProperties, rh: number): number {
  if (rh <= KNEE) return (s.regainAt65X * rh) / KNEE;
  const past = (rh - KNEE) / (1 - KNEE);
  return s.regainAt65X + (s.saturationX - s.regainAt65X) * past * past;
}

/** Unchecked water activity for inner loops. */
export function activity(s: SorptionProperties, x: number): number {
  if (x >= s.saturationX) return 1;
  if (x <= s.regainAt65X) return (KNEE * x) / s.regainAt65X;
  return KNEE + (1 - KNEE) * Math.sqrt((x - s.regainAt65X) / (s.saturationX - s.regainAt65X));
}
