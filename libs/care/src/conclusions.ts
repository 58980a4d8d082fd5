/** Which rules apply, and their conclusions with the rule that drew each one. */
import type { Facts } from './facts.js';
import type { Book } from './rule-book/book.js';
import type { Conclusion, Rule } from './rule-book/rule.js';
import type { Assessment, Reason, Statement } from './types.js';

/** A conclusion and the rule that draws it. */
export type Drawn<K extends Conclusion['kind'] = Conclusion['kind']> = Extract<Conclusion, { kind: K }> & { ruleId: string };

/** Conclusions of the applicable rules, kind by kind, in the order of the rules. */
export type DrawnByKind = { readonly [K in Conclusion['kind']]: readonly Drawn<K>[] };

/** The rules that apply to one assessment and everything they conclude. */
export interface Findings {
  rules: readonly Rule[];
  drawn: DrawnByKind;
}

/** A rule with its conclusions prepared once, since the book does not change while it is asked. */
export interface PreparedRule {
  rule: Rule;
  /** Place in the book. */
  position: number;
  drawn: readonly Drawn[];
}

/** Prepares the rules of a book for many questions. */
export function prepare(rules: readonly Rule[]): PreparedRule[] {
  return rules.map((rule, position) => ({ rule, position, drawn: rule.concludes.map((conclusion) => ({ ...conclusion, ruleId: rule.id })) }));
}

function nothingDrawn(): { [K in Conclusion['kind']]: Drawn<K>[] } {
  return {
    clock: [], 'start-by': [], offer: [], prefer: [], bar: [], 'add-step': [], 'omit-step': [], need: [], caution: [], never: [], ppe: [], 'bar-people': [], referral: [],
    'bath-alone': [], apart: [], storage: [], 'not-colder': [], bench: [],
  };
}

/** Conclusions sorted by kind. */
export function sortedByKind(conclusions: Iterable<Drawn>): DrawnByKind {
  const drawn = nothingDrawn();
  for (const conclusion of conclusions) (drawn[conclusion.kind] as Drawn[]).push(conclusion);
  return drawn;
}

/** The rules that apply: those of the thing's class and family, and of all things, whose predicate holds. */
export function applicableRules(book: Book, assessment: Assessment, facts: Facts): PreparedRule[] {
  return book.candidates(facts.handledAs).filter(({ rule }) => rule.applies(assessment, facts));
}

/** Gathers what applicable rules conclude. */
export function gather(applicable: readonly PreparedRule[]): Findings {
  return { rules: applicable.map(({ rule }) => rule), drawn: sortedByKind(applicable.flatMap(({ drawn }) => drawn)) };
}

/** Statements without repeating a sentence; the first rule that says it is named. */
export function statements(conclusions: readonly { ruleId: string; text: string }[]): Statement[] {
  const byText = new Map<string, Statement>();
  for (const { ruleId, text } of conclusions) if (!byText.has(text)) byText.set(text, { ruleId, text });
  return [...byText.values()];
}

/** Why: one reason for each rule that applies; first those that decided (`decisive`, most decisive first), then the rest in the order of the book. */
export function reasonsOf(rules: readonly Rule[], decisive: readonly string[] = []): Reason[] {
  const place = new Map([...new Set(decisive)].map((ruleId, index) => [ruleId, index]));
  // What holds of everything explains nothing about this thing.
  const rank = ({ id, because }: Rule): number => (because.length === 0 ? place.size : (place.get(id) ?? place.size));
  // The sort is stable, so what did not decide keeps the order of the book.
  return rules.toSorted((a, b) => rank(a) - rank(b)).map((rule) => ({ ruleId: rule.id, text: rule.text, because: [...rule.because], source: { ...rule.source } }));
}
