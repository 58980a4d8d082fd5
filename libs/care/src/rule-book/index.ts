import { CONSENT_RULES } from './consent.rules.js';
import { GENERAL_RULES } from './general.rules.js';
import { MOULD_RULES } from './mould.rules.js';
import { PAPER_AND_BOOK_RULES } from './paper-and-books.rules.js';
import { PEOPLE_RULES } from './people.rules.js';
import { PHOTOGRAPH_AND_FILM_RULES } from './photographs-and-film.rules.js';
import type { Rule } from './rule.js';
import { TEXTILE_DYE_RULES } from './textile-dyes.rules.js';
import { TEXTILE_PRACTICE_RULES } from './textile-practice.rules.js';
import { TEXTILE_RULES } from './textiles.rules.js';
import { WATER_AND_HAZARD_RULES } from './water-and-hazards.rules.js';

export type { Conclusion, Observation, Rule, Scope } from './rule.js';

/** Version of the rule book; recorded with every result so that an old decision can be read by its own rules. */
export const RULE_BOOK_VERSION = '2026.1';

/** The whole rule book. Order does not decide an outcome, only the order in which statements are read. */
export const RULE_BOOK: readonly Rule[] = [
  ...WATER_AND_HAZARD_RULES,
  ...TEXTILE_DYE_RULES,
  ...TEXTILE_RULES,
  ...TEXTILE_PRACTICE_RULES,
  ...PAPER_AND_BOOK_RULES,
  ...PHOTOGRAPH_AND_FILM_RULES,
  ...MOULD_RULES,
  ...GENERAL_RULES,
  ...PEOPLE_RULES,
  ...CONSENT_RULES,
];

const BY_ID: ReadonlyMap<string, Rule> = new Map(RULE_BOOK.map((rule) => [rule.id, rule]));

/** The rule of that id (also where sources disagree: `choice`, `alternative`), or undefined. */
export function findRule(id: string): Rule | undefined {
  return BY_ID.get(id);
}
