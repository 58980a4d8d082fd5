import { standardItem, type StandardItemKind } from '#climate';

/** What a thing or lot takes: drying area, freezer volume, dry mass. All own calibration, see below and in `climate`. */
export interface Extent {
  areaDm2: number;
  volumeL: number;
  dryMassG: number;
}

/** Freezer litres per kilogram of dry mass, bagged with air around it. Own calibration: measure your own bundles. */
const LITRES_PER_DRY_KG = { paper: 2.5, cloth: 15 } as const;

/** The extent of `count` things of a size class; at least 1 of each unit. */
export function extentOf(sizeClass: StandardItemKind, count: number): Extent {
  const one = standardItem(sizeClass);
  const litres = one.dryMassKg * (one.material === 'paper' ? LITRES_PER_DRY_KG.paper : LITRES_PER_DRY_KG.cloth);
  return {
    areaDm2: Math.max(1, Math.ceil(one.areaDm2 * count)),
    volumeL: Math.max(1, Math.ceil(litres * count)),
    dryMassG: Math.max(1, Math.ceil(one.dryMassKg * 1_000 * count)),
  };
}
