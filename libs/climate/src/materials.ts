/**
 * What each fibre or material does with water. X is always kg of water per kg of oven-dry goods.
 *
 * Published (and only these): the regains at 65 % RH and 20 C of cotton, wool, silk, flax, hemp and jute, and the commercial
 * regains marked so. From memory: saturation values and the rest. Our calibration: Xc, acetate's saturation, the stand-in for mixed goods.
 */
import type { MarkedNumber } from './marks.js';
import { requireChoice, requireNumber } from './climate-range.error.js';
import { DEFAULT_CALIBRATION, type CalibrationValues } from './calibration.js';

/** Fibres and materials that have a row in the table; `mixed` and `unknown` borrow cotton's. */
export const MATERIALS = [
  'cotton', 'linen', 'hemp', 'jute', 'silk', 'wool', 'viscose', 'acetate', 'nylon', 'acrylic', 'polyester', 'paper', 'leather', 'mixed', 'unknown',
] as const;
export type Material = (typeof MATERIALS)[number];

/** A row of the table with the standing of each number. */
export interface MaterialRow {
  /** Regain at 65 % RH, 20 C: the physical value that drying aims at. */
  readonly regainAt65X: MarkedNumber;
  /** Moisture at about fibre saturation, where the water activity reaches 1. */
  readonly saturationX: MarkedNumber;
  /** Trade regain of ASTM D1909-13, `null` where none is held: a convention for buying and selling, never a drying target. */
  readonly commercialRegainX: MarkedNumber | null;
}

/** The numbers a drying calculation needs; pass your own for a material that you have measured. */
export interface SorptionProperties {
  regainAt65X: number;
  saturationX: number;
  /** Below this the drying rate falls. */
  criticalX: number;
}

const PHYSICAL = 'Bioresources and Bioprocessing 2020, 10.1186/s40643-020-00339-1, table 10 (after Morton and Hearle 2008), 65 % RH and 20 C';
const TRADE = 'ASTM D1909-13 as tabulated in Bioresources and Bioprocessing 2020, 10.1186/s40643-020-00339-1, table 10';
const published = (value: number, cite: string): MarkedNumber => Object.freeze({ value, mark: 'published', cite });
const remembered = (value: number, cite = 'From memory, unverified.'): MarkedNumber => Object.freeze({ value, mark: 'from-memory', cite });
const ours = (value: number, cite: string): MarkedNumber => Object.freeze({ value, mark: 'own-calibration', cite });
const row = (regainAt65X: MarkedNumber, saturationX: MarkedNumber, commercialRegainX: MarkedNumber | null): MaterialRow =>
  Object.freeze({ regainAt65X, saturationX, commercialRegainX });
const likeCotton = row(ours(0.075, 'Mixed or unknown goods are reckoned as cotton.'), ours(0.24, 'Mixed or unknown goods are reckoned as cotton.'), null);

/** The table of materials; every number carries its mark. */
export const MATERIAL_TABLE: Readonly<Record<Material, MaterialRow>> = Object.freeze({
  cotton: row(published(0.075, `${PHYSICAL}: 7-8 %, its middle taken`), remembered(0.24), published(0.085, TRADE)),
  linen: row(published(0.07, PHYSICAL), remembered(0.24), published(0.12, TRADE)),
  hemp: row(published(0.08, PHYSICAL), remembered(0.25), published(0.12, TRADE)),
  jute: row(published(0.12, PHYSICAL), remembered(0.33), published(0.1375, TRADE)),
  silk: row(published(0.1, PHYSICAL), remembered(0.33), published(0.11, TRADE)),
  wool: row(published(0.15, `${PHYSICAL}: 14-18 %, 15 % chosen within it by us`), remembered(0.34), published(0.136, TRADE)),
  viscose: row(remembered(0.12), remembered(0.45), remembered(0.11)),
  acetate: row(remembered(0.06), ours(0.18, 'Three times the 65 % regain, as for cotton; no source held.'), remembered(0.065)),
  nylon: row(remembered(0.04), remembered(0.085), remembered(0.045)),
  acrylic: row(remembered(0.015), remembered(0.03), remembered(0.015)),
  polyester: row(remembered(0.004), remembered(0.01), remembered(0.004)),
  paper: row(remembered(0.075), remembered(0.28), null),
  leather: row(remembered(0.16), remembered(0.45), null),
  mixed: likeCotton,
  unknown: likeCotton,
});

/** Density of the solid fibre in kg/m3, for the pore ceiling. All from memory. */
export const FIBRE_DENSITY_KG_PER_M3: Readonly<Record<Material, MarkedNumber>> = Object.freeze({
  cotton: remembered(1520), linen: remembered(1500), hemp: remembered(1480), jute: remembered(1440), silk: remembered(1340), wool: remembered(1310),
  viscose: remembered(1510), acetate: remembered(1320), nylon: remembered(1140), acrylic: remembered(1170), polyester: remembered(1390),
  paper: remembered(1500), leather: remembered(1400), mixed: ours(1520, 'As cotton.'), unknown: ours(1520, 'As cotton.'),
});

/**
 * The sorption numbers of a material, or the caller's own after checking them. The critical moisture of table rows is our
 * calibration: fibre saturation, but at least `minimumCriticalX`.
 * @throws ClimateRangeError for an unknown material or numbers that contradict each other.
 */
export function sorptionOf(material: Material | SorptionProperties, values: CalibrationValues = DEFAULT_CALIBRATION): SorptionProperties {
  if (typeof material === 'string') {
    const found = requireChoice('material', material, MATERIAL_TABLE);
    const saturationX = found.saturationX.value;
    return { regainAt65X: found.regainAt65X.value, saturationX, criticalX: Math.max(saturationX, values.minimumCriticalX) };
  }
  const unit = 'kg water per kg dry';
  const regainAt65X = requireNumber('regainAt65X', material.regainAt65X, { min: 0, exclusiveMin: true, max: 0.5, unit });
  const saturationX = requireNumber('saturationX', material.saturationX, { min: regainAt65X, exclusiveMin: true, max: 2, unit });
  const criticalX = requireNumber('criticalX', material.criticalX, { min: regainAt65X, max: 3, unit });
  return { regainAt65X, saturationX, criticalX };
}
