import type { z } from 'zod';
import { CONTACT_COLUMNS, IMPORT_COLUMNS, remarkInWords, type ImportRecord, type ImportRowRecord } from '#application';
import { render, type Language } from '#care';
import type { IntakeImportBody, IntakeImportRowBody } from '#contracts';
import { iso, isoOrNull } from '../../presenters/time.js';

export function presentIntakeImport(record: ImportRecord, language: Language): z.output<typeof IntakeImportBody> {
  const { reading } = record;
  return {
    id: record.id,
    incidentId: record.incidentId,
    siteId: record.siteId,
    fileName: record.fileName,
    mediaType: record.mediaType,
    sha256: record.sha256,
    encoding: reading.encoding,
    delimiter: reading.delimiter,
    columns: reading.columns,
    remarks: presentRemarks(reading.remarks, language),
    state: record.state,
    rowsTotal: record.rowsTotal ?? 0,
    rowsDone: record.rowsDone,
    accepted: record.accepted,
    repaired: record.repaired,
    refused: record.refused,
    alreadyThere: record.alreadyThere,
    failure: record.failure && render(record.failure, language),
    submittedAt: iso(record.submittedAtMs),
    finishedAt: isoOrNull(record.finishedAtMs),
  };
}

/** Columns that a key without a household scope may see; a foreign column may hold anything, a contact too. */
const SHOWN = IMPORT_COLUMNS.filter((column) => !CONTACT_COLUMNS.has(column));

export function presentIntakeImportRow(row: ImportRowRecord, language: Language): z.output<typeof IntakeImportRowBody> {
  const cells = Object.fromEntries(SHOWN.flatMap((column) => (row.cells[column] === undefined ? [] : [[column, row.cells[column]]])));
  return { rowNumber: row.rowNumber, outcome: row.outcome, itemId: row.itemId, remarks: presentRemarks(row.remarks, language), cells };
}

function presentRemarks(remarks: ImportRowRecord['remarks'], language: Language): z.output<typeof IntakeImportRowBody>['remarks'] {
  return remarks.map((remark) => ({ kind: remark.kind, column: remark.column, code: remark.code, text: remarkInWords(remark, language), was: remark.was, became: remark.became }));
}
