/** Spanish: plain, international, for volunteers. Translated by us; no Spanish-speaking conservator has read it yet. */
import { CHANGES } from './changes.js';
import { CONTRADICTIONS } from './contradictions.js';
import { HOUSEHOLDS } from './households.js';
import { MATERIALS } from './materials.js';
import { PEOPLE } from './people.js';
import { QUESTIONS } from './questions.js';
import { RECEIPTS } from './receipts.js';
import { RETIRED } from './retired.js';
import { RULE_BOOK } from './rule-book.js';
import { RULES } from './rules/index.js';
import { STATIONS } from './stations.js';
import { WORDS } from './words.js';

/** Each file with its sentences: English to Spanish. */
export const SPANISH_FILES: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  words: WORDS, materials: MATERIALS, questions: QUESTIONS, receipts: RECEIPTS, households: HOUSEHOLDS, stations: STATIONS, people: PEOPLE, changes: CHANGES, contradictions: CONTRADICTIONS, 'rule-book': RULE_BOOK, ...RULES, retired: RETIRED,
};

/** All of them; every sentence stands in one file only. */
export const SPANISH: ReadonlyMap<string, string> = new Map(Object.values(SPANISH_FILES).flatMap((sentences) => Object.entries(sentences)));
