/** Bytes of an intake file to rows with our columns. Pure: the same bytes give the same rows, at once and after a restart. */
import { say } from '#care';
import type { FileReading, RowRemark } from '../../ports/import-store.js';
import { unguardCell } from './cell-guard.js';
import { decodeBytes, type DecodedText } from './decode-bytes.js';
import { isFileFault, readFirstRecord, readRecords, type RawRecord } from './delimited-records.js';
import { FILE_LIMITS, type FileFault } from './file-limits.js';
import { LINE_COLUMN, matchHeaders, PROBLEM_COLUMN, recognised, REQUIRED_COLUMNS, type ImportColumn } from './import-columns.js';
import { readJsonLines } from './json-lines.js';
import { storable, storableStart, type Table, type TableRow } from './table.js';

/** Media types of an intake file. */
export const TABLE_MEDIA_TYPES = ['text/csv', 'application/x-ndjson'] as const;
export type TableMediaType = (typeof TABLE_MEDIA_TYPES)[number];

/** Reads a file: its rows, or every reason why it is refused whole. Never throws, whatever the bytes are. */
export function readTable(bytes: Uint8Array, mediaType: TableMediaType): Table | FileFault[] {
  if (bytes.byteLength > FILE_LIMITS.bytes) return [{ code: 'file_too_large', said: say('The file is larger than {most} MiB. Cut it into several files.', { most: FILE_LIMITS.bytes / 1024 / 1024 }) }];
  const decoded = decodeBytes(bytes);
  if (decoded.text.trim() === '') return [{ code: 'file_empty', said: NOTHING }];
  const table = mediaType === 'text/csv' ? readCsv(decoded) : readJsonLines(decoded);
  if (!Array.isArray(table) && table.rows.length === 0) return [{ code: 'file_without_rows', said: say('The file has a header line and no row below it. Write the things below it, one a row.') }];
  return table;
}

const NOTHING = say('The file holds nothing but blank lines. Look whether it is the right one, and save it again.');

const DELIMITERS = { comma: ',', semicolon: ';', tab: '\t' } as const;
type DelimiterName = keyof typeof DELIMITERS;
const DELIMITER_NAMES = Object.keys(DELIMITERS) as DelimiterName[];

/** A first line that some spreadsheets write to name the delimiter; it counts as no row. */
const SEPARATOR_LINE = /^"?sep=([,;\t])"?(?:\r\n|\r|\n|$)/i;

function readCsv(decoded: DecodedText): Table | FileFault[] {
  const named = SEPARATOR_LINE.exec(decoded.text);
  const text = named ? decoded.text.slice(named[0].length) : decoded.text;
  const delimiter = DELIMITER_NAMES.find((name) => DELIMITERS[name] === named?.[1]) ?? likeliestDelimiter(text);
  const records = readRecords(text, DELIMITERS[delimiter]);
  if (!Array.isArray(records)) return [records];
  const [header, ...body] = records;
  if (header === undefined) return [{ code: 'file_empty', said: NOTHING }];
  const names = header.cells.map((cell) => storable(unguardCell(cell)).trim());
  const match = matchHeaders(names);
  const faults = headerFaults(names, match.columns, match.twice);
  if (faults.length > 0) return faults;
  const kept = names.map((header, at) => ({ at, header, column: match.columns[at] ?? null })).filter(({ header }) => header !== PROBLEM_COLUMN && header !== LINE_COLUMN);
  const columns = kept.map(({ header, column }) => ({ header, column }));
  const keys = keysOf(columns).map((key, place) => ({ key, at: kept[place]?.at ?? 0 }));
  const remarks = [decoded.remark, ...columns.map(unusedRemark)].filter((remark) => remark !== null);
  return { reading: { encoding: decoded.encoding, delimiter, columns, remarks }, rows: body.map((record) => toRow(record, keys, names.length)) };
}

/** The delimiter under which most headers are ours, then the one that gives most cells. */
function likeliestDelimiter(text: string): DelimiterName {
  const scored = DELIMITER_NAMES.map((name) => {
    const header = readFirstRecord(text, DELIMITERS[name]);
    // A header line with too many cells is still a header line, and must be refused as one.
    if (header === null || isFileFault(header)) return { name, score: header?.code === 'too_many_columns' ? FILE_LIMITS.columns : 0 };
    return { name, score: recognised(header.cells.map(unguardCell)) * (FILE_LIMITS.columns + 1) + header.cells.length };
  });
  return scored.reduce((best, each) => (each.score > best.score ? each : best)).name;
}

function headerFaults(names: readonly string[], columns: readonly (ImportColumn | null)[], twice: readonly ImportColumn[]): FileFault[] {
  if (columns.every((column) => column === null)) {
    return [{ code: 'header_missing', said: say('The first line names none of our columns. Write a header line such as “tag,household,object,material”; it was read as: {header}.', { header: names.slice(0, 5).map((name) => JSON.stringify(name.slice(0, 40))).join(', ') }) }];
  }
  return [
    ...REQUIRED_COLUMNS.filter((column) => !columns.includes(column)).map((column): FileFault => ({ code: 'column_missing', said: say('The column “{column}” is missing from the header line. Add it.', { column }) })),
    ...twice.map((column): FileFault => ({ code: 'column_twice', said: say('Two columns are called “{column}”. Keep one of them.', { column }) })),
  ];
}

/** The key of each column in `cells`: our name, or the header of a foreign column, made unique. */
export function keysOf(columns: FileReading['columns']): string[] {
  const used = new Set<string>(columns.flatMap(({ column }) => column ?? []));
  return columns.map(({ header, column }, at) => {
    if (column !== null) return column;
    // A foreign header may be empty, come twice, or be called like one of our columns.
    let key = header === '' ? `column ${at + 1}` : header;
    while (used.has(key)) key += ` (${at + 1})`;
    used.add(key);
    return key;
  });
}

/** Says that a column is not used; a header is not personal data, and it is shortened all the same. */
function unusedRemark(column: { header: string; column: string | null }): RowRemark | null {
  if (column.column !== null || column.header === '') return null;
  return { kind: 'note', column: storableStart(column.header, 80), code: 'column_not_used', ...say('This column is not one of ours and was not used.'), was: null, became: null };
}

function toRow(record: RawRecord, keys: readonly { key: string; at: number }[], width: number): TableRow {
  const cells: Record<string, string> = Object.create(null) as Record<string, string>;
  for (const { key, at } of keys) cells[key] = storable(unguardCell(record.cells[at] ?? ''));
  const slipped = record.cells.slice(width).some((cell) => cell.trim() !== '');
  if (slipped) cells[LINE_COLUMN] = storableStart(record.cells.join(' | '), FILE_LIMITS.cellCharacters);
  return { rowNumber: record.rowNumber, cells, fault: slipped ? tooManyCells(record, width) : null };
}

function tooManyCells(record: RawRecord, width: number): RowRemark {
  return {
    kind: 'refusal',
    column: '',
    code: 'cells_too_many',
    ...say('This row has {cells} cells and the header line has {width}: a cell that contains the delimiter must stand in double quotes, or the values have slipped to the right.', { cells: record.cells.length, width }),
    was: null,
    became: null,
  };
}
