import type { z } from 'zod';
import type { ComparisonOverThings, RuleBookChosen, RuleBookDecision, RuleBookView } from '#application';
import { RELEASES, sourceInLanguage, translate, type Book, type Compared, type Language, type Rule } from '#care';
import type { RuleBody, RuleBookBody, RuleBookChosenBody, RuleBookComparisonBody, RuleBookDecisionBody } from '#contracts';
import { formatTagCode } from '#custody';
import { iso } from '../../presenters/time.js';
import { presentDifferences } from '../../presenters/triage-change.presenter.js';
import { conclusionInWords } from './conclusion-words.js';

/** Things that are shown one by one; the others are counted. */
const SHOWN = 100;

export function presentRuleBook({ book, follows, newest, number, decision, lapsed, lapsedRelease, choices, rules }: RuleBookView, language: Language): z.output<typeof RuleBookBody> {
  return {
    version: book.version, release: book.release, follows, newest, number, decision: decision && presentDecision(decision), lapsed, lapsedRelease,
    choices: choices.map(({ choice, inForce }) => ({
      id: choice.id, text: translate(choice.text, language), floor: choice.floor, default: choice.default, inForce,
      options: choice.options.map(({ id, text, source }) => ({ id, text: translate(text, language), source: sourceInLanguage(source, language) })),
    })),
    rules,
  };
}

export function presentDecision({ id, number, release, choices, version, reason, lead, decidedAtMs }: RuleBookDecision): z.output<typeof RuleBookDecisionBody> {
  return { id, number, release, choices, version, reason, decidedBy: lead, decidedAt: iso(decidedAtMs) };
}

export function presentChosen({ decision, change }: RuleBookChosen): z.output<typeof RuleBookChosenBody> {
  const { before, after, added, withdrawn, altered, choices } = change;
  return { ...presentDecision(decision), changed: { before: before.version, after: after.version, rules: { added, withdrawn, altered }, choices } };
}

export function presentRule({ id, text, concludes, because, source, floor, choiceId, choice, alternative, since = RELEASES[0] }: Rule, book: Book, language: Language): z.output<typeof RuleBody> {
  const spoken = (sentence: string | undefined): string | null => (sentence === undefined ? null : translate(sentence, language));
  return {
    id, text: translate(text, language), conclusions: concludes.map((conclusion) => conclusionInWords(conclusion, book, language)), because: [...because],
    source: sourceInLanguage(source, language), floor: floor === true, choiceId: choiceId ?? null, choice: spoken(choice), alternative: spoken(alternative), since,
  };
}

/** How a comparison is shown. */
export interface Showing {
  /** Things of the incident, compared or not. */
  items: number;
  /** Only things that differ in one of these; all when left out. */
  only: readonly Compared[] | undefined;
  language: Language;
}

export function presentComparison({ versions, compared, counts, firstDispositions, laxer, changed }: ComparisonOverThings, { items, only, language }: Showing): z.output<typeof RuleBookComparisonBody> {
  const wanted = only === undefined ? changed : changed.filter(({ differences }) => differences.some(({ what }) => only.includes(what)));
  return {
    versions, items, compared, changed: changed.length, laxer, counts, firstDispositions,
    differing: wanted.slice(0, SHOWN).map((thing) => ({ itemId: thing.itemId, tag: formatTagCode(thing.tagCode), laxer: thing.laxer, differences: presentDifferences(thing.differences, language) })),
    more: Math.max(0, wanted.length - SHOWN),
  };
}
