import type { z } from 'zod';
import type { ComparisonOverThings, RuleBookDecision, RuleBookView } from '#application';
import { sourceInLanguage, translate, type Book, type Language, type Rule } from '#care';
import type { RuleBody, RuleBookBody, RuleBookComparisonBody, RuleBookDecisionBody } from '#contracts';
import { formatTagCode } from '#custody';
import { iso } from '../../presenters/time.js';
import { presentDifferences } from '../../presenters/triage-change.presenter.js';
import { conclusionInWords } from './conclusion-words.js';

/** Things that are shown one by one; the others are counted. */
const SHOWN = 100;

export function presentRuleBook({ book, rulesVersion, number, decision, lapsed, choices, rulesByMark, floors }: RuleBookView, language: Language): z.output<typeof RuleBookBody> {
  return {
    version: book.version, rulesVersion, number, decision: decision && presentDecision(decision), lapsed,
    choices: choices.map(({ choice, inForce }) => ({
      id: choice.id, text: translate(choice.text, language), floor: choice.floor, default: choice.default, inForce,
      options: choice.options.map(({ id, text, source }) => ({ id, text: translate(text, language), source: sourceInLanguage(source, language) })),
    })),
    rules: { total: book.rules.length, floors, byMark: rulesByMark },
  };
}

export function presentDecision({ id, number, choices, version, reason, lead, decidedAtMs }: RuleBookDecision): z.output<typeof RuleBookDecisionBody> {
  return { id, number, choices, version, reason, decidedBy: lead, decidedAt: iso(decidedAtMs) };
}

export function presentRule({ id, text, concludes, because, source, floor, choiceId, choice, alternative }: Rule, book: Book, language: Language): z.output<typeof RuleBody> {
  const spoken = (sentence: string | undefined): string | null => (sentence === undefined ? null : translate(sentence, language));
  return {
    id, text: translate(text, language), conclusions: concludes.map((conclusion) => conclusionInWords(conclusion, book, language)), because: [...because],
    source: sourceInLanguage(source, language), floor: floor === true, choiceId: choiceId ?? null, choice: spoken(choice), alternative: spoken(alternative),
  };
}

export function presentComparison({ versions, compared, counts, firstDispositions, laxer, changed }: ComparisonOverThings, items: number, language: Language): z.output<typeof RuleBookComparisonBody> {
  return {
    versions, items, compared, changed: changed.length, laxer, counts, firstDispositions,
    differing: changed.slice(0, SHOWN).map((thing) => ({ itemId: thing.itemId, tag: formatTagCode(thing.tagCode), laxer: thing.laxer, differences: presentDifferences(thing.differences, language) })),
    more: Math.max(0, changed.length - SHOWN),
  };
}
