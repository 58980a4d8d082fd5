import type { z } from 'zod';
import type { ReleasesView, ReleaseView } from '#application';
import { RELEASE_SUMMARIES, sourceInLanguage, translate, type Book, type Language, type Rule } from '#care';
import type { RuleBookReleasesBody } from '#contracts';
import { conclusionInWords } from './conclusion-words.js';

type Body = z.output<typeof RuleBookReleasesBody>;
type RuleAsWas = NonNullable<NonNullable<Body['releases'][number]['changes']>['rules'][number]['after']>;

export function presentReleases({ follows, newest, releases }: ReleasesView, language: Language): Body {
  return { follows, newest, releases: releases.map((release) => presentRelease(release, language)) };
}

function presentRelease({ book, rules, changes }: ReleaseView, language: Language): Body['releases'][number] {
  const asWas = (rule: Rule | null, of: Book) => rule && ruleAsWas(rule, of, language);
  return {
    release: book.release, summary: translate(RELEASE_SUMMARIES[book.release], language), rules,
    changes: changes && {
      since: changes.from,
      rules: changes.rules.map(({ kind, ruleId, why, before, after }) => ({ kind, ruleId, why: translate(why, language), before: asWas(before, changes.bookBefore), after: asWas(after, book) })),
      sides: changes.sides.map(({ kind, choiceId, optionId, text, why }) => ({ kind, choiceId, optionId, text: translate(text, language), why: translate(why, language) })),
    },
  };
}

function ruleAsWas({ text, concludes, source }: Rule, book: Book, language: Language): RuleAsWas {
  return { text: translate(text, language), conclusions: concludes.map((conclusion) => conclusionInWords(conclusion, book, language)), source: sourceInLanguage(source, language) };
}
