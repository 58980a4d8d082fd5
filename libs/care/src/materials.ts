import type { MaterialClass } from './types.js';

/** Material families: what a shared rule such as "rinse whites apart" or "do not touch the face" is said of. */
export type Family = 'textile' | 'paper' | 'book' | 'photo' | 'film' | 'unknown';

/** Rows of the handling-time table: things of one size take about the same hands. */
export type SizeKey = 'small-textile' | 'large-textile' | 'garment' | 'sheet' | 'oversize-sheet' | 'framed' | 'album' | 'book' | 'photo' | 'plate' | 'unknown';

/** Fixed properties of a material class that more than one rule asks for. */
export interface MaterialTraits {
  family: Family;
  size: SizeKey;
  /** Takes dirty water into itself, so that contamination cannot be wiped off. */
  porous: boolean;
  /** Needs two people when wet (care guidance, section 9 no. 7). */
  heavyWhenWet: boolean;
}

const traits = (family: Family, size: SizeKey, porous: boolean, heavyWhenWet = false): MaterialTraits => ({ family, size, porous, heavyWhenWet });

/** Traits of every material class; a class that is not known counts as porous and heavy (the cautious side). */
export const MATERIALS: Readonly<Record<MaterialClass, MaterialTraits>> = {
  'textile-flat-small': traits('textile', 'small-textile', true),
  'textile-flat-large': traits('textile', 'large-textile', true, true),
  'textile-quilt-padded': traits('textile', 'large-textile', true, true),
  'textile-garment-3d': traits('textile', 'garment', true),
  'textile-composite': traits('textile', 'garment', true),
  'textile-silk': traits('textile', 'garment', true),
  'textile-wool': traits('textile', 'garment', true, true),
  'textile-painted-or-glazed': traits('textile', 'large-textile', true, true),
  'textile-very-degraded': traits('textile', 'large-textile', true, true),
  'textile-everyday': traits('textile', 'garment', true),
  'textile-stuffed': traits('textile', 'garment', true, true),
  'paper-uncoated': traits('paper', 'sheet', true),
  'paper-coated': traits('paper', 'sheet', true),
  'paper-soluble-media': traits('paper', 'sheet', true),
  'paper-oversize': traits('paper', 'oversize-sheet', true),
  'paper-framed': traits('paper', 'framed', true),
  'album-or-scrapbook': traits('book', 'album', true),
  'book-bound': traits('book', 'book', true),
  'book-leather-or-vellum': traits('book', 'book', true),
  parchment: traits('paper', 'sheet', true),
  'photo-silver-gelatin': traits('photo', 'photo', true),
  'photo-colour-print': traits('photo', 'photo', true),
  'photo-albumen': traits('photo', 'photo', true),
  'photo-collodion-or-tintype': traits('photo', 'plate', false),
  'photo-daguerreotype': traits('photo', 'plate', false),
  'photo-glass-plate-gelatin': traits('photo', 'plate', false),
  'photo-inkjet-or-digital-print': traits('photo', 'photo', true),
  'film-negative': traits('film', 'photo', false),
  'film-nitrate-deteriorated': traits('film', 'photo', false),
  'photo-stuck-together': traits('photo', 'photo', true),
  unknown: traits('unknown', 'unknown', true, true),
};
