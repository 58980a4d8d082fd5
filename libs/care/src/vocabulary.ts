/** The words an assessment and a triage result are written in; contracts and screens take them from here. */

/** Material classes after the care guidance; each is one way of handling, not one kind of thing. */
export const MATERIAL_CLASSES = [
  'textile-flat-small',
  'textile-flat-large',
  'textile-quilt-padded',
  'textile-garment-3d',
  'textile-hat-or-shoe',
  'textile-knit-bias-or-lined',
  'textile-composite',
  'textile-silk',
  'textile-silk-painted-or-weighted',
  'textile-wool',
  'textile-painted-or-glazed',
  'textile-very-degraded',
  'textile-archaeological',
  'textile-everyday',
  'textile-stuffed',
  'paper-uncoated',
  'paper-coated',
  'paper-soluble-media',
  'paper-oversize',
  'paper-framed',
  'album-or-scrapbook',
  'book-bound',
  'book-leather-or-vellum',
  'parchment',
  'photo-silver-gelatin',
  'photo-gelatin-deteriorated',
  'photo-colour-print',
  'photo-albumen',
  'photo-collodion-print',
  'photo-carbon-or-woodburytype',
  'photo-collodion-or-tintype',
  'photo-daguerreotype',
  'photo-glass-plate-gelatin',
  'photo-lantern-slide-or-autochrome',
  'photo-inkjet-or-digital-print',
  'photo-stuck-together',
  'photo-unknown-process',
  'film-negative',
  'film-transparency',
  'film-nitrate-deteriorated',
  'film-safety-deteriorated',
  'film-roll',
  'tape-ferric',
  'tape-metal-particle',
  'tape-acetate-reel',
  'floppy-disc',
  'disc-vinyl-or-shellac',
  'disc-optical',
  'drive-or-memory-card',
  'device-with-battery',
  'painting-canvas',
  'wood-painted-or-gilded',
  'wood-small-object',
  'furniture-solid-wood',
  'furniture-veneered-or-inlaid',
  'furniture-upholstered',
  'musical-instrument',
  'leather-tanned',
  'leather-semi-tanned',
  'bone-or-ivory',
  'horn-baleen-or-shell',
  'taxidermy-or-skin',
  'herbarium',
  'mineral-or-fossil',
  'basket-or-plant-fibre',
  'ceramic-glazed',
  'ceramic-low-fired',
  'glass-object',
  'stone',
  'metal-iron',
  'metal-other',
  'unknown',
] as const;
export type MaterialClass = (typeof MATERIAL_CLASSES)[number];

export const FIBRES = ['cotton', 'linen', 'wool', 'silk', 'viscose', 'acetate', 'nylon', 'polyester', 'acrylic', 'mixed', 'unknown'] as const;
export type Fibre = (typeof FIBRES)[number];

export const WET_STATES = ['dripping', 'wet', 'damp', 'dry', 'unknown'] as const;
export type WetState = (typeof WET_STATES)[number];

/** Contamination of the water at the time of wetting; it worsens with hours. */
export const WATER_KINDS = ['clean', 'grey', 'black', 'salt', 'unknown'] as const;
export type WaterKind = (typeof WATER_KINDS)[number];

export const MOULD_STATES = ['none', 'suspected', 'active', 'dry', 'unknown'] as const;
export type MouldState = (typeof MOULD_STATES)[number];

/** Soil beside the water: `heavy-mud` is what a finger sinks into. */
export const SOILS = ['none', 'light', 'heavy-mud', 'unknown'] as const;
export type Soil = (typeof SOILS)[number];

export const FRAGILITIES = ['sound', 'weak', 'very-degraded', 'unknown'] as const;
export type Fragility = (typeof FRAGILITIES)[number];

export const HAZARDS = [
  'sewage', 'fuel-or-solvent', 'pesticide', 'arsenic-era-object', 'mercury', 'lead', 'asbestos', 'radium', 'ammunition', 'medicine', 'lithium-cell', 'sharps', 'unknown-liquid', 'nitrate-film',
] as const;
export type Hazard = (typeof HAZARDS)[number];

/** What the thing means to its family, in the family's own weighing. */
export const SIGNIFICANCES = ['everyday', 'valued', 'treasured', 'irreplaceable'] as const;
export type Significance = (typeof SIGNIFICANCES)[number];

/** Grey scale for staining (ISO 105-A03): '5' is no stain. `any-transfer` and `no-transfer` are swab readings. */
export const COLOUR_TEST_READINGS = ['5', '4-5', '4', '3-4', '3', '2-3', '2', '1-2', '1', 'no-transfer', 'any-transfer'] as const;
export type ColourTestReading = (typeof COLOUR_TEST_READINGS)[number];

export const URGENCIES = ['immediate', 'within-a-day', 'within-two-days', 'can-wait'] as const;
export type Urgency = (typeof URGENCIES)[number];

export const DISPOSITIONS = ['treat', 'hold-frozen', 'hold-wet', 'refer', 'release'] as const;
export type Disposition = (typeof DISPOSITIONS)[number];

export const STEP_KINDS = ['tag', 'photograph', 'assess', 'colour-test', 'stabilise', 'rinse', 'blot', 'dry', 'check', 'surface-clean', 'wrap', 'freeze', 'thaw', 'refer', 'release', 'pack', 'hand-back'] as const;
export type StepKind = (typeof STEP_KINDS)[number];

export const ZONES = ['dirty', 'clean', 'quarantine', 'cold'] as const;
export type Zone = (typeof ZONES)[number];

export const DAMAGE_KINDS = [
  'mould', 'blocking', 'dye-migration', 'image-loss', 'corrosion', 'distortion', 'binder-loss', 'flaking', 'warping', 'delamination', 'cracking', 'salt-crystals',
] as const;
export type DamageKind = (typeof DAMAGE_KINDS)[number];

/** Skills a step may ask of the person who does it. */
export const SKILLS = ['intake', 'colour-testing', 'rinsing', 'blotting', 'drying', 'paper', 'photographs', 'mould-work', 'freezer-wrapping', 'assessment', 'lead'] as const;
export type Skill = (typeof SKILLS)[number];

/** Self-declared restrictions; never a diagnosis. */
export const RESTRICTIONS = ['no-mould', 'no-lifting', 'no-wet-work', 'under-age', 'no-heat'] as const;
export type Restriction = (typeof RESTRICTIONS)[number];

/** Where things are kept from each other. */
export const SHARED_PLACES = ['bath', 'rack', 'bag', 'freezer'] as const;
export type SharedPlace = (typeof SHARED_PLACES)[number];
