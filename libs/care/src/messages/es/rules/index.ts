/** What the rule book says, in files that are named after those of the rules. */
import { AUDIO_VISUAL } from './audio-visual.js';
import { BOOKS } from './books.js';
import { CHOICES } from './choices.js';
import { COMMON_PRACTICE } from './common-practice.js';
import { CONSENT } from './consent.js';
import { EQUIPMENT } from './equipment.js';
import { FREEZING } from './freezing.js';
import { GENERAL } from './general.js';
import { HAZARDS } from './hazards.js';
import { INORGANIC } from './inorganic.js';
import { LEATHER_AND_ORGANIC } from './leather-and-organic.js';
import { MIXED_AND_MENDED } from './mixed-and-mended.js';
import { MOULD } from './mould.js';
import { PAINTINGS_AND_WOOD } from './paintings-and-wood.js';
import { PAPER } from './paper.js';
import { PEOPLE } from './people.js';
import { PHOTOGRAPHS } from './photographs.js';
import { PLATES_AND_FILM } from './plates-and-film.js';
import { RELEASES } from './releases.js';
import { STANDING } from './standing.js';
import { STORAGE } from './storage.js';
import { TEXTILE_CONSTRUCTIONS } from './textile-constructions.js';
import { TEXTILE_DYES } from './textile-dyes.js';
import { TEXTILE_PRACTICE } from './textile-practice.js';
import { TEXTILES } from './textiles.js';
import { WATER } from './water.js';

/** By file. */
export const RULES: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  'rules/audio-visual': AUDIO_VISUAL,
  'rules/books': BOOKS,
  'rules/choices': CHOICES,
  'rules/common-practice': COMMON_PRACTICE,
  'rules/consent': CONSENT,
  'rules/equipment': EQUIPMENT,
  'rules/freezing': FREEZING,
  'rules/general': GENERAL,
  'rules/hazards': HAZARDS,
  'rules/inorganic': INORGANIC,
  'rules/leather-and-organic': LEATHER_AND_ORGANIC,
  'rules/mixed-and-mended': MIXED_AND_MENDED,
  'rules/mould': MOULD,
  'rules/paintings-and-wood': PAINTINGS_AND_WOOD,
  'rules/paper': PAPER,
  'rules/people': PEOPLE,
  'rules/photographs': PHOTOGRAPHS,
  'rules/plates-and-film': PLATES_AND_FILM,
  'rules/releases': RELEASES,
  'rules/standing': STANDING,
  'rules/storage': STORAGE,
  'rules/textile-constructions': TEXTILE_CONSTRUCTIONS,
  'rules/textile-dyes': TEXTILE_DYES,
  'rules/textile-practice': TEXTILE_PRACTICE,
  'rules/textiles': TEXTILES,
  'rules/water': WATER,
};
