import type { Language } from '#care';
import type { Call } from './call.js';
import { languageHeaders } from './language.js';

/** Media type of documents for printing. */
export const PDF = 'application/pdf';

/** Sends a document for printing: it opens in the browser and is saved under the name given, which must be plain ASCII. */
export function asPrinted(call: Call, document: unknown, language: Language, fileName: string): unknown {
  call.reply.headers({ 'content-type': PDF, 'content-disposition': `inline; filename="${fileName}"`, 'x-content-type-options': 'nosniff', ...languageHeaders(language) });
  return document;
}
