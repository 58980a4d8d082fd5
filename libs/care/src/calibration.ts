/**
 * Every number the rule book needs that a network may wish to change after measuring its own hall.
 * A number from a publication is named beside it; all others are this project's own calibration.
 */
import type { SizeKey } from './materials.js';
import type { Significance, StepKind } from './types.js';

/** Clocks the rules may start, in hours after wetting. */
export type ClockName =
  | 'at-once' | 'coated-paper' | 'stuck-prints' | 'unknown-material' | 'colour-untested' | 'mixed-metal' | 'mould' | 'mould-warm-air'
  | 'tape' | 'metal-tape' | 'roll-film' | 'wood' | 'soft-glue' | 'bone' | 'leather' | 'plant-fibre' | 'iron' | 'salt';

/** Early end of a band (warn) and its end (deadline), hours after wetting. */
export interface ClockHours {
  warn: number;
  deadline: number;
}

/** Hands-on time of one step; `lot` minutes are spent once however many pieces the lot counts. */
export interface Handling {
  minutes: number;
  crew: number;
  per: 'piece' | 'lot';
}

/** All adjustable numbers of this library. */
export interface CareCalibration {
  clockHours: Readonly<Record<ClockName, ClockHours>>;
  /** Largest remaining slack, in hours, at which each urgency is still given. */
  urgencyWithinHours: { immediate: number; withinADay: number; withinTwoDays: number };
  /** Start-by horizon, in hours from now, of a thing that no clock presses. */
  canWaitHours: number;
  /** Hours after wetting at which clean water counts as grey and any water as black. */
  waterWorsensHours: { cleanToGrey: number; greyToBlack: number };
  /** Air temperature assumed when nobody measured it, degrees Celsius. */
  defaultAirTempC: number;
  /** From this air temperature the short end of the mould band is used, degrees Celsius. */
  warmAirTempC: number;
  /** More bound books than this are beyond air drying. */
  booksForAirDryingMax: number;
  /** More leather or vellum bindings than this go to the freezer first. */
  leatherBindingsForAirDryingMax: number;
  /** Start-by moments in the same stretch of this many minutes count as equal when hands are scarce. */
  orderStretchMinutes: number;
  /** What the trace of dye of grade 4-5 counts as. */
  gradeFourFive: 'slight' | 'bleeding';
  /** Freezer settings, degrees Celsius; `discsNotColderC` is the lowest that gramophone discs are known to stand. */
  freezer: { freezeToC: number; holdAtMostC: number; discsNotColderC: number };
  weight: {
    significance: Readonly<Record<Significance, number>>;
    /** Factor of an only copy; a copy nobody asked about counts as the only one. */
    onlyCopyFactor: number;
    /** Lots: factor from the first band whose `fromCount` is reached, counted from the largest. */
    lotBands: readonly { fromCount: number; factor: number }[];
  };
  handlingDefault: Readonly<Record<StepKind, Handling>>;
  handlingBySize: Readonly<Record<SizeKey, Partial<Record<StepKind, Handling>>>>;
}

const piece = (minutes: number, crew = 1): Handling => ({ minutes, crew, per: 'piece' });
const lot = (minutes: number, crew = 1): Handling => ({ minutes, crew, per: 'lot' });

/**
 * Working assumptions to be measured (no published textile rate was found): intake and photograph 8 items/h a
 * person, colour test 10/h, rinse and blot of one large quilt 2 people x 30 min, small textile 10/h, flat
 * photographs 60/h, freezer wrapping 12/h. The rest are guesses of the same size.
 */
const HANDLING_DEFAULT: Readonly<Record<StepKind, Handling>> = {
  tag: lot(1.5), photograph: lot(6), assess: lot(5), 'colour-test': piece(6), stabilise: piece(4),
  rinse: piece(4), blot: piece(2), dry: piece(4), check: piece(2), 'surface-clean': piece(10),
  wrap: piece(5), freeze: lot(3), thaw: piece(5), refer: lot(10), release: lot(5), pack: piece(4), 'hand-back': lot(5),
};

/** Two people handle what is heavy when wet; rinse plus blot add up to the 30 minutes assumed above. */
const LARGE_TEXTILE: Partial<Record<StepKind, Handling>> = {
  stabilise: piece(10, 2), rinse: piece(20, 2), blot: piece(10, 2), dry: piece(10, 2), check: piece(4),
  'surface-clean': piece(20), wrap: piece(10, 2), pack: piece(10, 2), freeze: lot(4, 2),
};

/** One flat photograph a minute for rinsing and laying out together. */
const PHOTO: Partial<Record<StepKind, Handling>> = {
  stabilise: piece(0.5), rinse: piece(0.5), dry: piece(0.5), check: piece(0.2), wrap: piece(0.2), pack: piece(0.2),
};

/** 2 people air-dried about 100 volumes in 2 h: 25 volumes a person-hour (Plan for air-drying wet books, Cornell). */
const BOOK: Partial<Record<StepKind, Handling>> = {
  stabilise: piece(2), rinse: piece(2), dry: piece(2.4), check: piece(1), 'surface-clean': piece(4), wrap: piece(2), pack: piece(1),
};

/** Two people and slow hands: guesses of ours until someone measures. */
const FURNITURE: Partial<Record<StepKind, Handling>> = {
  stabilise: piece(20, 2), rinse: piece(20, 2), blot: piece(15, 2), dry: piece(20, 2), check: piece(5), 'surface-clean': piece(30), wrap: piece(15, 2), pack: piece(15, 2), freeze: lot(6, 2),
};

/** The numbers in force unless a network brings its own. */
export const DEFAULT_CALIBRATION: CareCalibration = {
  clockHours: {
    // Sources say "at once"; a clock needs a number. Ours.
    'at-once': { warn: 0, deadline: 2 },
    // 6 h is the usual trade figure for freezing coated paper; the warning at half of it is ours.
    'coated-paper': { warn: 3, deadline: 6 },
    // No source gives hours for stuck prints or for what nobody has named; the coated-paper figure is used. Ours.
    'stuck-prints': { warn: 3, deadline: 6 },
    'unknown-material': { warn: 3, deadline: 6 },
    'colour-untested': { warn: 12, deadline: 24 },
    'mixed-metal': { warn: 12, deadline: 24 },
    // 24-48 h in FEMA, Mold (2023) and EPA 402-K-01-001 ch. 3; later ends elsewhere (see rule mould.clock).
    mould: { warn: 24, deadline: 48 },
    'mould-warm-air': { warn: 12, deadline: 24 },
    // Specialist within 48 h: US National Library of Medicine, videotape page; the warning is ours.
    tape: { warn: 24, deadline: 48 },
    // "Before ferric" in the same page; the hours are ours.
    'metal-tape': { warn: 6, deadline: 12 },
    // 48 h to the laboratory's re-wash, from memory; the warning is ours.
    'roll-film': { warn: 24, deadline: 48 },
    // Start within 24-48 h (wood guides); the early end.
    wood: { warn: 12, deadline: 24 },
    // Sources call veneer and instruments a priority class without an hour. Ours.
    'soft-glue': { warn: 12, deadline: 24 },
    // 24 h seen for bone and ivory in Salvage at a Glance III; the warning is ours.
    bone: { warn: 12, deadline: 24 },
    // 48 h for tanned leather and for plant fibre, from memory; the warnings are ours.
    leather: { warn: 24, deadline: 48 },
    'plant-fibre': { warn: 24, deadline: 48 },
    // "Earlier than other inorganics; dry at once": ours.
    iron: { warn: 3, deadline: 6 },
    // Into fresh water before it dries: ours.
    salt: { warn: 6, deadline: 24 },
  },
  urgencyWithinHours: { immediate: 6, withinADay: 24, withinTwoDays: 48 },
  canWaitHours: 168,
  // Trade explainers of the three water categories: 1 -> 2 after 24-48 h, 2 -> 3 after about 48 h; the early end.
  waterWorsensHours: { cleanToGrey: 24, greyToBlack: 48 },
  defaultAirTempC: 25,
  warmAirTempC: 30,
  // Practical ceiling for air drying: fewer than about 100 volumes (Salvage guide, books, MNHS 2017).
  booksForAirDryingMax: 99,
  leatherBindingsForAirDryingMax: 10,
  orderStretchMinutes: 60,
  // No conservation source sets a pass grade (care guidance 5b); a proposal.
  gradeFourFive: 'slight',
  // -23 C: Lee College plan; -18 C: Waters, UK pocket guide; discs: Salvage at a Glance chart, University of Iowa.
  freezer: { freezeToC: -23, holdAtMostC: -18, discsNotColderC: -18 },
  weight: {
    significance: { everyday: 1, valued: 4, treasured: 12, irreplaceable: 30 },
    onlyCopyFactor: 2,
    lotBands: [
      { fromCount: 200, factor: 4 },
      { fromCount: 50, factor: 3 },
      { fromCount: 10, factor: 2 },
      { fromCount: 1, factor: 1 },
    ],
  },
  handlingDefault: HANDLING_DEFAULT,
  handlingBySize: {
    'small-textile': {},
    'large-textile': LARGE_TEXTILE,
    garment: { rinse: piece(8), blot: piece(6), dry: piece(6) },
    sheet: { stabilise: piece(0.5), dry: piece(0.5), check: piece(0.2), 'surface-clean': piece(2), wrap: piece(0.3), pack: piece(0.2) },
    'oversize-sheet': { stabilise: piece(4, 2), dry: piece(4, 2), wrap: piece(5, 2), pack: piece(4, 2) },
    framed: { stabilise: piece(10), dry: piece(4) },
    album: { stabilise: piece(4), wrap: piece(4), pack: piece(3) },
    book: BOOK,
    photo: PHOTO,
    plate: { stabilise: piece(4), dry: piece(3), pack: piece(5) },
    'film-roll': { stabilise: piece(5), pack: piece(5) },
    cassette: { stabilise: piece(2), rinse: piece(2), dry: piece(2), pack: piece(2) },
    painting: { stabilise: piece(15, 2), dry: piece(10, 2), wrap: piece(10, 2), pack: piece(10, 2) },
    furniture: FURNITURE,
    'small-object': { rinse: piece(5), blot: piece(3), dry: piece(3), pack: piece(5) },
    unknown: {},
  },
};
