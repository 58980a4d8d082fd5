import { describe, expect, test } from '@jest/globals';
import { readRow, readTable, type RowReading, type TableMediaType } from '#application';
import { formatTagCode, isTagFault, makeTagCode, parseTagCode } from '#custody';
import { FLOOD_AT_MS } from '../../../apps/ops/src/demo/calibration.js';
import { type IntakeFile, type RowTruth, writeIntakeFiles } from '../../../apps/ops/src/demo/files/intake-files.js';
import { mend } from '../../../apps/ops/src/demo/files/mend.js';
import { quote } from '../../../apps/ops/src/demo/files/write-file.js';
import { generateWorld } from '../../../apps/ops/src/demo/world/generator.js';

const world = generateWorld(7);
const tags = new Map(world.things.map((thing, index) => [thing.key, formatTagCode(makeTagCode(index, 'item'))]));
const households = new Map(world.households.map((household) => [household.code, household]));
const files = writeIntakeFiles(world, tags);

/** Rows as the program itself reads them, without a database: a tag that fails its check counts as refused too. */
function read(content: Buffer, mediaType: TableMediaType, sentAtMs: number): { encoding: string; rows: RowReading[]; refused: Set<number> } {
  const table = readTable(new Uint8Array(content), mediaType);
  if (Array.isArray(table)) throw new Error(table.map(({ said }) => said.text).join(' '));
  const rows = table.rows.map((row) => readRow(row, { floodAtMs: FLOOD_AT_MS, submittedAtMs: sentAtMs, timeZone: 'UTC' }));
  const refused = rows.filter((row) => row.remarks.refusals.length > 0 || isTagFault(parseTagCode(row.values.tag)));
  return { encoding: table.reading.encoding, rows, refused: new Set(refused.map((row) => row.rowNumber)) };
}

const MUST_BE_REFUSED: ReadonlySet<RowTruth['mess']> = new Set(['wrong-date', 'formula', 'wrong-tag-character', 'missing-household', 'cut-off']);
const spoiledRows = (file: IntakeFile) => new Set([...file.rows].filter(([, truth]) => MUST_BE_REFUSED.has(truth.mess)).map(([row]) => row));

describe('the messy tables of the desks', () => {
  test('every thing that goes by table is in exactly one of them, duplicates apart', () => {
    const inFiles = files.flatMap((file) => [...file.rows.values()].filter((truth) => truth.mess !== 'duplicate').map((truth) => truth.thing.key));
    expect(inFiles.sort()).toEqual(world.things.filter((thing) => thing.way === 'file').map((thing) => thing.key).sort());
  });

  test('they have every kind of mess: marks, semicolons, Windows-1252, both line ends, NDJSON, duplicates, wrong rows', () => {
    expect(files.some((file) => file.content.subarray(0, 3).equals(Buffer.from([0xef, 0xbb, 0xbf])))).toBe(true);
    expect(new Set(files.map((file) => file.dialect.mediaType))).toEqual(new Set(['text/csv', 'application/x-ndjson']));
    expect(files.some((file) => file.content.includes('\r\n'))).toBe(true);
    const messes = new Set(files.flatMap((file) => [...file.rows.values()].map((truth) => truth.mess)));
    expect(messes).toEqual(new Set(['none', 'harmless', 'wrong-date', 'formula', 'wrong-tag-character', 'missing-household', 'duplicate', 'cut-off']));
  });

  test.each(files.map((file) => [file.name, file] as const))('%s: exactly the spoiled rows are refused, and names keep their accents', (_name, file) => {
    const { encoding, rows, refused } = read(file.content, file.dialect.mediaType, file.sentAtMs);
    expect(encoding).toBe(file.dialect.encoding === 'windows-1252' ? 'windows-1252' : 'utf-8');
    expect(rows.map((row) => row.rowNumber)).toEqual([...file.rows.keys()]);
    expect(refused).toEqual(spoiledRows(file));
    for (const row of rows) {
      const truth = file.rows.get(row.rowNumber);
      if (!truth || refused.has(row.rowNumber)) continue;
      expect(row.values.contact.name).toBe(households.get(truth.thing.household)?.contact.name);
      expect(row.values.object).toBe(truth.thing.object);
      expect(row.values.count).toBe(truth.thing.count);
      expect(row.values.wettedAtMs).toBe(truth.thing.wettedAtMs);
    }
  });

  test.each(files.map((file) => [file.name, file] as const))('%s: the mended file has the refused rows and none is refused again', (_name, file) => {
    const refused = spoiledRows(file);
    const answer = ['tag,_problem', ...[...refused].map((row) => ['', quote(`Row ${row}: tag: The check digits do not fit, "read" it again.`)].join(','))].join('\r\n');
    const mended = mend(`\uFEFF${answer}\r\n`, file, households, tags);
    expect(mended?.truths).toHaveLength(refused.size);
    const again = read(mended?.content ?? Buffer.alloc(0), 'text/csv', file.sentAtMs);
    expect(again.refused).toEqual(new Set());
    expect(again.rows.map((row) => row.values.object)).toEqual(mended?.truths.map((truth) => truth.thing.object));
  });

  test('nothing refused means nothing to mend', () => {
    expect(mend('\uFEFFtag,_problem\r\n', files[0]!, households, tags)).toBeNull();
  });
});
