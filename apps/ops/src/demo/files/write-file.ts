import { FILE_COLUMNS, type Cells, type FileColumn } from './cells.js';

/** How a desk's program saves a table. */
export interface Dialect {
  mediaType: 'text/csv' | 'application/x-ndjson';
  encoding: 'utf-8' | 'utf-8-bom' | 'windows-1252';
  delimiter: ',' | ';';
  lineEnd: '\r\n' | '\n';
  /** How the header writes our names. */
  header: (column: FileColumn) => string;
}

/** One line of a file: a row, or a line that was cut off while it was written. */
export type Line = { cells: Cells; cutOff: boolean };

/** The bytes of a file. @throws Error when a character has no place in the encoding: the generator must not make such words */
export function writeFile(lines: readonly Line[], dialect: Dialect): Buffer {
  const text = dialect.mediaType === 'text/csv' ? csv(lines, dialect) : ndjson(lines, dialect);
  if (dialect.encoding === 'windows-1252') return encodeWindows1252(text);
  return Buffer.from(dialect.encoding === 'utf-8-bom' ? `\uFEFF${text}` : text, 'utf8');
}

function csv(lines: readonly Line[], dialect: Dialect): string {
  const rows = [FILE_COLUMNS.map(dialect.header), ...lines.map(({ cells }) => FILE_COLUMNS.map((column) => cells[column]))];
  return rows.map((row) => row.map((cell) => quote(cell, dialect.delimiter)).join(dialect.delimiter) + dialect.lineEnd).join('');
}

/** Quotes as RFC 4180, section 2, says. */
export function quote(cell: string, delimiter = ','): string {
  return cell.includes(delimiter) || /["\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}

function ndjson(lines: readonly Line[], dialect: Dialect): string {
  return lines.map(({ cells, cutOff }) => {
    const line = JSON.stringify(Object.fromEntries(FILE_COLUMNS.map((column) => [dialect.header(column), valueOf(column, cells[column])])));
    return (cutOff ? line.slice(0, Math.floor(line.length * 0.6)) : line) + dialect.lineEnd;
  }).join('');
}

function valueOf(column: FileColumn, cell: string): string | number | boolean | null {
  if (cell === '') return null;
  if (column === 'count' && /^\d+$/.test(cell)) return Number(cell);
  if (column.startsWith('consent') && (cell === 'yes' || cell === 'no')) return cell === 'yes';
  return cell;
}

/** The characters outside ISO 8859-1 that our words use, with their bytes in Windows-1252 (Encoding Standard, WHATWG, index windows-1252; from memory). */
const BEYOND_LATIN_1: Readonly<Record<string, string>> = { '\u20AC': '\x80', '\u2018': '\x91', '\u2019': '\x92', '\u2013': '\x96', '\u2014': '\x97' };

function encodeWindows1252(text: string): Buffer {
  const bytes = text.replace(/[^\x00-\xFF]/g, (character) => {
    const byte = BEYOND_LATIN_1[character];
    if (byte === undefined) throw new Error(`no Windows-1252 byte for ${character}`);
    return byte;
  });
  return Buffer.from(bytes, 'latin1');
}
