import type { FileReading, ImportRecord, ImportRowRecord, ImportStore, PersonalStore, RowOutcome, RowRemark } from '#application';
import { personalField } from '#application';
import type { Message } from '#care';
import type { Client } from '../pool.js';
import { toMessageOrNull, valuesOf } from './message-columns.js';
import { at, msOrNull } from './row.js';

interface ImportRow {
  id: string;
  incident_id: string;
  site_id: string;
  file_name: string;
  media_type: string;
  sha256: string;
  reading: FileReading;
  state: ImportRecord['state'];
  rows_total: number | null;
  rows_done: number;
  accepted: number;
  repaired: number;
  refused: number;
  already_there: number;
  failure: string | null;
  failure_values: unknown;
  submitted_by: string;
  submitted_at: Date;
  finished_at: Date | null;
}

interface OutcomeRow {
  incident_id: string;
  row_number: number;
  outcome: RowOutcome;
  item_id: string | null;
  remarks: RowRemark[];
  /** In the clear only in rows of earlier versions. */
  cells: Record<string, string> | null;
  cells_sealed: Uint8Array | null;
}

/** Rows and files name families that are not households yet: they are sealed for the network. */
/** First byte of what `personal` seals. */
const SEALED_FORM = 1;

export const cellsField = (importId: string, rowNumber: number): string => personalField('intake_import_row.cells', `${importId}:${rowNumber}`);
const contentField = (record: Pick<ImportRecord, 'incidentId' | 'siteId' | 'sha256'>): string => personalField('intake_import.content', `${record.incidentId}:${record.siteId}:${record.sha256}`);

/** Everything but the bytes, which can be ten megabytes. */
const COLUMNS = `id, incident_id, site_id, file_name, media_type, sha256, reading, state, rows_total, rows_done, accepted, repaired, refused,
  already_there, failure, failure_values, submitted_by, submitted_at, finished_at`;
const SELECT = `select ${COLUMNS} from intake_import where network_id = $1`;

function toRecord(row: ImportRow): ImportRecord {
  return {
    id: row.id, incidentId: row.incident_id, siteId: row.site_id, fileName: row.file_name, mediaType: row.media_type, sha256: row.sha256, reading: row.reading,
    state: row.state, rowsTotal: row.rows_total, rowsDone: row.rows_done, accepted: row.accepted, repaired: row.repaired, refused: row.refused, alreadyThere: row.already_there,
    failure: toMessageOrNull(row.failure, row.failure_values), submittedBy: row.submitted_by, submittedAtMs: row.submitted_at.getTime(), finishedAtMs: msOrNull(row.finished_at),
  };
}

export class PgImportStore implements ImportStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
    private readonly personal: PersonalStore,
  ) {}

  async insert(record: ImportRecord, content: Uint8Array): Promise<{ record: ImportRecord; created: boolean }> {
    const { rows: written } = await this.client.query<ImportRow>(
      `insert into intake_import (network_id, incident_id, id, site_id, file_name, media_type, sha256, reading, content, state, rows_total, submitted_by, submitted_at)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13)
       on conflict (network_id, incident_id, site_id, sha256) do update set content = excluded.content, state = 'queued', failure = null, failure_values = null, finished_at = null
         where intake_import.state = 'failed'
       returning ${COLUMNS}`,
      [
        this.networkId, record.incidentId, record.id, record.siteId, record.fileName, record.mediaType, record.sha256, JSON.stringify(record.reading),
        await this.personal.seal(null, contentField(record), Buffer.from(content.buffer, content.byteOffset, content.byteLength).toString('base64')), record.state, record.rowsTotal, record.submittedBy, at(record.submittedAtMs),
      ],
    );
    if (written[0]) return { record: toRecord(written[0]), created: true };
    const { rows } = await this.client.query<ImportRow>(`${SELECT} and incident_id = $2 and site_id = $3 and sha256 = $4`, [this.networkId, record.incidentId, record.siteId, record.sha256]);
    if (!rows[0]) throw new Error('intake import: the same file is there but cannot be read');
    return { record: toRecord(rows[0]), created: false };
  }

  async find(importId: string): Promise<ImportRecord | null> {
    const { rows } = await this.client.query<ImportRow>({ name: 'intake_import_find', text: `${SELECT} and id = $2`, values: [this.networkId, importId] });
    return rows[0] ? toRecord(rows[0]) : null;
  }

  async lock(importId: string): Promise<ImportRecord | null> {
    // The other holder is a worker on its chunk of rows: waiting for it is the point, and it ends by itself.
    await this.client.query(`set local lock_timeout = '14s'`);
    const { rows } = await this.client.query<ImportRow>({ name: 'intake_import_lock', text: `${SELECT} and id = $2 for no key update`, values: [this.networkId, importId] });
    return rows[0] ? toRecord(rows[0]) : null;
  }

  async content(importId: string): Promise<Uint8Array | null> {
    const { rows } = await this.client.query<ImportRow & { content: Buffer }>(`select ${COLUMNS}, content from intake_import where network_id = $1 and id = $2`, [this.networkId, importId]);
    const [row] = rows;
    if (!row || row.content.length === 0) return null;
    // A file of an earlier version that still waits stands as it came; no table begins with the byte of the sealed form.
    if (row.content[0] !== SEALED_FORM) return row.content;
    const opened = await this.personal.open(null, contentField(toRecord(row)), row.content);
    return opened === null ? null : Buffer.from(opened, 'base64');
  }

  async saveRows(importId: string, rows: readonly ImportRowRecord[]): Promise<void> {
    if (rows.length === 0) return;
    const cells = await this.personal.sealAll(rows.map((row) => ({ householdId: null, field: cellsField(importId, row.rowNumber), text: JSON.stringify(row.cells) })));
    const count = (outcome: RowOutcome) => rows.filter((row) => row.outcome === outcome).length;
    await this.client.query({
      name: 'intake_import_rows',
      text: `insert into intake_import_row (network_id, import_id, incident_id, row_number, outcome, item_id, remarks, cells_sealed)
             select $1, $2, r.incident_id, r.row_number, r.outcome, r.item_id, r.remarks, decode(r.cells, 'base64')
             from jsonb_to_recordset($3::jsonb) as r (incident_id uuid, row_number integer, outcome text, item_id uuid, remarks jsonb, cells text)`,
      values: [
        this.networkId,
        importId,
        JSON.stringify(rows.map((row, index) => ({ incident_id: row.incidentId, row_number: row.rowNumber, outcome: row.outcome, item_id: row.itemId, remarks: row.remarks, cells: Buffer.from(cells[index] ?? []).toString('base64') }))),
      ],
    });
    await this.client.query({
      name: 'intake_import_counts',
      text: `update intake_import set state = 'running', rows_done = rows_done + $3, accepted = accepted + $4, repaired = repaired + $5, refused = refused + $6, already_there = already_there + $7
             where network_id = $1 and id = $2`,
      values: [this.networkId, importId, rows.length, count('accepted'), count('repaired'), count('refused'), count('already-there')],
    });
  }

  async finish(importId: string, end: { state: 'done' | 'failed'; failure: Message | null; atMs: number }): Promise<void> {
    await this.client.query(
      `update intake_import set state = $3, failure = $4, finished_at = $5, failure_values = $6, content = ''::bytea where network_id = $1 and id = $2`,
      [this.networkId, importId, end.state, end.failure?.text ?? null, at(end.atMs), valuesOf(end.failure)],
    );
  }

  async rows(importId: string, outcome: RowOutcome | null, limit: number, afterRow: number): Promise<ImportRowRecord[]> {
    const { rows } = await this.client.query<OutcomeRow>({
      name: outcome === null ? 'intake_import_page' : 'intake_import_page_of_outcome',
      text: `select incident_id, row_number, outcome, item_id, remarks, cells, cells_sealed from intake_import_row
             where network_id = $1 and import_id = $2 and row_number > $3${outcome === null ? '' : ' and outcome = $5'} order by row_number limit $4`,
      values: outcome === null ? [this.networkId, importId, afterRow, limit] : [this.networkId, importId, afterRow, limit, outcome],
    });
    const cells = await this.personal.openAll(rows.map((row) => ({ householdId: null, field: cellsField(importId, row.row_number), sealed: row.cells_sealed })));
    return rows.map((row, index) => ({
      importId, incidentId: row.incident_id, rowNumber: row.row_number, outcome: row.outcome, itemId: row.item_id, remarks: row.remarks,
      cells: (JSON.parse(cells[index] ?? 'null') as Record<string, string> | null) ?? row.cells ?? {},
    }));
  }

  async timeZone(): Promise<string> {
    const { rows } = await this.client.query<{ time_zone: string }>('select time_zone from network where network_id = $1', [this.networkId]);
    return rows[0]?.time_zone ?? 'UTC';
  }
}
