import type { MaterialClass } from './types.js';

/** Material families: what a shared rule such as "rinse whites apart" or "do not touch the face" is said of. */
export const FAMILIES = ['textile', 'paper', 'book', 'photo', 'film', 'audio-visual', 'painting', 'wood', 'leather', 'organic', 'inorganic', 'unknown'] as const;
export type Family = (typeof FAMILIES)[number];

/** Rows of the handling-time table: things of one size take about the same hands. */
export type SizeKey =
  | 'small-textile' | 'large-textile' | 'garment' | 'sheet' | 'oversize-sheet' | 'framed' | 'album' | 'book' | 'photo' | 'plate'
  | 'film-roll' | 'cassette' | 'painting' | 'furniture' | 'small-object' | 'unknown';

/** Fixed properties of a material class that more than one rule asks for. */
export interface MaterialTraits {
  family: Family;
  size: SizeKey;
  /** Takes dirty water into itself, so that contamination cannot be wiped off. */
  porous: boolean;
  /** Needs two people when wet (care guidance, section 9 no. 7). */
  heavyWhenWet: boolean;
  /** Mould can live on the material itself, so that the mould clock runs for it. */
  feedsMould: boolean;
}

type Extra = 'sealed' | 'heavy' | 'no-mould';

const traits = (family: Family, size: SizeKey, ...extras: Extra[]): MaterialTraits => ({
  family, size, porous: !extras.includes('sealed'), heavyWhenWet: extras.includes('heavy'), feedsMould: !extras.includes('no-mould'),
});

/** Traits of every material class; a class that is not known counts as porous and heavy (the cautious side). */
export const MATERIALS: Readonly<Record<MaterialClass, MaterialTraits>> = {
  'textile-flat-small': traits('textile', 'small-textile'),
  'textile-flat-large': traits('textile', 'large-textile', 'heavy'),
  'textile-quilt-padded': traits('textile', 'large-textile', 'heavy'),
  'textile-garment-3d': traits('textile', 'garment'),
  'textile-hat-or-shoe': traits('textile', 'garment'),
  'textile-knit-bias-or-lined': traits('textile', 'garment', 'heavy'),
  'textile-composite': traits('textile', 'garment'),
  'textile-silk': traits('textile', 'garment'),
  'textile-silk-painted-or-weighted': traits('textile', 'garment'),
  'textile-wool': traits('textile', 'garment', 'heavy'),
  'textile-painted-or-glazed': traits('textile', 'large-textile', 'heavy'),
  'textile-very-degraded': traits('textile', 'large-textile', 'heavy'),
  'textile-archaeological': traits('textile', 'large-textile', 'heavy'),
  'textile-everyday': traits('textile', 'garment'),
  'textile-stuffed': traits('textile', 'garment', 'heavy'),
  'paper-uncoated': traits('paper', 'sheet'),
  'paper-coated': traits('paper', 'sheet'),
  'paper-soluble-media': traits('paper', 'sheet'),
  'paper-oversize': traits('paper', 'oversize-sheet'),
  'paper-framed': traits('paper', 'framed'),
  'album-or-scrapbook': traits('book', 'album'),
  'book-bound': traits('book', 'book'),
  'book-leather-or-vellum': traits('book', 'book'),
  parchment: traits('paper', 'sheet'),
  'photo-silver-gelatin': traits('photo', 'photo'),
  'photo-gelatin-deteriorated': traits('photo', 'photo'),
  'photo-colour-print': traits('photo', 'photo'),
  'photo-albumen': traits('photo', 'photo'),
  'photo-collodion-print': traits('photo', 'photo'),
  'photo-carbon-or-woodburytype': traits('photo', 'photo'),
  'photo-collodion-or-tintype': traits('photo', 'plate', 'sealed'),
  'photo-daguerreotype': traits('photo', 'plate', 'sealed'),
  'photo-glass-plate-gelatin': traits('photo', 'plate', 'sealed'),
  'photo-lantern-slide-or-autochrome': traits('photo', 'plate', 'sealed'),
  'photo-inkjet-or-digital-print': traits('photo', 'photo'),
  'photo-stuck-together': traits('photo', 'photo'),
  'photo-unknown-process': traits('photo', 'photo'),
  'film-negative': traits('film', 'photo', 'sealed'),
  'film-transparency': traits('film', 'photo', 'sealed'),
  'film-nitrate-deteriorated': traits('film', 'photo', 'sealed'),
  'film-safety-deteriorated': traits('film', 'photo', 'sealed'),
  'film-roll': traits('film', 'film-roll', 'sealed'),
  'tape-ferric': traits('audio-visual', 'cassette', 'sealed'),
  'tape-metal-particle': traits('audio-visual', 'cassette', 'sealed'),
  'tape-acetate-reel': traits('audio-visual', 'cassette', 'sealed'),
  'floppy-disc': traits('audio-visual', 'cassette', 'sealed'),
  'disc-vinyl-or-shellac': traits('audio-visual', 'plate', 'sealed'),
  'disc-optical': traits('audio-visual', 'plate', 'sealed'),
  'drive-or-memory-card': traits('audio-visual', 'cassette', 'sealed'),
  'device-with-battery': traits('audio-visual', 'cassette', 'sealed'),
  'painting-canvas': traits('painting', 'painting'),
  'wood-painted-or-gilded': traits('wood', 'small-object'),
  'wood-small-object': traits('wood', 'small-object'),
  'furniture-solid-wood': traits('wood', 'furniture', 'heavy'),
  'furniture-veneered-or-inlaid': traits('wood', 'furniture', 'heavy'),
  'furniture-upholstered': traits('wood', 'furniture', 'heavy'),
  'musical-instrument': traits('wood', 'small-object'),
  'leather-tanned': traits('leather', 'garment'),
  'leather-semi-tanned': traits('leather', 'garment'),
  'bone-or-ivory': traits('organic', 'small-object'),
  'horn-baleen-or-shell': traits('organic', 'small-object'),
  'taxidermy-or-skin': traits('organic', 'garment'),
  herbarium: traits('organic', 'sheet'),
  'mineral-or-fossil': traits('inorganic', 'small-object'),
  'basket-or-plant-fibre': traits('organic', 'small-object'),
  'ceramic-glazed': traits('inorganic', 'small-object', 'sealed', 'no-mould'),
  'ceramic-low-fired': traits('inorganic', 'small-object'),
  'glass-object': traits('inorganic', 'small-object', 'sealed', 'no-mould'),
  stone: traits('inorganic', 'small-object', 'no-mould'),
  'metal-iron': traits('inorganic', 'small-object', 'sealed', 'no-mould'),
  'metal-other': traits('inorganic', 'small-object', 'sealed', 'no-mould'),
  unknown: traits('unknown', 'unknown', 'heavy'),
};
