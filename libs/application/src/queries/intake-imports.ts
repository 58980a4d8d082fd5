import type { Language } from '#care';
import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { LINE_COLUMN } from '../intake/import/import-columns.js';
import { refusedFileHeader, refusedFileRow } from '../intake/import/refused-file.js';
import type { ImportRecord, ImportRowRecord, RowOutcome } from '../ports/import-store.js';
import type { Stores } from '../ports/work.js';

const ROWS_AT_ONCE = 1_000;

/** How far an import is, and what became of its rows in numbers. */
export async function getIntakeImport(stores: Stores, _call: UseCaseCall, input: { importId: string }): Promise<ImportRecord> {
  const record = await stores.imports.find(input.importId);
  if (!record) throw notFound('intake import');
  return record;
}

/** The rows that were worked through so far, in file order. */
export async function listIntakeImportRows(stores: Stores, call: UseCaseCall, input: { importId: string; outcome: RowOutcome | null; limit: number; afterRow: number }): Promise<ImportRowRecord[]> {
  await getIntakeImport(stores, call, input);
  return stores.imports.rows(input.importId, input.outcome, input.limit, input.afterRow);
}

/** The refused rows as a CSV file with the columns of the file that was sent and one more that says in a language what to mend. Holds contacts. */
export async function refusedRowsFile(stores: Stores, call: UseCaseCall, input: { importId: string; language: Language }): Promise<{ record: ImportRecord; text: string }> {
  const record = await getIntakeImport(stores, call, input);
  const rows: ImportRowRecord[] = [];
  for (let afterRow = 0; ; ) {
    const page = await stores.imports.rows(record.id, 'refused', ROWS_AT_ONCE, afterRow);
    rows.push(...page);
    const last = page.at(-1);
    if (last === undefined || page.length < ROWS_AT_ONCE) break;
    afterRow = last.rowNumber;
  }
  const withLine = rows.some((row) => Object.hasOwn(row.cells, LINE_COLUMN));
  return { record, text: refusedFileHeader(record.reading, withLine) + rows.map((row) => refusedFileRow(record.reading, row, withLine, input.language)).join('') };
}
