import { CHOICES, RULE_BOOK_VERSION, type Book, type Choice, type Mark } from '#care';
import type { RuleBookDecision } from '../ports/rule-book-store.js';
import { bookWith, faultsIn } from './books.js';

/** A marked choice with the side that the network follows. */
export interface ChoiceView {
  choice: Choice;
  /** Id of the option in force. */
  inForce: string;
}

/** The rule book of a network. */
export interface RuleBookView {
  book: Book;
  /** Version of the rules, without the choices. */
  rulesVersion: string;
  /** Number of the decision in force, 0 for none. */
  number: number;
  decision: RuleBookDecision | null;
  /** What the decision names that this version of the program no longer knows; it stands at its default. */
  lapsed: string[];
  choices: ChoiceView[];
  rulesByMark: Record<Mark, number>;
  floors: number;
}

/** The rule book with the decision in force, and what it holds in numbers. */
export function ruleBookView(decision: RuleBookDecision | null): RuleBookView {
  const chosen = decision?.choices ?? {};
  const lapsed = faultsIn(chosen).map(({ choiceId }) => choiceId);
  const book = bookWith(Object.fromEntries(Object.entries(chosen).filter(([choiceId]) => !lapsed.includes(choiceId))));
  const count = (mark: Mark): number => book.rules.filter(({ source }) => source.mark === mark).length;
  return {
    book, rulesVersion: RULE_BOOK_VERSION, number: decision?.number ?? 0, decision, lapsed,
    choices: CHOICES.map((choice) => ({ choice, inForce: book.choices[choice.id] })),
    rulesByMark: { published: count('published'), 'common-practice': count('common-practice'), 'from-memory': count('from-memory'), 'own-calibration': count('own-calibration') },
    floors: book.rules.filter(({ floor }) => floor === true).length,
  };
}
