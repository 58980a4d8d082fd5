import type { Message } from '#care';

export type RowOutcome = 'accepted' | 'repaired' | 'refused' | 'already-there';

/** One thing said about a row or a file, as a message of the catalogues; rows of earlier versions hold the English sentence alone. Contacts are never quoted in it. */
export interface RowRemark extends Message {
  /** A `refusal` is why the row did not go in; a `repair` was put right; a `note` changes nothing about the outcome. */
  kind: 'refusal' | 'repair' | 'note';
  /** Our column name; blank for the whole row or file. */
  column: string;
  code: string;
  was: string | null;
  became: string | null;
}

/** What was found when the file was read; shown to the person who sent it, and the column order of the mending file. */
export interface FileReading {
  encoding: 'utf-8' | 'utf-16' | 'windows-1252';
  /** null for NDJSON. */
  delimiter: 'comma' | 'semicolon' | 'tab' | null;
  /** In file order; `column` is our name, or null for a column that is not ours and is not used. */
  columns: { header: string; column: string | null }[];
  /** About the whole file, not one row. */
  remarks: RowRemark[];
}

export interface ImportRecord {
  id: string;
  incidentId: string;
  siteId: string;
  fileName: string;
  mediaType: string;
  sha256: string;
  reading: FileReading;
  state: 'queued' | 'running' | 'done' | 'failed';
  rowsTotal: number | null;
  rowsDone: number;
  accepted: number;
  repaired: number;
  refused: number;
  alreadyThere: number;
  failure: Message | null;
  submittedBy: string;
  submittedAtMs: number;
  finishedAtMs: number | null;
}

export interface ImportRowRecord {
  importId: string;
  incidentId: string;
  rowNumber: number;
  outcome: RowOutcome;
  itemId: string | null;
  remarks: RowRemark[];
  /**
   * By our column name, or by the header of a column that is not ours. Whole only for a refused row, which must be
   * mended; all others keep no contact and no foreign column, because the contact stands with the household.
   */
  cells: Record<string, string>;
}

export interface ImportStore {
  /**
   * Answers the earlier import when the same file was submitted before for this site. An earlier one that failed is put
   * back to work with these bytes (`created` is true then), and goes on after the rows that it had done.
   */
  insert(record: ImportRecord, content: Uint8Array): Promise<{ record: ImportRecord; created: boolean }>;
  find(importId: string): Promise<ImportRecord | null>;
  /** Locks the import until the transaction ends, for one worker at a time. */
  lock(importId: string): Promise<ImportRecord | null>;
  /** The bytes as they came; null once the import is over, because they hold contacts. */
  content(importId: string): Promise<Uint8Array | null>;
  /** Stores what became of these rows and adds them to the counts; the import is running from then on. */
  saveRows(importId: string, rows: readonly ImportRowRecord[]): Promise<void>;
  /** Ends the import and drops the bytes of the file. */
  finish(importId: string, end: { state: 'done' | 'failed'; failure: Message | null; atMs: number }): Promise<void>;
  /** In row order, after `afterRow`; of one outcome or of all. */
  rows(importId: string, outcome: RowOutcome | null, limit: number, afterRow: number): Promise<ImportRowRecord[]>;
  /** IANA time zone of the network: the zone of times that a file gives without an offset. */
  timeZone(): Promise<string>;
}
