import type { Book, Mark, MaterialClass, Rule } from '#care';
import type { UseCaseCall } from '../call.js';
import type { RuleBookDecision } from '../ports/rule-book-store.js';
import type { Stores } from '../ports/work.js';
import { bookInForce } from '../rule-book/books.js';
import { ruleBookView, type RuleBookView } from '../rule-book/view.js';

/** The rule book of the network: its version, the marked choices with all their sides, and who decided. */
export async function getRuleBook(stores: Stores): Promise<RuleBookView> {
  return ruleBookView(await stores.ruleBook.inForce());
}

export interface ListRulesInput {
  materialClass?: MaterialClass;
  mark?: Mark;
  limit: number;
  /** Id of the last rule of the page before. */
  after: string | null;
}

export interface RulePage {
  book: Book;
  rules: Rule[];
}

/** Rules of the book in force by their ids; with a material those that may apply to a thing handled as that. */
export async function listRules(stores: Stores, _call: UseCaseCall, { materialClass, mark, limit, after }: ListRulesInput): Promise<RulePage> {
  const book = await bookInForce(stores);
  const candidates = materialClass === undefined ? book.rules : book.candidates(materialClass).map(({ rule }) => rule);
  const rules = candidates.filter(({ id, source }) => (mark === undefined || source.mark === mark) && (after === null || id > after));
  return { book, rules: rules.toSorted((a, b) => (a.id < b.id ? -1 : 1)).slice(0, limit) };
}

/** What a network has decided about the rule book, newest first. */
export async function listRuleBookChoices(stores: Stores, _call: UseCaseCall, input: { limit: number; before: number | null }): Promise<RuleBookDecision[]> {
  return stores.ruleBook.page(input.limit, input.before);
}
