/** Bytes of a file to text: byte-order marks, UTF-8, UTF-16 with its mark, and Windows-1252 for what is not UTF-8. */
import { say } from '#care';
import type { FileReading, RowRemark } from '../../ports/import-store.js';

/**
 * The 32 characters at 0x80 to 0x9F of Windows-1252; the five unassigned bytes stay control characters.
 * Encoding Standard, WHATWG, index windows-1252 (from memory; checked against glibc iconv in the tests). Written out because
 * `TextDecoder('windows-1252')` of the Node versions that we run on decodes these bytes as ISO 8859-1.
 */
const C1 = '\u20AC\u0081\u201A\u0192\u201E\u2026\u2020\u2021\u02C6\u2030\u0160\u2039\u0152\u008D\u017D\u008F\u0090\u2018\u2019\u201C\u201D\u2022\u2013\u2014\u02DC\u2122\u0161\u203A\u0153\u009D\u017E\u0178';

/** A decoded file. `remark` says what was assumed, when anything was. */
export interface DecodedText {
  text: string;
  encoding: FileReading['encoding'];
  remark: RowRemark | null;
}

/** Decodes any bytes; never throws. A byte-order mark is taken off. */
export function decodeBytes(bytes: Uint8Array): DecodedText {
  const utf16 = utf16Label(bytes);
  // Unpaired surrogates become U+FFFD, the replacement character, which any store can hold.
  if (utf16 !== null) return { text: new TextDecoder(utf16).decode(bytes), encoding: 'utf-16', remark: null };
  try {
    // Strict, and it takes the mark off by itself.
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), encoding: 'utf-8', remark: null };
  } catch {
    return { text: decodeWindows1252(bytes), encoding: 'windows-1252', remark: assumed1252() };
  }
}

/** Windows-1252 to text; every byte has a character. */
export function decodeWindows1252(bytes: Uint8Array): string {
  return Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength)
    .toString('latin1')
    .replace(/[\u0080-\u009F]/g, (control) => C1.charAt(control.charCodeAt(0) - 0x80));
}

function utf16Label(bytes: Uint8Array): 'utf-16le' | 'utf-16be' | null {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le';
  return bytes[0] === 0xfe && bytes[1] === 0xff ? 'utf-16be' : null;
}

function assumed1252(): RowRemark {
  return {
    kind: 'note',
    column: '',
    code: 'encoding_assumed',
    ...say('The file is not valid UTF-8 and was read as Windows-1252. Look at names with accents or umlauts; if they are wrong, save the file as UTF-8 and send it again.'),
    was: null,
    became: null,
  };
}
