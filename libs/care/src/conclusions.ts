/** Which rules apply, and their conclusions with the rule that drew each one. */
import type { Facts } from './facts.js';
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

function drawnOf<K extends Conclusion['kind']>(rule: Rule, kind: K): Drawn<K>[] {
  const isKind = (conclusion: Conclusion): conclusion is Extract<Conclusion, { kind: K }> => conclusion.kind === kind;
  return rule.concludes.filter(isKind).map((conclusion) => ({ ...conclusion, ruleId: rule.id }));
}

/** Builds the table of all kinds from a function that gives the entries of one kind. */
function byKind(entries: <K extends Conclusion['kind']>(kind: K) => Drawn<K>[]): DrawnByKind {
  return {
    clock: entries('clock'),
    'start-by': entries('start-by'),
    offer: entries('offer'),
    prefer: entries('prefer'),
    bar: entries('bar'),
    'add-step': entries('add-step'),
    'omit-step': entries('omit-step'),
    need: entries('need'),
    caution: entries('caution'),
    never: entries('never'),
    ppe: entries('ppe'),
    'bar-people': entries('bar-people'),
    referral: entries('referral'),
    'bath-alone': entries('bath-alone'),
  };
}

/** A rule with its conclusions sorted by kind once, since the book does not change while it is asked. */
export interface PreparedRule {
  rule: Rule;
  drawn: DrawnByKind;
}

/** Prepares a book for many questions. */
export function prepare(book: readonly Rule[]): PreparedRule[] {
  return book.map((rule) => ({ rule, drawn: byKind((kind) => drawnOf(rule, kind)) }));
}

/** Asks every rule of the book and gathers what the applicable ones conclude. */
export function findingsOf(book: readonly PreparedRule[], assessment: Assessment, facts: Facts): Findings {
  const applicable = book.filter(({ rule }) => rule.applies(assessment, facts));
  const gather = <K extends Conclusion['kind']>(kind: K): Drawn<K>[] => applicable.flatMap(({ drawn }): readonly Drawn<K>[] => drawn[kind]);
  return { rules: applicable.map(({ rule }) => rule), drawn: byKind(gather) };
}

/** Statements without repeating a sentence; the first rule that says it is named. */
export function statements(conclusions: readonly { ruleId: string; text: string }[]): Statement[] {
  const byText = new Map<string, Statement>();
  for (const { ruleId, text } of conclusions) if (!byText.has(text)) byText.set(text, { ruleId, text });
  return [...byText.values()];
}

/** Why: one reason for each rule that applies. */
export function reasonsOf(rules: readonly Rule[]): Reason[] {
  return rules.map((rule) => ({ ruleId: rule.id, text: rule.text, because: [...rule.because], source: { ...rule.source } }));
}
