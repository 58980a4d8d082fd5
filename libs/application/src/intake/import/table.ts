/** What a file becomes when it is read. */
import type { FileReading, RowRemark } from '../../ports/import-store.js';

/** One row of a file. `fault` is set when the row could not be taken apart; its cells are then what can be shown of it. */
export interface TableRow {
  /** As a spreadsheet or an editor numbers it: the header line of a CSV file is row 1. */
  rowNumber: number;
  /** By our column name, or by the header for columns that are not ours. */
  cells: Record<string, string>;
  fault: RowRemark | null;
}

/** A file that can be read. */
export interface Table {
  reading: FileReading;
  rows: TableRow[];
}

/** Text that PostgreSQL can store: NUL and unpaired surrogates become the replacement character. */
export function storable(text: string): string {
  return text.replace(/[\u0000\p{Surrogate}]/gu, '\uFFFD');
}

/** The first characters of a text, storable also where the cut goes through a surrogate pair. */
export function storableStart(text: string, characters: number): string {
  return storable(text.slice(0, characters));
}
