import type { Message } from '#care';

/** What a file may be; a bigger one is refused whole. Our own calibration: five times the busiest day of the-job.md. */
export const FILE_LIMITS = {
  bytes: 10 * 1024 * 1024,
  /** Rows that hold something, without the header line. */
  rows: 20_000,
  /** Blank ones too: a spreadsheet saved with all the rows of its grid (1,048,576) still passes. */
  lines: 1_100_000,
  columns: 200,
  cellCharacters: 4_000,
} as const;

/** Why a file cannot be read as a whole, and what to do; no row of it was looked at any further. */
export interface FileFault {
  code:
    | 'file_too_large' | 'file_empty' | 'file_without_rows' | 'too_many_rows' | 'too_many_columns' | 'cell_too_long' | 'quote_not_closed'
    | 'header_missing' | 'column_missing' | 'column_twice' | 'line_not_json' | 'encoding_unknown';
  said: Message;
}
