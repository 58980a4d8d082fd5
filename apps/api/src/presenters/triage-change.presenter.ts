import type { z } from 'zod';
import { changeInWords } from '#application';
import { differencesInLanguage, type Difference, type Language, type TriageChange } from '#care';
import type { TriageChangeBody } from '#contracts';

type Body = z.output<typeof TriageChangeBody>;

/** What a triage changed, with the sentences of the rule book in a language; codes stay. */
export function presentChange(change: TriageChange | null, language: Language): Body | null {
  if (change === null) return null;
  const { differences, ...rest } = change;
  return { inWords: changeInWords(change, language), differences: presentDifferences(differences, language), ...rest };
}

export function presentDifferences(differences: readonly Difference[], language: Language): Body['differences'] {
  return differencesInLanguage(differences, language).map(({ what, before, after }) => ({ what, before: [...before], after: [...after] }));
}
