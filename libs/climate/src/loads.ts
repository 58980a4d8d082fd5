/**
 * What a planner must reserve for one thing while it dries: area, and kilograms of water an hour.
 *
 * Published: the 4 lb book of the US National Archives' arithmetic. Derived in the care guidance from fabric weights (quilt
 * table, 450 g/m2) and sizes (drying surfaces incl. 20 % gap): areas and quilt masses, used here as our calibration.
 * Own calibration besides: garment, print and book figures, placements, padding.
 */
import { requireChoice, requireNumber } from './climate-range.error.js';
import { DEFAULT_CALIBRATION, type CalibrationValues } from './calibration.js';
import { dryingForecast, dryingLaw, dryingTimeH, type Build, type DryingForecast, type DryingInput } from './drying.js';
import { exposedAreaM2, type Placement } from './evaporation.js';
import type { Material } from './materials.js';
import type { NumberMark } from './marks.js';
import { dryTargetX, MOISTURE_RULE, waterToRemoveKg } from './water-in-things.js';

/** Sizes that turn up in every flood. */
export const STANDARD_ITEM_KINDS = ['crib-quilt', 'throw', 'double-quilt', 'queen-quilt', 'garment', 'a4-sheet', 'print-10x15', 'book'] as const;
export type StandardItemKind = (typeof STANDARD_ITEM_KINDS)[number];

/** Typical size of one thing; replace any number by a measured one. */
export interface StandardItem {
  kind: StandardItemKind;
  /** Rack or table surface to reserve, dm2, gaps included. */
  areaDm2: number;
  /** One face of the thing itself, m2. */
  faceAreaM2: number;
  dryMassKg: number;
  material: Material;
  build: Build;
  padded: boolean;
  placement: Placement;
  mark: NumberMark;
  cite: string;
}

const QUILT = 'Derived: care guidance quilt table at 450 g/m2 (masses) and drying surface with 20 % gap; own calibration for use here.';
const item = (areaDm2: number, faceAreaM2: number, dryMassKg: number, material: Material, build: Build, placement: Placement, cite: string): Omit<StandardItem, 'kind'> =>
  Object.freeze({ areaDm2, faceAreaM2, dryMassKg, material, build, padded: cite === QUILT, placement, mark: 'own-calibration', cite });

const STANDARD_ITEMS: Readonly<Record<StandardItemKind, Omit<StandardItem, 'kind'>>> = Object.freeze({
  'crib-quilt': item(144, 1.2, 0.5, 'cotton', 'thick', 'flat-on-mesh', QUILT),
  throw: item(360, 3, 1.4, 'cotton', 'thick', 'flat-on-mesh', QUILT),
  'double-quilt': item(550, 4.6, 2.1, 'cotton', 'thick', 'flat-on-mesh', QUILT),
  'queen-quilt': item(750, 6.2, 2.8, 'cotton', 'thick', 'flat-on-mesh', QUILT),
  garment: item(120, 1, 0.5, 'cotton', 'thin', 'flat-on-mesh', 'Surface derived in the care guidance; 0.5 kg is the garment of our worked drying room.'),
  'a4-sheet': item(8, 0.0624, 0.005, 'paper', 'thin', 'flat-on-board', 'Surface derived in the care guidance; mass from 80 g/m2 office paper (common practice).'),
  'print-10x15': item(2, 0.015, 0.004, 'paper', 'thin', 'flat-on-board', 'Surface derived in the care guidance; mass from about 250 g/m2 photographic paper (from memory).'),
  book: item(8, 0.05, 1.814, 'paper', 'closed', 'flat-on-board', 'Mass: 4 lb each, US National Archives arithmetic on soaked libraries; surface of a book standing fanned is our estimate.'),
});

/** Size and mass of a standard thing. @throws ClimateRangeError listing the kinds */
export function standardItem(kind: StandardItemKind): StandardItem {
  return { kind, ...requireChoice('kind', kind, STANDARD_ITEMS) };
}

/** Goods that dry in the room's planning air; give `exposedAreaM2` over all breathing faces. `build` is thin if absent. */
export interface LoadInput extends DryingInput {
  startX: number;
  targetX?: number;
  build?: Build;
}

/** Moisture load of goods on the rack. */
export interface DryingLoad {
  waterKg: number;
  /** Hours of the thin-goods model: for thick goods only the divisor of the load, see `forecast`; `null` when too damp. */
  modelHours: number | null;
  /** Water an hour over the model hours; `null` when the air is too damp to dry the goods. */
  averageKgPerH: number | null;
  /** Water an hour at the start, the most that the goods give. */
  peakKgPerH: number;
  forecast: DryingForecast;
}

/**
 * Water to remove, time and load of goods in steady planning air. For thick goods the load is the upper side: they give
 * their water off more slowly and hold the place for longer. @throws ClimateRangeError
 */
export function dryingLoad(input: LoadInput, values: CalibrationValues = DEFAULT_CALIBRATION): DryingLoad {
  const startX = requireNumber('startX', input.startX, MOISTURE_RULE);
  const targetX = requireNumber('targetX', input.targetX ?? dryTargetX(input.material, values), MOISTURE_RULE);
  const law = dryingLaw(input, values);
  const waterKg = waterToRemoveKg({ dryMassKg: input.dryMassKg, startX, targetX });
  const modelHours = dryingTimeH(law, startX, targetX);
  const averageKgPerH = modelHours === null ? null : modelHours === 0 ? 0 : waterKg / modelHours;
  const start = Math.min(1, Math.max(0, (startX - law.equilibriumX) / Math.max(1e-9, law.criticalX - law.equilibriumX)));
  return {
    waterKg,
    modelHours,
    averageKgPerH,
    peakKgPerH: law.ratePerH * input.dryMassKg * start,
    forecast: dryingForecast({ ...input, targetX, build: input.build ?? 'thin' }, values),
  };
}

/** Average water an hour that goods give off until dry; `null` when the air is too damp, 0 when already dry. @throws ClimateRangeError */
export function averageDryingLoadKgPerH(input: LoadInput, values: CalibrationValues = DEFAULT_CALIBRATION): number | null {
  return dryingLoad(input, values).averageKgPerH;
}

/** The breathing area of a standard thing in its usual placement, or in another, m2. @throws ClimateRangeError */
export function standardExposedAreaM2(kind: StandardItemKind, placement?: Placement, values: CalibrationValues = DEFAULT_CALIBRATION): number {
  const standard = standardItem(kind);
  return exposedAreaM2(standard.faceAreaM2, placement ?? standard.placement, values);
}
