import { ALL_RULES } from './all-rules.js';
import type { Rule } from './rule.js';

export { bookOf, buildBook, DEFAULT_BOOK, RULE_BOOK_VERSION } from './book.js';
export type { Book, Chosen } from './book.js';
export { BookChoiceError, CHOICES } from './choices.js';
export type { Choice, ChoiceId, ChoiceOption } from './choices.js';
export type { Conclusion, Observation, Rule, Scope } from './rule.js';

/** The whole rule book, with every choice at its default. Order does not decide an outcome, only the order in which statements are read. */
export const RULE_BOOK: readonly Rule[] = ALL_RULES;

const BY_ID: ReadonlyMap<string, Rule> = new Map(RULE_BOOK.map((rule) => [rule.id, rule]));

/** The rule of that id (also where sources disagree: `choice`, `alternative`), or undefined. */
export function findRule(id: string): Rule | undefined {
  return BY_ID.get(id);
}
