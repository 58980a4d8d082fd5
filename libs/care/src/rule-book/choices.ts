/** Where sources disagree: what this book does, what the others say, and what a network may switch. */
import type { CareCalibration } from '../calibration.js';
import { own, practice, published } from '../sources.js';
import type { Source } from '../types.js';
import { CHOICE_REPLACEMENTS } from './choice-rules.js';
import { isIn, NEWEST_RELEASE, RELEASES, type Held, type ReleaseName } from './releases.js';
import type { Rule } from './rule.js';

export const CHOICE_IDS = [
  'mould-clock', 'porous-heirlooms', 'rinse-soaked-pieces', 'coated-paper', 'leather-bindings', 'painting-posture', 'glass-negatives', 'freezer-settings', 'fan-direction', 'sunlight', 'heat-for-metal',
  'stuck-photographs', 'wet-iron', 'bleach', 'water-ageing', 'wood-start', 'collodion-freezing', 'photographs-in-freezer', 'cleaning-agent', 'tape-clock', 'colour-grade', 'wrap-bench',
] as const;
export type ChoiceId = (typeof CHOICE_IDS)[number];

/** Numbers that go over a network's calibration. */
export type NumbersOfChoice = Partial<Pick<CareCalibration, 'leatherBindingsForAirDryingMax' | 'gradeFourFive' | 'freezer'>> & { clockHours?: Partial<CareCalibration['clockHours']> };

/** One side of a disagreement; where it can be computed it says how the book differs from the default. */
export interface ChoiceOption extends Held {
  id: string;
  /** What this side does, in plain words. */
  text: string;
  source: Source;
  numbers?: NumbersOfChoice;
  rules?: { replace?: Readonly<Record<string, Partial<Rule>>>; drop?: readonly string[]; add?: readonly Rule[] };
}

/** A marked choice of the rule book. */
export interface Choice extends Held {
  id: ChoiceId;
  /** Row of the care guidance's list of disagreements; `null` for a choice of ours beside it. */
  row: number | null;
  text: string;
  /** The option in force unless a network switches. */
  default: string;
  /** A safety floor: shown with both sides, never switched. */
  floor: boolean;
  options: readonly ChoiceOption[];
}

/** A choice that cannot be made: it does not exist, has no such option, or is a safety floor. */
export class BookChoiceError extends Error {
  constructor(readonly reason: 'unknown-choice' | 'unknown-option' | 'floor', readonly choiceId: string, readonly optionId: string) {
    super([reason, choiceId, optionId].join(' '));
    this.name = 'BookChoiceError';
  }
}

const PROPOSAL = own('the handling proposed between the sources.');

const open = (id: ChoiceId, row: number | null, text: string, options: readonly [ChoiceOption, ...ChoiceOption[]]): Choice => ({ id, row, text, default: options[0].id, floor: false, options });
const floor = (id: ChoiceId, row: number, text: string, options: readonly [ChoiceOption, ...ChoiceOption[]]): Choice => ({ ...open(id, row, text, options), floor: true });

const clocksAndFloors: Choice[] = [
  open('mould-clock', 1, 'How long before mould must be expected', [
    { id: '48h', text: 'Drying or freezing begins within 48 hours, with a warning at 24.', source: published('epaMould', 'fema2023', 'nedccPhotographs', 'npsWetTextiles') },
    { id: '24h', text: 'Begins within 24 hours, the short end of the band.', source: published('fema2023'), numbers: { clockHours: { mould: { warn: 12, deadline: 24 } } } },
    { id: '72h', text: 'Begins within 72 hours, the long end.', source: published('amnhFreezing', 'leeCollege', 'ukPocket'), numbers: { clockHours: { mould: { warn: 48, deadline: 72 } } } },
  ]),
  floor('porous-heirlooms', 2, 'Porous heirlooms from flood water', [
    { id: 'consent', text: 'Kept only with a named owner’s consent and in isolation; never silent.', source: PROPOSAL },
    { id: 'discard', text: 'Discarded with books, toys and most paper.', source: published('cdcFloodWater', 'fema2023') },
    { id: 'salvage', text: 'Salvaged and frozen without more ado.', source: published('npsWetTextiles', 'nedccPhotographs', 'hentf') },
  ]),
  open('coated-paper', 4, 'How soon coated paper must be frozen', [
    { id: '6h', text: 'Within six hours.', source: practice('6 h is the usual trade figure, seen in the press.') },
    { id: '24h', text: 'Within 24 hours or frozen.', source: published('nlmCoated'), numbers: { clockHours: { 'coated-paper': { warn: 12, deadline: 24 } } } },
    { id: '48h', text: 'Frozen or dried within 48 hours.', source: published('iowaChart'), numbers: { clockHours: { 'coated-paper': { warn: 24, deadline: 48 } } } },
  ]),
  open('wood-start', 17, 'When wood is begun', [
    { id: '24h', text: 'Begun within 24 hours, finished slowly.', source: published('mnhsWood', 'chemung') },
    { id: '48h', text: 'Begun within 48 hours, finished slowly.', source: published('mnhsWood', 'chemung'), numbers: { clockHours: { wood: { warn: 24, deadline: 48 } } } },
  ]),
  open('tape-clock', 21, 'When wet tape must reach a specialist', [
    { id: '48h', text: 'Within 48 hours, metal tape first.', source: published('nlmTape') },
    { id: 'several-days', text: '48 hours only in paper boxes, otherwise several days; four are reckoned.', source: published('nlmTape'), numbers: { clockHours: { tape: { warn: 48, deadline: 96 } } } },
  ]),
  floor('water-ageing', 16, 'How fast water grows worse', [
    { id: 'early', text: 'Clean counts as grey after 24 hours, any as black after 48.', source: PROPOSAL },
    { id: 'undated', text: 'It grows worse with time, without a figure.', source: practice('trade explainers of the water categories.') },
  ]),
  floor('glass-negatives', 7, 'Gelatin glass plates and the freezer', [
    { id: 'never', text: 'Nothing on glass is frozen; gelatin plates are referred.', source: published('texas') },
    { id: 'gelatin-may', text: 'Gelatin plates may be frozen, only collodion is barred.', source: practice('older charts, from memory.') },
  ]),
  floor('collodion-freezing', 18, 'Collodion and freezing', [
    { id: 'never', text: 'Never frozen, as a precaution.', source: published('nedccPhotographs', 'hendriks') },
    { id: 'untested', text: 'The test of 1983 was soaking and freeze-drying; freezing as such was not condemned.', source: published('hendriks') },
  ]),
  floor('bleach', 14, 'Bleach', [
    { id: 'hall-only', text: 'For the hall alone, by the text of the local authority.', source: PROPOSAL },
    { id: 'dilutions', text: 'Dilutions differ: 3/4 cup a gallon; 1 cup to 5 gallons for hard surfaces, 1 cup a gallon for mould.', source: published('waDoh', 'cdcFloodWater') },
  ]),
];

const ways: Choice[] = [
  open('rinse-soaked-pieces', 3, 'Soaked quilts and wool', [
    { id: 'by-wet-state', text: 'What is soaked and dye-fast is rinsed; what is dry is never washed.', source: PROPOSAL },
    { id: 'museum', text: 'Stuffed quilts and wool are not rinsed, wet or dry.', source: published('cci1314'), rules: CHOICE_REPLACEMENTS.museum },
  ]),
  open('leather-bindings', 5, 'Leather and vellum bindings', [
    { id: 'by-number', text: 'Few are dried, many are frozen.', source: PROPOSAL },
    { id: 'freeze-first', text: 'Frozen at once, however few.', source: published('iowaChart'), numbers: { leatherBindingsForAirDryingMax: 0 } },
    { id: 'dry-first', text: 'Dried at once, however many.', source: published('louisiana'), numbers: { leatherBindingsForAirDryingMax: 1_000_000 } },
  ]),
  open('painting-posture', 6, 'How a wet painting lies', [
    { id: 'conservator', text: 'A conservator chooses, and the choice is recorded.', source: PROPOSAL },
    { id: 'face-up', text: 'Drained, then face up.', source: published('iowaChart'), rules: CHOICE_REPLACEMENTS.faceUp },
    { id: 'face-down', text: 'Face down on a padded bed, carried upright.', source: published('mnhsPaintings'), rules: CHOICE_REPLACEMENTS.faceDown },
  ]),
  open('freezer-settings', 8, 'How cold the freezer is', [
    { id: 'freeze-23-hold-18', text: 'Frozen to -23 C, held at -18 C or colder.', source: PROPOSAL },
    { id: 'hold-18', text: 'Frozen and held at -18 C.', source: published('waters', 'ukPocket'), numbers: { freezer: { freezeToC: -18, holdAtMostC: -18, discsNotColderC: -18 } }, rules: CHOICE_REPLACEMENTS.holdAt18 },
    { id: 'freeze-30', text: 'Frozen to -30 C or by blast, held at -18 C or colder.', source: published('unescoRamp'), numbers: { freezer: { freezeToC: -30, holdAtMostC: -18, discsNotColderC: -18 } }, rules: CHOICE_REPLACEMENTS.freezeTo30 },
  ]),
  open('fan-direction', 9, 'Where fans point', [
    { id: 'low-indirect', text: 'Low and indirect; across textiles from a distance.', source: PROPOSAL },
    { id: 'away', text: 'Never toward belongings, textiles included.', source: published('salvageObjects'), rules: CHOICE_REPLACEMENTS.fansAway },
    {
      id: 'across', text: 'Across the surface of textiles; toward nothing else.', source: published('mnhsTextiles'), rules: CHOICE_REPLACEMENTS.fansAcross,
      since: '2026.11', why: 'One of the sources that disagree had no side to be chosen: it lets air pass across textiles.',
    },
  ]),
  open('sunlight', 10, 'Sunlight', [
    { id: 'none', text: 'No belongings in the sun.', source: published('fema2017') },
    { id: 'everyday-only', text: 'No heirlooms in the sun; it may help with crusted mould on everyday things.', source: published('gorges'), rules: CHOICE_REPLACEMENTS.sunForEveryday },
  ]),
  open('heat-for-metal', 11, 'Warmth', [
    { id: 'metal-38', text: 'For bare metal only, to 38 C.', source: published('mnhsInorganics') },
    { id: 'none', text: 'No warmth at all.', source: published('fema2017'), rules: { drop: ['metal.gentle-warmth'] } },
  ]),
  open('stuck-photographs', 12, 'Photographs that stick together', [
    { id: 'freeze', text: 'Frozen as they are, not separated.', source: published('nedccPhotographs') },
    { id: 'soak', text: 'Soaked in clean cold water for up to 48 hours, until they part by themselves.', source: published('fema2017'), rules: CHOICE_REPLACEMENTS.soakStuckPrints },
  ]),
  open('wet-iron', 13, 'Wet iron', [
    { id: 'by-water', text: 'From fresh water dried at once, from salt water kept in fresh water.', source: published('salvageObjects') },
    { id: 'always-dry', text: 'Rinsed and dried at once, whatever the water.', source: published('mnhsInorganics'), rules: { drop: ['iron.salt.hold-wet'] } },
  ]),
  open('photographs-in-freezer', 19, 'Photographs in the freezer', [
    { id: 'wet-salvage', text: 'Most processes may be frozen in wet salvage.', source: published('nedccPhotographs', 'louisiana') },
    { id: 'pest-protocol', text: 'Most are barred, as one library’s mould and pest protocol has it; colour prints and film may.', source: practice('Smith mould and pest protocol for collections, as read in a copy.'), rules: CHOICE_REPLACEMENTS.photographsBarred },
  ]),
  open('cleaning-agent', 20, 'What goes into the rinse', [
    { id: 'plain-water', text: 'Plain water; the rest is for a practitioner.', source: published('salvageTextiles', 'cci137') },
    { id: 'mild-detergent', text: 'A mild laundry detergent by hand for cotton and linen.', source: published('npsWetTextiles'), rules: CHOICE_REPLACEMENTS.mildDetergent },
  ]),
  open('colour-grade', null, 'A trace of dye of grade 4-5', [
    { id: 'alone', text: 'Grade 5 is rinsed, 4-5 alone, 4 or worse counts as bleeding.', source: PROPOSAL },
    { id: 'any-transfer', text: 'Any transfer at all counts as bleeding.', source: published('npsWetTextiles'), numbers: { gradeFourFive: 'bleeding' } },
  ]),
];

const benches: Choice[] = [
  {
    ...open('wrap-bench', null, 'Where wet things are wrapped for the freezer', [
      { id: 'dirty-side', text: 'On the dirty side, where they came in.', source: own('no source says where the bench stands; what was not rinsed stays on its side.') },
      { id: 'at-the-freezer', text: 'At the freezer, by people protected as on the dirty side; what has active mould is wrapped in quarantine all the same.', source: own('the same, where the hall has its only bench at the freezer.'), rules: CHOICE_REPLACEMENTS.wrapAtFreezer },
    ]),
    since: '2026.11', why: 'Halls whose only wrapping bench stands at the freezer had no way to it, and no source asks for a bench on the dirty side.',
  },
];

/** Every marked choice of every release, floors included, with both sides. */
export const ALL_CHOICES: readonly Choice[] = [...clocksAndFloors, ...ways, ...benches];

const CHOICES_BY_RELEASE = new Map<ReleaseName, readonly Choice[]>(
  RELEASES.map((release) => [release, ALL_CHOICES.filter((choice) => isIn(release, choice)).map((choice) => ({ ...choice, options: choice.options.filter((option) => isIn(release, option)) }))]),
);

/** The marked choices of one release, each with the sides that it has there. */
export const choicesOf = (release: ReleaseName): readonly Choice[] => CHOICES_BY_RELEASE.get(release) ?? [];

/** The marked choices of the newest release. */
export const CHOICES: readonly Choice[] = choicesOf(NEWEST_RELEASE);
