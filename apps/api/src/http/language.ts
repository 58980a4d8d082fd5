import type { IncomingHttpHeaders } from 'node:http';
import { ApiHeader } from '@nestjs/swagger';
import Negotiator from 'negotiator';
import { LANGUAGES, type Language } from '#care';

const [ENGLISH] = LANGUAGES;

/**
 * The language of ours that a caller would rather read (RFC 9110, section 12.5.4; `es-MX` is served with `es`). Who asks for none of
 * them gets English: a warning in a foreign language is better than none.
 */
export function languageFor(headers: IncomingHttpHeaders): Language {
  const found = new Negotiator({ headers }).language([...LANGUAGES]);
  return LANGUAGES.find((language) => language === found) ?? ENGLISH;
}

/** The language of ours for a family whose own language is on record as this tag; English for any that we do not speak. */
export function familyLanguage(tag: string): Language {
  const primary = tag.toLowerCase().split('-')[0];
  return LANGUAGES.find((language) => language === primary) ?? ENGLISH;
}

/** What an answer says of its language, so that no cache serves it to a reader of another one. */
export function languageHeaders(language: Language): Record<string, string> {
  return { 'content-language': language, vary: 'Accept-Language' };
}

/** The entity tag of a version; sentences in another language than English are another representation (RFC 9110, section 8.8.3). */
export function entityTag(version: number, language: Language = ENGLISH): string {
  return language === ENGLISH ? `"${version}"` : `"${version}-${language}"`;
}

/** The header as a parameter of the documentation. */
export const AcceptLanguage: MethodDecorator = ApiHeader({
  name: 'Accept-Language',
  required: false,
  description: `Languages for sentences that people read, in order of preference: ${LANGUAGES.map((language) => `\`${language}\``).join(', ')}. English without it and for any other. A repeated command answers in the language of its first answer; problem documents are in English, but for the sentences of their member \`inWords\`.`,
  schema: { type: 'string', examples: ['es-MX, es;q=0.9, en;q=0.5'] },
});

/** The headers of the answer, for the documentation. */
export const LANGUAGE_HEADERS = {
  'Content-Language': { description: 'The language of the sentences.', schema: { type: 'string' as const, enum: [...LANGUAGES] } },
  Vary: { description: 'Names Accept-Language.', schema: { type: 'string' as const } },
};
