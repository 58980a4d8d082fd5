/** NDJSON: one JSON object a line, plain values only. */
import { say, type Message } from '#care';
import type { RowRemark } from '../../ports/import-store.js';
import type { DecodedText } from './decode-bytes.js';
import { FILE_LIMITS, type FileFault } from './file-limits.js';
import { LINE_COLUMN, matchHeaders, PROBLEM_COLUMN, type ImportColumn } from './import-columns.js';
import { storable, storableStart, type Table, type TableRow } from './table.js';

/** Reads the lines of a decoded file; a line that is no object of plain values is a row with a fault, not a reason to refuse the file. */
export function readJsonLines(decoded: DecodedText): Table | FileFault[] {
  const rows: TableRow[] = [];
  const headers = new Map<string, string | null>();
  let objects = 0;
  let lineNumber = 0;
  for (const line of linesOf(decoded.text)) {
    lineNumber += 1;
    if (lineNumber > FILE_LIMITS.lines) return [tooMany(FILE_LIMITS.lines)];
    if (line.trim() === '') continue;
    if (rows.length >= FILE_LIMITS.rows) return [tooMany(FILE_LIMITS.rows)];
    const members = parseObject(line);
    if (members !== null) objects += 1;
    const row = members === null ? brokenLine(lineNumber, line) : toRow(lineNumber, members, headers);
    if ('said' in row) return [row];
    rows.push(row);
  }
  if (objects === 0) return [{ code: 'line_not_json', said: say('No line of the file is a JSON object. Write one object a line, or send a table as text/csv.') }];
  if (headers.size > FILE_LIMITS.columns) return [{ code: 'too_many_columns', said: say('The lines have more than {most} different members. Send only the columns that the documentation names.', { most: FILE_LIMITS.columns }) }];
  const columns = [...headers].map(([header, column]) => ({ header, column }));
  const unused = columns.filter(({ column }) => column === null).map(({ header }): RowRemark => ({ kind: 'note', column: storableStart(header, 80), code: 'column_not_used', ...say('This member is not one of ours and was not used.'), was: null, became: null }));
  return { reading: { encoding: decoded.encoding, delimiter: null, columns, remarks: decoded.remark ? [decoded.remark, ...unused] : unused }, rows };
}

function tooMany(lines: number): FileFault {
  return { code: 'too_many_rows', said: say('The file has more than {most} lines. Cut it into several files and send them one after another.', { most: lines }) };
}

function* linesOf(text: string): Generator<string> {
  for (let start = 0; start <= text.length; ) {
    const end = text.indexOf('\n', start);
    yield text.slice(start, end === -1 ? text.length : end);
    if (end === -1) return;
    start = end + 1;
  }
}

/** The members of one object; null for anything else. Never a prototype: `__proto__` is a name like any other. */
function parseObject(line: string): [string, unknown][] | null {
  try {
    const value: unknown = JSON.parse(line);
    return typeof value === 'object' && value !== null && !Array.isArray(value) ? Object.entries(value) : null;
  } catch {
    return null;
  }
}

function toRow(lineNumber: number, members: readonly [string, unknown][], headers: Map<string, string | null>): TableRow | FileFault {
  if (members.length > FILE_LIMITS.columns) return { code: 'too_many_columns', said: say('Line {line} has more than {most} members. Send only the columns that the documentation names.', { line: lineNumber, most: FILE_LIMITS.columns }) };
  const names = members.map(([name]) => storable(name));
  const match = matchHeaders(names);
  const cells: Record<string, string> = Object.create(null) as Record<string, string>;
  let fault: RowRemark | null = match.twice[0] === undefined ? null : refusal(match.twice[0], 'column_twice', say('Two members of this line are called “{name}”. Keep one of them.', { name: match.twice[0] }));
  for (const [at, [, value]] of members.entries()) {
    const name = names[at] ?? '';
    const column: ImportColumn | null = match.columns[at] ?? null;
    if (name === PROBLEM_COLUMN || name === LINE_COLUMN) continue;
    const cell = plainText(value);
    if (cell !== null && cell.length > FILE_LIMITS.cellCharacters) return { code: 'cell_too_long', said: say('Line {line}, member {member} is longer than {most} characters. Shorten it.', { line: lineNumber, member: at + 1, most: FILE_LIMITS.cellCharacters }) };
    if (cell === null) fault ??= refusal(column ?? storableStart(name, 80), 'value_not_plain', say('The value must be text, a number, true, false or null, not a list or an object.'));
    const key = keyFor(column ?? name, cells);
    cells[key] = cell === null ? storableStart(JSON.stringify(value), FILE_LIMITS.cellCharacters) : storable(cell);
    if (headers.size <= FILE_LIMITS.columns) headers.set(key, column);
  }
  return { rowNumber: lineNumber, cells, fault };
}

function keyFor(name: string, cells: Record<string, string>): string {
  let key = name === '' ? 'column' : name;
  while (key in cells) key += ' (2)';
  return key;
}

/** `true` and `false` become the words that a table would hold; null is a blank cell. */
function plainText(value: unknown): string | null {
  if (value === null) return '';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'number') return String(value);
  return typeof value === 'string' ? value : null;
}

function brokenLine(lineNumber: number, line: string): TableRow {
  return {
    rowNumber: lineNumber,
    cells: { [LINE_COLUMN]: storableStart(line, FILE_LIMITS.cellCharacters) },
    fault: refusal('', 'line_not_json', say('This line is not one JSON object. Write the row anew from the text in the column “_line”, or mend it where it came from.')),
  };
}

function refusal(column: string, code: string, said: Message): RowRemark {
  return { kind: 'refusal', column, code, ...said, was: null, became: null };
}
