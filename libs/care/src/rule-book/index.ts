import { ALL_RULES, rulesOf } from './all-rules.js';
import { NEWEST_RELEASE } from './releases.js';
import type { Rule } from './rule.js';

export { bookOf, buildBook, DEFAULT_BOOK, RULE_BOOK_VERSION } from './book.js';
export type { Book, Chosen } from './book.js';
export { BookChoiceError, CHOICES, choicesOf } from './choices.js';
export type { Choice, ChoiceId, ChoiceOption } from './choices.js';
export { RELEASE_CHANGE_KINDS, releaseChanges } from './release-changes.js';
export type { ReleaseChangeKind, ReleaseChanges, RuleOfRelease, SideOfRelease } from './release-changes.js';
export { compareReleases, NEWEST_RELEASE, RELEASE_SUMMARIES, releaseBefore, RELEASES, REWORDED } from './releases.js';
export type { ReleaseName } from './releases.js';
export type { Conclusion, Observation, Rule, Scope } from './rule.js';

/** The newest rule book, with every choice at its default. Order does not decide an outcome, only the order in which statements are read. */
export const RULE_BOOK: readonly Rule[] = rulesOf(NEWEST_RELEASE);

// Of several wordings of one rule the newest stands last.
const BY_ID: ReadonlyMap<string, Rule> = new Map(ALL_RULES.map((rule) => [rule.id, rule]));

/** The rule of that id as its newest wording has it (also where sources disagree: `choice`, `alternative`), or undefined. */
export function findRule(id: string): Rule | undefined {
  return BY_ID.get(id);
}
