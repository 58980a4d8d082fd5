import { describe, expect, test } from '@jest/globals';
import { FILE_LIMITS } from '#application';
import { faults, table, utf8 } from './tables.js';

const HEAD = 'tag,household,object';

describe('encodings', () => {
  test('a byte-order mark is no part of the first header', () => {
    expect(table('\uFEFFtag,household\nA,B').rows[0]?.cells).toEqual({ tag: 'A', household: 'B' });
  });

  test('text that is not UTF-8 is read as Windows-1252 and the file says so', () => {
    // "Decke Müller € – Großmutter" in Windows-1252; the bytes are from `iconv -t WINDOWS-1252` of glibc.
    const bytes = new Uint8Array([...utf8('tag,household,object\nA,B,'), ...Buffer.from('4465636b65204dfc6c6c65722080209620 47726fdf6d7574746572'.replaceAll(' ', ''), 'hex')]);
    const read = table(bytes);
    expect(read.rows[0]?.cells['object']).toBe('Decke M\u00fcller \u20ac \u2013 Gro\u00dfmutter');
    expect(read.reading.encoding).toBe('windows-1252');
    expect(read.reading.remarks.map(({ code }) => code)).toEqual(['encoding_assumed']);
  });

  test('every byte of Windows-1252 from 80 to 9F is the character that it names', () => {
    // Unicode, Inc., "cp1252 to Unicode table", mapping files of the vendors (from memory); 81, 8D, 8F, 90 and 9D are unassigned.
    const assigned = [...'\u20ac\u201a\u0192\u201e\u2026\u2020\u2021\u02c6\u2030\u0160\u2039\u0152\u017d\u2018\u2019\u201c\u201d\u2022\u2013\u2014\u02dc\u2122\u0161\u203a\u0153\u017e\u0178'];
    const bytes = Array.from({ length: 32 }, (_, at) => 0x80 + at).filter((byte) => ![0x81, 0x8d, 0x8f, 0x90, 0x9d].includes(byte));
    const read = table(new Uint8Array([...utf8('tag,household,object\nA,B,'), ...bytes]));
    expect([...(read.rows[0]?.cells['object'] ?? '')]).toEqual(assigned);
  });

  test.each([['little', 'utf16le' as const, [0xff, 0xfe]], ['big', 'utf16le' as const, [0xfe, 0xff]]])('UTF-16 in %s-endian order is read by its mark', (order, encoding, mark) => {
    const units = Buffer.from('tag\thousehold\nÄ\t\u00df', encoding);
    if (order === 'big') units.swap16();
    const read = table(new Uint8Array([...mark, ...units]));
    expect(read.reading).toMatchObject({ encoding: 'utf-16', delimiter: 'tab' });
    expect(read.rows[0]?.cells).toEqual({ tag: 'Ä', household: '\u00df' });
  });

  test('a character that PostgreSQL cannot store is replaced, not passed on', () => {
    expect(table('tag,household\nA\u0000B,C').rows[0]?.cells['tag']).toBe('A\uFFFDB');
    expect(table('{"tag":"\\ud800","household":"\\u0000"}', 'application/x-ndjson').rows[0]?.cells).toEqual({ tag: '\uFFFD', household: '\uFFFD' });
  });
});

test('a text that is shortened in the middle of a character can still be stored', () => {
  // The needle and thread are two code units; the cut at 4,000 or 80 goes through one of them.
  const needles = '\u{1F9F5}'.repeat(2_500);
  const line = table(`tag,household\nA,B,x${needles.slice(0, 3_998)}`).rows[0]?.cells['_line'] ?? '';
  const broken = table(`{"tag":"A"}\n{${needles}`, 'application/x-ndjson').rows[1]?.cells['_line'] ?? '';
  const nested = table(JSON.stringify({ tag: ['', needles] }), 'application/x-ndjson').rows[0]?.cells['tag'] ?? '';
  const header = table(`tag,household,x${needles.slice(0, 100)}\nA,B,C`).reading.remarks[0]?.column ?? '';
  for (const text of [line, broken, nested, header]) expect([text.length > 70, text.isWellFormed()]).toEqual([true, true]);
  expect([line, broken, nested].map((text) => text.length)).toEqual([4_000, 4_000, 4_000]);
});

describe('delimiters, lines and headers', () => {
  test.each([[',', 'comma'], [';', 'semicolon'], ['\t', 'tab']])('%j is found out from the header line', (delimiter, name) => {
    const read = table([['Tag', 'House hold', 'OBJECT'], ['A', 'B', '1,5; x']].map((cells) => cells.map((cell) => `"${cell}"`).join(delimiter)).join('\r\n'));
    expect(read.reading.delimiter).toBe(name);
    expect(read.rows[0]?.cells).toEqual({ tag: 'A', household: 'B', object: '1,5; x' });
  });

  test('the line with which a spreadsheet names its delimiter counts as no row', () => {
    expect(table('sep=;\r\ntag;household\r\nA;B').rows).toEqual([{ rowNumber: 2, cells: expect.objectContaining({ tag: 'A' }), fault: null }]);
  });

  test('CR, LF and CRLF may be mixed, and blank lines count in the numbers but not in the rows', () => {
    expect(table(`${HEAD}\r\nA,B,C\n\n,,\rD,E,F`).rows.map(({ rowNumber, cells }) => [rowNumber, cells['tag']])).toEqual([[2, 'A'], [5, 'D']]);
  });

  test('a cell may hold lines, delimiters and doubled quotes, and a quote inside bare text is text', () => {
    expect(table(`${HEAD}\nA,B,"two\r\nlines, ""quoted"""\nD,E,12" frame\nG,H,"Rose" quilt`).rows.map(({ cells }) => cells['object'])).toEqual(['two\r\nlines, "quoted"', '12" frame', '"Rose" quilt']);
  });

  test.each(['TAG_CODE', 'tag code', ' Tag-Code ', 'tág'])('the header %j is the column tag', (header) => {
    expect(table(`${header},household\nA,B`).rows[0]?.cells['tag']).toBe('A');
  });

  test("a column's own name goes before a header that is only like it, which stays a foreign column", () => {
    const read = table('description,object,tag,household\nlike it,own,A,B');
    expect(read.rows[0]?.cells).toEqual({ description: 'like it', object: 'own', tag: 'A', household: 'B' });
    expect(read.reading.remarks.map(({ code, column }) => `${code} ${column}`)).toEqual(['column_not_used description']);
  });

  test('foreign columns keep their cells, even with the same header twice or none', () => {
    expect(table('tag,shelf,shelf,,household\nA,1,2,3,B').rows[0]?.cells).toEqual({ tag: 'A', shelf: '1', 'shelf (3)': '2', 'column 4': '3', household: 'B' });
  });

  test('a foreign column called __proto__ is a column like any other', () => {
    const cells = table('tag,__proto__,household\nA,x,B').rows[0]?.cells ?? {};
    expect(Object.keys(cells)).toEqual(['tag', '__proto__', 'household']);
  });

  test('a row with more cells than the header line is refused with the row as it came, the others are read', () => {
    const rows = table(`${HEAD}\nA,B,quilt, blue\nD,E,F`).rows;
    expect(rows[0]?.fault?.code).toBe('cells_too_many');
    expect(rows[0]?.cells['_line']).toBe('A | B | quilt |  blue');
    expect(rows[1]?.fault).toBeNull();
  });

  test('a short row has blank cells at its end', () => {
    expect(table(`${HEAD}\nA,B`).rows[0]).toEqual({ rowNumber: 2, cells: { tag: 'A', household: 'B', object: '' }, fault: null });
  });
});

describe('NDJSON', () => {
  const lines = (...objects: unknown[]) => objects.map((each) => (typeof each === 'string' ? each : JSON.stringify(each))).join('\n');

  test('numbers, true, false and null become the words of a table', () => {
    expect(table(lines({ Tag: 'A', household: 7, count: 3, consent_treat: true, consentFreeze: false, wettedAt: null }), 'application/x-ndjson').rows[0]?.cells).toEqual({ tag: 'A', household: '7', count: '3', consentTreat: 'yes', consentFreeze: 'no', wettedAt: '' });
  });

  test('a line that is no object of plain values is a refused row and stops nobody', () => {
    const rows = table(lines({ tag: 'A' }, '{"tag":', '[1]', { tag: ['x'] }, { tag: 'B', TAG: 'C' }, { tag: 'D' }), 'application/x-ndjson').rows;
    expect(rows.map(({ rowNumber, fault }) => [rowNumber, fault?.code ?? null])).toEqual([[1, null], [2, 'line_not_json'], [3, 'line_not_json'], [4, 'value_not_plain'], [5, 'column_twice'], [6, null]]);
    expect(rows[1]?.cells['_line']).toBe('{"tag":');
  });

  test('a table sent as NDJSON is refused whole', () => {
    expect(faults('tag,household\nA,B', 'application/x-ndjson')).toEqual(['line_not_json']);
  });
});

describe('a file is refused whole', () => {
  const repeat = (text: string, times: number) => Array.from({ length: times }, () => text).join('\n');

  test.each<[string, string, string | Uint8Array]>([
    ['file_empty', 'text/csv', ''],
    ['file_empty', 'text/csv', '\r\n \r\n'],
    ['file_without_rows', 'text/csv', HEAD],
    ['header_missing', 'text/csv', 'A1,HH-1,Quilt\nA2,HH-2,Shirt'],
    ['column_missing', 'text/csv', 'tag,object\nA,B'],
    ['column_twice', 'text/csv', 'tag,household,TAG\nA,B,C'],
    ['quote_not_closed', 'text/csv', `${HEAD}\nA,B,"open\nC,D,E`],
    ['too_many_rows', 'text/csv', `${HEAD}\n${repeat('A,B,C', FILE_LIMITS.rows + 1)}`],
    ['too_many_rows', 'application/x-ndjson', repeat('{"tag":"A"}', FILE_LIMITS.rows + 1)],
    ['too_many_columns', 'text/csv', `${HEAD}${',x'.repeat(FILE_LIMITS.columns)}\nA,B,C`],
    ['too_many_columns', 'application/x-ndjson', JSON.stringify(Object.fromEntries(Array.from({ length: FILE_LIMITS.columns + 1 }, (_, at) => [`m${at}`, 1])))],
    ['too_many_columns', 'application/x-ndjson', Array.from({ length: FILE_LIMITS.columns + 1 }, (_, at) => `{"m${at}":1}`).join('\n')],
    ['cell_too_long', 'text/csv', `${HEAD}\nA,B,${'x'.repeat(FILE_LIMITS.cellCharacters + 1)}`],
    ['cell_too_long', 'application/x-ndjson', JSON.stringify({ tag: 'x'.repeat(FILE_LIMITS.cellCharacters + 1) })],
    ['too_many_rows', 'text/csv', `${HEAD}\nA,B,C${'\n'.repeat(FILE_LIMITS.lines)}x`],
    ['too_many_rows', 'application/x-ndjson', `{"tag":"A"}${'\n'.repeat(FILE_LIMITS.lines)}x`],
    ['file_too_large', 'text/csv', new Uint8Array(FILE_LIMITS.bytes + 1).fill(65)],
  ])('%s (%s)', (code, mediaType, content) => {
    expect(faults(content, mediaType as 'text/csv')).toEqual([code]);
  });

  test('but not at its limits', () => {
    expect(table(`${HEAD}\n${repeat('A,B,C', FILE_LIMITS.rows)}`).rows).toHaveLength(FILE_LIMITS.rows);
    expect(table(`${HEAD}${',x'.repeat(FILE_LIMITS.columns - 3)}\nA,B,${'x'.repeat(FILE_LIMITS.cellCharacters)}`).rows).toHaveLength(1);
  });

  test('nor for the million blank rows of a spreadsheet that was saved with its whole grid', () => {
    expect(table(`${HEAD}\nA,B,C\n${',,\n'.repeat(1_048_574)}`).rows).toHaveLength(1);
  });

  test('all missing columns are named at once', () => {
    expect(faults('object,count\nA,1')).toEqual(['column_missing', 'column_missing']);
  });

  test.each([
    ['commas', ',', ['too_many_columns']],
    ['quotes', '"', ['cell_too_long']],
    ['letters', 'a', ['cell_too_long']],
    ['quoted commas', '",', ['too_many_columns']],
    ['line ends', '\n', ['too_many_rows']],
    ['blank lines', ' \n', ['too_many_rows']],
    ['opened quotes', '\n"x', ['too_many_rows']],
  ])('that is ten megabytes of %s', (_name, unit, codes) => {
    expect(faults(utf8(`${HEAD}\n${unit.repeat(Math.floor((FILE_LIMITS.bytes - 100) / unit.length))}`))).toEqual(codes);
  });
});
