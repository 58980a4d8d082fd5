import type { z } from 'zod';
import { changeInWords } from '#application';
import { differencesInLanguage, render, type Difference, type Language, type Message, type TriageChange } from '#care';
import type { TriageChangeBody } from '#contracts';

type Body = z.output<typeof TriageChangeBody>;

/** What a triage changed, seen at `atMs`, with the sentences of the rule book in a language; codes stay. `notes` tell what it did to the work so far. */
export function presentChange(change: TriageChange | null, language: Language, atMs: number, notes: readonly Message[] = []): Body | null {
  if (change === null) return null;
  const { differences, ...rest } = change;
  return { inWords: [...notes.map((note) => render(note, language)), ...changeInWords(change, language, atMs)], differences: presentDifferences(differences, language), ...rest };
}

export function presentDifferences(differences: readonly Difference[], language: Language): Body['differences'] {
  return differencesInLanguage(differences, language).map(({ what, before, after }) => ({ what, before: [...before], after: [...after] }));
}
