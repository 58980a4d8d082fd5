/** Shared by the specs of this folder: small files, and readings of them. */
import { readRow, readTable, type ReadingFacts, type RowReading, type Table, type TableMediaType } from '#application';

export const FACTS: ReadingFacts = { floodAtMs: Date.parse('2026-05-08T18:00:00Z'), submittedAtMs: Date.parse('2026-05-09T10:00:00Z'), timeZone: 'Europe/Vienna' };

export const utf8 = (text: string) => new TextEncoder().encode(text);

/** The table of a file that must be readable. */
export function table(content: string | Uint8Array, mediaType: TableMediaType = 'text/csv'): Table {
  const read = readTable(typeof content === 'string' ? utf8(content) : content, mediaType);
  if (Array.isArray(read)) throw new Error(`refused whole: ${read.map(({ code, said }) => `${code} (${said.text})`).join('; ')}`);
  return read;
}

/** Codes of the reasons why a file is refused whole. */
export function faults(content: string | Uint8Array, mediaType: TableMediaType = 'text/csv'): string[] {
  const read = readTable(typeof content === 'string' ? utf8(content) : content, mediaType);
  return Array.isArray(read) ? read.map(({ code }) => code) : [];
}

/** Reads one row that holds these cells and sound ones for whatever must be there. */
export function row(cells: Record<string, string>, facts: ReadingFacts = FACTS): RowReading {
  return readRow({ rowNumber: 2, cells: { tag: 'BBBC-BBB-47', household: 'HH-1', object: 'Quilt', material: 'textile-quilt-padded', size: 'double-quilt', ...cells }, fault: null }, facts);
}

export const refusals = (reading: RowReading) => reading.remarks.refusals.map(({ column, code }) => `${column}:${code}`);
export const repairs = (reading: RowReading) => reading.remarks.repairs.map(({ column, code }) => `${column}:${code}`);
export const notes = (reading: RowReading) => reading.remarks.notes.map(({ column, code }) => `${column}:${code}`);
