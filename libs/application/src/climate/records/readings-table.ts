/** A table of readings (CSV, RFC 4180) to rows as they were sent; read as leniently as the bulk intake reads its files. */
import { say } from '#care';
import { unguardCell } from '../../intake/import/cell-guard.js';
import { decodeBytes } from '../../intake/import/decode-bytes.js';
import { isFileFault, readFirstRecord, readRecords, type RawRecord } from '../../intake/import/delimited-records.js';
import type { FileFault } from '../../intake/import/file-limits.js';
import { foldName } from '../../intake/import/import-columns.js';
import { storable } from '../../intake/import/table.js';
import { remark } from './measurement-words.js';
import { READING_COLUMNS, type ReadingColumn, type SentReading } from './resolve-reading.js';

/** A request is one transaction, so it stays small; a longer log is sent in parts. Our own choice. */
export const READINGS_AT_MOST = { json: 500, table: 3_000 } as const;

const DELIMITERS = [',', ';', '\t'];
/** A first line that some spreadsheets write to name the delimiter. */
const SEPARATOR_LINE = /^"?sep=([,;\t])"?(?:\r\n|\r|\n|$)/i;
/** A place may stand in a table of sensors and a sensor in one by hand, but without these two nothing is a reading. */
const REQUIRED: readonly ReadingColumn[] = ['measuredAt', 'airTempC'];

/** Other headers that loggers write, folded; our own list. */
const ALIASES: Readonly<Record<string, ReadingColumn>> = {
  sensorcode: 'sensor', sensorid: 'sensor', device: 'sensor', logger: 'sensor', kind: 'placeKind', room: 'place', time: 'measuredAt', timestamp: 'measuredAt', datetime: 'measuredAt', date: 'measuredAt',
  temperature: 'airTempC', temperaturec: 'airTempC', temp: 'airTempC', tempc: 'airTempC', humidity: 'relativeHumidityPct', relativehumidity: 'relativeHumidityPct', rh: 'relativeHumidityPct', rhpct: 'relativeHumidityPct',
};
const BY_NAME = new Map<string, ReadingColumn>(READING_COLUMNS.map((column) => [foldName(column), column]));

/** Rows of a table, or every reason why it is refused whole. Columns that are not ours are left alone. Never throws. */
export function readReadingsTable(bytes: Uint8Array): SentReading[] | { faults: FileFault[] } {
  const decoded = decodeBytes(bytes).text;
  const named = SEPARATOR_LINE.exec(decoded);
  const text = named === null ? decoded : decoded.slice(named[0].length);
  const delimiter = named?.[1] ?? likeliestDelimiter(text);
  const records = readRecords(text, delimiter);
  if (!Array.isArray(records)) return { faults: [records] };
  const [header, ...body] = records;
  if (header === undefined) return { faults: [{ code: 'file_empty', said: say('The table holds nothing but blank lines.') }] };
  const columns = columnsOf(header.cells);
  const faults = headerFaults(columns, body.length);
  return faults.length > 0 ? { faults } : body.map((record) => toRow(record, columns));
}

function likeliestDelimiter(text: string): string {
  const score = (delimiter: string) => {
    const first = readFirstRecord(text, delimiter);
    return first === null || isFileFault(first) ? 0 : columnsOf(first.cells).filter((column) => column !== null).length;
  };
  return DELIMITERS.reduce((best, each) => (score(each) > score(best) ? each : best));
}

/** Own names first, then those that are only like one. */
function columnsOf(headers: readonly string[]): (ReadingColumn | null)[] {
  const folded = headers.map((header) => foldName(unguardCell(header)));
  const columns = folded.map((name) => BY_NAME.get(name) ?? null);
  folded.forEach((name, at) => {
    const alias = Object.hasOwn(ALIASES, name) ? ALIASES[name] : undefined;
    if (alias !== undefined && !columns.includes(alias)) columns[at] = alias;
  });
  return columns;
}

function headerFaults(columns: readonly (ReadingColumn | null)[], rows: number): FileFault[] {
  if (columns.every((column) => column === null)) return [{ code: 'header_missing', said: say('The first line names none of our columns. Write a header line such as “sensor,measuredAt,airTempC,relativeHumidityPct”.') }];
  const faults: FileFault[] = REQUIRED.filter((column) => !columns.includes(column)).map((column) => ({ code: 'column_missing', said: say('The column “{column}” is missing from the header line. Add it.', { column }) }));
  const twice = READING_COLUMNS.filter((column) => columns.indexOf(column) !== columns.lastIndexOf(column));
  faults.push(...twice.map((column): FileFault => ({ code: 'column_twice', said: say('Two columns are called “{column}”. Keep one of them.', { column }) })));
  if (rows === 0) faults.push({ code: 'file_without_rows', said: say('The table has a header line and no row below it.') });
  if (rows > READINGS_AT_MOST.table) faults.push({ code: 'too_many_rows', said: say('The table has {rows} rows; one request takes {most}. Send it in parts.', { rows, most: READINGS_AT_MOST.table }) });
  return faults;
}

function toRow(record: RawRecord, columns: readonly (ReadingColumn | null)[]): SentReading {
  const cells = Object.fromEntries(columns.flatMap((column, at) => (column === null ? [] : [[column, storable(unguardCell(record.cells[at] ?? ''))]])));
  const slipped = record.cells.slice(columns.length).some((cell) => cell.trim() !== '');
  const fault = slipped ? remark('cells_too_many', '', say('This row has more cells than the header line: a decimal comma has to stand in double quotes where commas part the cells, or the values have slipped to the right.')) : null;
  return { row: record.rowNumber, cells, fault };
}
