/** The refused rows as a file to mend and send again: RFC 4180, section 2, with a byte-order mark so that spreadsheets read UTF-8. */
import { render, say, type Language } from '#care';
import type { FileReading, ImportRowRecord } from '../../ports/import-store.js';
import { guardCell } from './cell-guard.js';
import { LINE_COLUMN, PROBLEM_COLUMN } from './import-columns.js';
import { keysOf } from './read-table.js';
import { remarkInWords } from './row-remarks.js';

/** The header line. `withLine` when a row could not be taken apart and is given whole. */
export function refusedFileHeader(reading: FileReading, withLine: boolean): string {
  return `\uFEFF${csvLine([...reading.columns.map(({ header }) => header), ...(withLine ? [LINE_COLUMN] : []), PROBLEM_COLUMN])}`;
}

/** One refused row, with every reason in its last cell, in a language. */
export function refusedFileRow(reading: FileReading, row: Pick<ImportRowRecord, 'rowNumber' | 'cells' | 'remarks'>, withLine: boolean, language: Language): string {
  const cells = new Map(Object.entries(row.cells));
  return csvLine([...keysOf(reading.columns).map((key) => cells.get(key) ?? ''), ...(withLine ? [cells.get(LINE_COLUMN) ?? ''] : []), problemOf(row, language)]);
}

/** All refusals of a row, with the row it was in the file that was sent. */
function problemOf(row: Pick<ImportRowRecord, 'rowNumber' | 'remarks'>, language: Language): string {
  const refusals = row.remarks.filter(({ kind }) => kind === 'refusal');
  const faults = refusals.map((refusal) => (refusal.column === '' ? remarkInWords(refusal, language) : `${refusal.column}: ${remarkInWords(refusal, language)}`)).join(' ');
  return render(say('Row {row}: {faults}', { row: row.rowNumber, faults }), language);
}

function csvLine(cells: readonly string[]): string {
  return `${cells.map((cell) => quote(guardCell(cell))).join(',')}\r\n`;
}

function quote(cell: string): string {
  return /[",\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}
