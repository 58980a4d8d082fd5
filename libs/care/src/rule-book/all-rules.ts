import { AUDIO_VISUAL_RULES } from './audio-visual.rules.js';
import { COMMON_PRACTICE_RULES } from './common-practice.rules.js';
import { CONSENT_RULES } from './consent.rules.js';
import { FREEZING_RULES } from './freezing.rules.js';
import { GENERAL_RULES } from './general.rules.js';
import { HAZARD_RULES } from './hazards.rules.js';
import { INORGANIC_RULES } from './inorganic.rules.js';
import { LEATHER_AND_ORGANIC_RULES } from './leather-and-organic.rules.js';
import { MIXED_AND_MENDED_RULES } from './mixed-and-mended.rules.js';
import { MOULD_RULES } from './mould.rules.js';
import { PAINTING_AND_WOOD_RULES } from './paintings-and-wood.rules.js';
import { BOOK_RULES } from './books.rules.js';
import { PAPER_RULES } from './paper.rules.js';
import { PEOPLE_RULES } from './people.rules.js';
import { PHOTOGRAPH_RULES } from './photographs.rules.js';
import { PLATE_AND_FILM_RULES } from './plates-and-film.rules.js';
import { isIn, type ReleaseName } from './releases.js';
import type { Rule } from './rule.js';
import { STORAGE_RULES } from './storage.rules.js';
import { TEXTILE_CONSTRUCTION_RULES } from './textile-constructions.rules.js';
import { TEXTILE_DYE_RULES } from './textile-dyes.rules.js';
import { TEXTILE_PRACTICE_RULES } from './textile-practice.rules.js';
import { TEXTILE_RULES } from './textiles.rules.js';
import { WATER_RULES } from './water.rules.js';

/** Every rule of every release, at the default of its choices. */
export const ALL_RULES: readonly Rule[] = [
  ...WATER_RULES,
  ...HAZARD_RULES,
  ...TEXTILE_DYE_RULES,
  ...TEXTILE_RULES,
  ...TEXTILE_CONSTRUCTION_RULES,
  ...TEXTILE_PRACTICE_RULES,
  ...PAPER_RULES,
  ...BOOK_RULES,
  ...PHOTOGRAPH_RULES,
  ...PLATE_AND_FILM_RULES,
  ...AUDIO_VISUAL_RULES,
  ...PAINTING_AND_WOOD_RULES,
  ...LEATHER_AND_ORGANIC_RULES,
  ...INORGANIC_RULES,
  ...MIXED_AND_MENDED_RULES,
  ...MOULD_RULES,
  ...FREEZING_RULES,
  ...GENERAL_RULES,
  ...COMMON_PRACTICE_RULES,
  ...STORAGE_RULES,
  ...PEOPLE_RULES,
  ...CONSENT_RULES,
];

/** The rules of one release, in the order of the book. */
export const rulesOf = (release: ReleaseName): readonly Rule[] => ALL_RULES.filter((rule) => isIn(release, rule));
