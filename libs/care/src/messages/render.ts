import { IntlMessageFormat } from 'intl-messageformat';
import { SPANISH } from './es/index.js';
import type { Language, Message } from './message.js';

/** By language other than English: English sentence to translation. */
const CATALOGUES: Readonly<Partial<Record<Language, ReadonlyMap<string, string>>>> = { es: SPANISH };

/** How numbers are written. Latin American Spanish with a decimal point: nearer to most of the people who read it here than a comma. */
const NUMBERS_AS_IN: Readonly<Record<Language, string>> = { en: 'en', es: 'es-419' };

/** A sentence without values in a language; in English where nobody has translated it. */
export function translate(text: string, language: Language): string {
  return CATALOGUES[language]?.get(text) ?? text;
}

/** `translate` with its language. */
export function translatorFor(language: Language): (text: string) => string {
  return (text) => translate(text, language);
}

/** A message in a language. What is put in as a value is never read as a pattern. */
export function render({ text, values }: Message, language: Language): string {
  const translated = translate(text, language);
  if (values === undefined) return translated;
  const spoken = Object.entries(values).map(([name, value]) => [name, typeof value === 'object' ? render(value, language) : value]);
  // Without a translation, plural and number follow the language of the sentence that stands in for it.
  return String(pattern(translated, translated === text ? 'en' : language).format(Object.fromEntries(spoken)));
}

/** Data with every message in it said in the language; everything else stays. */
export function renderWithin(value: unknown, language: Language): unknown {
  if (isMessage(value)) return render(value, language);
  if (Array.isArray(value)) return value.map((member) => renderWithin(member, language));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([name, member]) => [name, renderWithin(member, language)]));
}

function isMessage(value: unknown): value is Message {
  return typeof value === 'object' && value !== null && 'text' in value && typeof value.text === 'string' && Object.keys(value).every((name) => name === 'text' || name === 'values');
}

const patterns = new Map<string, IntlMessageFormat>();

/** Patterns stand in the code, so that there are only as many as there are sentences. */
function pattern(text: string, language: Language): IntlMessageFormat {
  const key = language + text;
  const known = patterns.get(key) ?? new IntlMessageFormat(text, NUMBERS_AS_IN[language], undefined, { ignoreTag: true });
  patterns.set(key, known);
  return known;
}
