import { choicesOf, NEWEST_RELEASE, type Book, type Choice, type Mark, type ReleaseName } from '#care';
import type { RuleBookDecision } from '../ports/rule-book-store.js';
import { bookWith, type Followed } from './books.js';

/** A marked choice with the side that the network follows. */
export interface ChoiceView {
  choice: Choice;
  /** Id of the option in force. */
  inForce: string;
}

/** How many rules a book has, and what they rest on. */
export interface RuleCounts {
  total: number;
  floors: number;
  byMark: Record<Mark, number>;
}

/** The rule book of a network, or another release as the network would follow it. */
export interface RuleBookView {
  book: Book;
  /** The release that the network follows, whichever is shown. */
  follows: ReleaseName;
  newest: ReleaseName;
  /** Number of the decision in force, 0 for none. */
  number: number;
  decision: RuleBookDecision | null;
  /** What the decision names that the release shown does not have; it stands at its default. */
  lapsed: string[];
  /** A release that the network decided on and this version of the program does not hold. */
  lapsedRelease: string | null;
  choices: ChoiceView[];
  rules: RuleCounts;
}

/** A release with the decision in force, and what it holds in numbers. */
export function ruleBookView(shown: Followed, inForce: Followed): RuleBookView {
  const book = bookWith(shown);
  return {
    book, follows: inForce.release, newest: NEWEST_RELEASE, number: inForce.decision?.number ?? 0, decision: inForce.decision, lapsed: shown.lapsed, lapsedRelease: inForce.lapsedRelease,
    choices: choicesOf(shown.release).map((choice) => ({ choice, inForce: book.choices[choice.id] ?? choice.default })),
    rules: ruleCounts(book),
  };
}

/** Counts the rules of a book. */
export function ruleCounts({ rules }: Book): RuleCounts {
  const count = (mark: Mark): number => rules.filter(({ source }) => source.mark === mark).length;
  return {
    total: rules.length,
    floors: rules.filter(({ floor }) => floor === true).length,
    byMark: { published: count('published'), 'common-practice': count('common-practice'), 'from-memory': count('from-memory'), 'own-calibration': count('own-calibration') },
  };
}
