/**
 * Records of delimited text (RFC 4180, section 2), as files from the field need them: LF, CR or CRLF in any mixture, and a
 * quote in the middle of an unquoted cell is a character like any other.
 *
 * Our own scanner, because the limits must hold while it reads, and it reads in the process that answers requests:
 * csv-parse 7.0.3 held the event loop for 3 s over ten megabytes of commas and for 26 s over a million blank lines
 * (measured on this project's machine, 2 cores). The tests hold the two against each other.
 */
import { say } from '#care';
import { FILE_LIMITS, type FileFault } from './file-limits.js';

/** One record: its number as a spreadsheet shows it, from 1 and counting blank lines, and its cells. */
export interface RawRecord {
  rowNumber: number;
  cells: string[];
}

const CR = 13;
const LF = 10;
const QUOTE = 34;

/** A cell from `start`: its text, and the index of what ends it (a delimiter, a line end, or the end of the text). */
interface Cell {
  text: string;
  end: number;
}

/** All records that hold something, blank ones left out but counted; or the first limit that is passed. */
export function readRecords(text: string, delimiter: string): RawRecord[] | FileFault {
  const scanner = new Scanner(text, delimiter);
  const records: RawRecord[] = [];
  for (let rowNumber = 1; !scanner.atEnd(); rowNumber += 1) {
    if (rowNumber > FILE_LIMITS.lines) return { code: 'too_many_rows', said: say('The file has more than {most} lines, most of them blank. Take the blank ones out.', { most: FILE_LIMITS.lines }) };
    if (scanner.emptyLine()) continue;
    const cells = scanner.record(rowNumber);
    if (!Array.isArray(cells)) return cells;
    if (cells.every((cell) => cell.trim() === '')) continue;
    records.push({ rowNumber, cells });
    if (records.length > FILE_LIMITS.rows + 1) return { code: 'too_many_rows', said: say('The file has more than {most} rows. Cut it into several files and send them one after another.', { most: FILE_LIMITS.rows }) };
  }
  return records;
}

/** The first record that holds something; null when there is none. */
export function readFirstRecord(text: string, delimiter: string): RawRecord | FileFault | null {
  const scanner = new Scanner(text, delimiter);
  for (let rowNumber = 1; !scanner.atEnd(); rowNumber += 1) {
    if (rowNumber > FILE_LIMITS.lines) return null;
    if (scanner.emptyLine()) continue;
    const cells = scanner.record(rowNumber);
    if (!Array.isArray(cells)) return cells;
    if (cells.some((cell) => cell.trim() !== '')) return { rowNumber, cells };
  }
  return null;
}

/** True when the reading met a limit. */
export function isFileFault(value: object): value is FileFault {
  return 'code' in value && 'said' in value;
}

class Scanner {
  private at = 0;
  /** Where the next of each stands, once looked for; the end of the text when there is none. */
  private nextDelimiter = -1;
  private nextCr = -1;
  private nextLf = -1;

  constructor(
    private readonly text: string,
    private readonly delimiter: string,
  ) {}

  atEnd(): boolean {
    return this.at >= this.text.length;
  }

  /** Passes over a line with nothing in it; cheaper than a record, and some files are full of them. */
  emptyLine(): boolean {
    const unit = this.text.charCodeAt(this.at);
    if (unit !== CR && unit !== LF) return false;
    this.at += unit === CR && this.text.charCodeAt(this.at + 1) === LF ? 2 : 1;
    return true;
  }

  record(rowNumber: number): string[] | FileFault {
    const cells: string[] = [];
    for (;;) {
      const cell = this.text[this.at] === '"' ? this.quoted(this.at) : this.bare(this.at);
      if (cell === null) return { code: 'quote_not_closed', said: say('Row {row} opens a cell with a double quote that is never closed. Close it, or write the quote twice if it belongs to the text.', { row: rowNumber }) };
      if (cell.text.length > FILE_LIMITS.cellCharacters) return { code: 'cell_too_long', said: say('Row {row}, cell {cell} is longer than {most} characters. Shorten it; often a double quote is missing at its end.', { row: rowNumber, cell: cells.length + 1, most: FILE_LIMITS.cellCharacters }) };
      cells.push(cell.text);
      if (cells.length > FILE_LIMITS.columns) return { code: 'too_many_columns', said: say('Row {row} has more than {most} cells. Send only the columns that the documentation names.', { row: rowNumber, most: FILE_LIMITS.columns }) };
      this.at = cell.end;
      if (this.text[this.at] !== this.delimiter) break;
      this.at += 1;
    }
    // CRLF is one line end.
    if (this.text[this.at] === '\r' && this.text[this.at + 1] === '\n') this.at += 1;
    this.at += 1;
    return cells;
  }

  private bare(start: number): Cell {
    const end = this.endOfCell(start);
    return { text: this.text.slice(start, end), end };
  }

  /** null when the quote is never closed. */
  private quoted(start: number): Cell | null {
    let close = start + 1;
    for (; close < this.text.length; close += 1) {
      if (this.text.charCodeAt(close) !== QUOTE) continue;
      if (this.text.charCodeAt(close + 1) !== QUOTE) break;
      close += 1;
    }
    if (close >= this.text.length) return null;
    const after = this.text[close + 1];
    // Something stands after the closing quote, so the quotes were meant as text: "Rose" quilt.
    if (after !== undefined && after !== this.delimiter && after !== '\r' && after !== '\n') return this.bare(start);
    return { text: this.text.slice(start + 1, close).replaceAll('""', '"'), end: close + 1 };
  }

  /** The nearest line end or delimiter; each is searched for once, not once a cell, or long lines would cost their square. */
  private endOfCell(start: number): number {
    if (this.nextDelimiter < start) this.nextDelimiter = this.find(this.delimiter, start);
    if (this.nextCr < start) this.nextCr = this.find('\r', start);
    if (this.nextLf < start) this.nextLf = this.find('\n', start);
    return Math.min(this.nextDelimiter, this.nextCr, this.nextLf);
  }

  private find(character: string, start: number): number {
    const found = this.text.indexOf(character, start);
    return found === -1 ? this.text.length : found;
  }
}
