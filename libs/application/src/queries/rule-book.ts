import type { Book, Mark, MaterialClass, ReleaseName, Rule } from '#care';
import type { UseCaseCall } from '../call.js';
import type { RuleBookDecision } from '../ports/rule-book-store.js';
import type { Stores } from '../ports/work.js';
import { bookOfRelease, followed } from '../rule-book/books.js';
import { ruleBookView, type RuleBookView } from '../rule-book/view.js';

/** The rule book of the network, or another release as it would follow it: its version, the marked choices with all their sides, and who decided. */
export async function getRuleBook(stores: Stores, _call: UseCaseCall, { release }: { release?: ReleaseName }): Promise<RuleBookView> {
  return ruleBookView(await followed(stores, release), await followed(stores));
}

export interface ListRulesInput {
  /** The release in force when left out. */
  release?: ReleaseName;
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

/** Rules of the book in force, or of another release as the network would follow it, by their ids; with a material those that may apply to a thing handled as that. */
export async function listRules(stores: Stores, _call: UseCaseCall, { release, materialClass, mark, limit, after }: ListRulesInput): Promise<RulePage> {
  const book = await bookOfRelease(stores, release ?? null);
  const candidates = materialClass === undefined ? book.rules : book.candidates(materialClass).map(({ rule }) => rule);
  const rules = candidates.filter(({ id, source }) => (mark === undefined || source.mark === mark) && (after === null || id > after));
  return { book, rules: rules.toSorted((a, b) => (a.id < b.id ? -1 : 1)).slice(0, limit) };
}

/** What a network has decided about the rule book, newest first. */
export async function listRuleBookChoices(stores: Stores, _call: UseCaseCall, input: { limit: number; before: number | null }): Promise<RuleBookDecision[]> {
  return stores.ruleBook.page(input.limit, input.before);
}
