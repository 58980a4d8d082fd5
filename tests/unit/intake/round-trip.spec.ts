import { describe, expect, test } from '@jest/globals';
import { parse } from 'csv-parse/sync';
import { stringify } from 'csv-stringify/sync';
import fc from 'fast-check';
import { guardCell, IMPORT_COLUMNS, readRow, readTable, refusedFileHeader, refusedFileRow, TABLE_MEDIA_TYPES, unguardCell, type Table } from '#application';
import { FACTS, table, utf8 } from './tables.js';

/** Cells that break tables: guards, quotes, delimiters, line ends, marks, other scripts. */
const nasty = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 30 }),
  fc.string({ unit: fc.constantFrom('=', '+', '-', '@', '\t', '\r', '\n', "'", '"', ',', ';', ' ', '\uFEFF', '\uFF1D', 'A', '\u00fc', '\u{1F9F5}'), maxLength: 8 }),
  fc.constantFrom('=1+1', "'=1+1", "''=1", "'", '""', '"', '\r\n', '=HYPERLINK("http://example.invalid")', '@SUM(A1)', '\uFF1Dcmd', 'sep=;'),
).map((cell) => cell.replace(/[\u0000\p{Surrogate}]/gu, '\uFFFD'));

const cellsOfRow = fc.record(Object.fromEntries(['tag', 'household', 'object', 'contactName', 'shelf'].map((key) => [key, nasty])) as Record<string, typeof nasty>);

function mendingFile(reading: Table['reading'], rows: Record<string, string>[]): string {
  const remarks = [{ kind: 'refusal' as const, column: 'tag', code: 'tag_invalid', text: 'The check digits do not fit, "really".', was: null, became: null }];
  return refusedFileHeader(reading, false) + rows.map((cells, at) => refusedFileRow(reading, { rowNumber: at + 2, cells, remarks }, false, 'en')).join('');
}

describe('the mending file', () => {
  const reading: Table['reading'] = { encoding: 'utf-8', delimiter: 'semicolon', columns: [...['tag', 'household', 'object', 'contactName'].map((column) => ({ header: column, column })), { header: 'shelf', column: null }], remarks: [] };

  test('gives every cell back as it was, whatever is in it, and its own column is not one of them', () => {
    fc.assert(
      fc.property(fc.array(cellsOfRow, { minLength: 1, maxLength: 5 }), (rows) => {
        const read = table(mendingFile(reading, rows));
        expect(read.rows.map(({ cells }) => ({ ...cells }))).toEqual(rows);
        expect(read.reading.columns).toEqual(reading.columns);
      }),
      { numRuns: 500 },
    );
  });

  test('comes back a second time just the same', () => {
    fc.assert(
      fc.property(fc.array(cellsOfRow, { minLength: 1, maxLength: 3 }), (rows) => {
        const once = mendingFile(reading, rows);
        const read = table(once);
        expect(mendingFile(read.reading, read.rows.map(({ cells }) => cells))).toBe(once);
      }),
    );
  });

  test('is RFC 4180: another parser reads the same cells, CRLF ends every line, all rows have as many cells', () => {
    fc.assert(
      fc.property(fc.array(cellsOfRow, { minLength: 1, maxLength: 3 }), (rows) => {
        const records = parse(mendingFile(reading, rows), { bom: true, record_delimiter: '\r\n' });
        expect(records[0]).toEqual(['tag', 'household', 'object', 'contactName', 'shelf', '_problem']);
        expect(records.slice(1).map((record) => record.slice(0, 5).map(unguardCell))).toEqual(rows.map((cells) => ['tag', 'household', 'object', 'contactName', 'shelf'].map((key) => cells[key])));
      }),
    );
  });

  test('holds no cell that a spreadsheet would take for a formula', () => {
    fc.assert(
      fc.property(cellsOfRow, (cells) => {
        for (const record of parse(mendingFile(reading, [cells]), { bom: true, record_delimiter: '\r\n' })) {
          for (const cell of record) expect(cell).not.toMatch(/^[=+\-@\t\r\u0000\uFF1D\uFF0B\uFF0D\uFF20]/);
        }
      }),
    );
  });

  test('keeps foreign columns without a header or with one header twice apart', () => {
    const source = table('tag,,shelf,shelf,household,column 2\nA,x,1,2,B,y');
    const back = table(mendingFile(source.reading, source.rows.map(({ cells }) => cells)));
    expect(back.rows.map(({ cells }) => ({ ...cells }))).toEqual(source.rows.map(({ cells }) => ({ ...cells })));
  });

  test('says every refusal and the row it was, and neither repairs nor notes', () => {
    const rowText = refusedFileRow(reading, { rowNumber: 17, cells: { tag: '=A1' }, remarks: [
      { kind: 'refusal', column: 'tag', code: 'formula_cell', text: 'A formula.', was: '=A1', became: null },
      { kind: 'refusal', column: '', code: 'incident_closed', text: 'Closed.', was: null, became: null },
      { kind: 'repair', column: 'object', code: 'trimmed', text: 'Space.', was: ' a', became: 'a' },
      { kind: 'note', column: 'size', code: 'size_assumed', text: 'Size.', was: null, became: 'garment' },
    ] }, false, 'en');
    expect(rowText).toBe("'=A1,,,,,Row 17: tag: A formula. Closed.\r\n");
  });
});

describe('the guard', () => {
  // OWASP Application Security Verification Standard 5.0, requirement 1.2.10; the full-width forms are ours.
  test.each(['=', '+', '-', '@', '\t', '\r', '\u0000', '\uFF1D', '\uFF0B', '\uFF0D', '\uFF20'])('stands before %j and comes off again', (leading) => {
    expect(guardCell(`${leading}x`)).toBe(`'${leading}x`);
    expect(unguardCell(`'${leading}x`)).toBe(`${leading}x`);
  });

  test('leaves everything else alone', () => {
    for (const cell of ['', "'", "'t Huis", 'a=b', "'1"]) expect([guardCell(cell), unguardCell(cell)]).toEqual([cell, cell]);
  });
});

describe('any bytes', () => {
  const facts = fc.constant(FACTS);
  const anything = fc.oneof(
    fc.uint8Array({ maxLength: 400 }),
    fc.string({ unit: fc.constantFrom('tag', 'household', ',', ';', '\t', '\n', '\r', '"', "'", '=', '{', '}', '[', ':', 'count', '0', '5.5.26', ' ', '\\u0000', '\u00e4', '\uFEFF'), maxLength: 60 }).map(utf8),
    fc.array(fc.dictionary(fc.oneof(fc.constantFrom(...IMPORT_COLUMNS, '__proto__'), fc.string({ maxLength: 5 })), fc.jsonValue()), { maxLength: 4 }).map((objects) => utf8(objects.map((each) => JSON.stringify(each)).join('\n'))),
    fc.array(fc.array(nasty, { minLength: IMPORT_COLUMNS.length, maxLength: IMPORT_COLUMNS.length }), { minLength: 1, maxLength: 3 }).map((rows) => utf8(stringify([[...IMPORT_COLUMNS], ...rows]))),
  );

  test('give reasons or rows, and never throw; every text in them can be stored', () => {
    fc.assert(
      fc.property(anything, fc.constantFrom(...TABLE_MEDIA_TYPES), facts, (bytes, mediaType, given) => {
        const read = readTable(bytes, mediaType);
        if (Array.isArray(read)) {
          expect(read.length).toBeGreaterThan(0);
          return;
        }
        expect(read.rows.length).toBeGreaterThan(0);
        const readings = read.rows.map((row) => readRow(row, given));
        for (const { remarks, values, cells } of readings) {
          const stored = JSON.stringify([remarks.all(), cells, read.reading]);
          expect(stored).not.toMatch(/\\u0000|\\ud[89a-f]/);
          expect(Number.isInteger(values.count) && values.count >= 1).toBe(true);
          expect(Number.isFinite(values.arrivedAtMs)).toBe(true);
        }
      }),
      { numRuns: 2_000 },
    );
  });

  test('read twice give the same, so that a restarted worker goes on where it stopped', () => {
    fc.assert(fc.property(anything, fc.constantFrom(...TABLE_MEDIA_TYPES), (bytes, mediaType) => expect(readTable(bytes, mediaType)).toEqual(readTable(bytes, mediaType))));
  });
});

describe('the scanner agrees with csv-parse', () => {
  const delimiter = fc.constantFrom(',', ';', '\t');
  const names = ['tag', 'household', 'object'];
  const blank = (cells: string[]) => cells.every((cell) => cell.trim() === '');

  test('on tables that csv-stringify wrote', () => {
    fc.assert(
      fc.property(delimiter, fc.boolean(), fc.constantFrom('\r\n', '\n', '\r'), fc.array(fc.tuple(nasty, nasty, nasty), { minLength: 1, maxLength: 6 }), (by, quoted, lineEnd, rows) => {
        const filled = rows.filter((cells) => !blank(cells));
        fc.pre(filled.length > 0);
        const text = stringify([names, ...rows], { delimiter: by, quoted, record_delimiter: lineEnd, quoted_match: /[\r\n]/ });
        expect(table(text).rows.map(({ cells }) => names.map((name) => cells[name]))).toEqual(filled.map((cells) => cells.map(unguardCell)));
      }),
      { numRuns: 300 },
    );
  });

  test('on any text without quotes', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom('a', '\u00e4', ' ', ',', '\n', '\r', '\r\n'), maxLength: 60 }), (text) => {
        const theirs = parse(`${text}\n`, { relax_column_count: true, record_delimiter: ['\r\n', '\n', '\r'] }).filter((cells) => !blank(cells));
        fc.pre(theirs.length > 0);
        const ours = table(`tag,household,a,b,c\n${text}`).rows.map(({ cells, fault }) => (fault ? cells['_line']?.split(' | ') : ['tag', 'household', 'a', 'b', 'c'].map((name) => cells[name] ?? '')));
        expect(ours).toEqual(theirs.map((cells) => (cells.slice(5).every((cell) => cell.trim() === '') ? [...cells, '', '', '', '', ''].slice(0, 5) : cells)));
      }),
      { numRuns: 300 },
    );
  });
});
