import type { LabelTemplateRecord, LabelTemplateStore } from '#application';
import type { Client } from '../pool.js';
import { at } from './row.js';

interface TemplateRow {
  id: string;
  incident_id: string | null;
  name: string;
  template: LabelTemplateRecord['template'];
  created_at: Date;
  created_by: string;
}

const COLUMNS = 'id, incident_id, name, template, created_at, created_by';

function toRecord(row: TemplateRow): LabelTemplateRecord {
  return { id: row.id, incidentId: row.incident_id, name: row.name, template: row.template, createdAtMs: row.created_at.getTime(), createdBy: row.created_by };
}

export class PgLabelTemplateStore implements LabelTemplateStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async insert(record: LabelTemplateRecord): Promise<void> {
    await this.client.query(
      'insert into label_template (network_id, incident_id, id, name, template, created_at, created_by) values ($1, $2, $3, $4, $5, $6, $7)',
      [this.networkId, record.incidentId, record.id, record.name, JSON.stringify(record.template), at(record.createdAtMs), record.createdBy],
    );
  }

  async find(id: string): Promise<LabelTemplateRecord | null> {
    const { rows } = await this.client.query<TemplateRow>(`select ${COLUMNS} from label_template where network_id = $1 and id = $2`, [this.networkId, id]);
    return rows[0] ? toRecord(rows[0]) : null;
  }

  async page(limit: number, after: string | null): Promise<LabelTemplateRecord[]> {
    const { rows } = await this.client.query<TemplateRow>(`select ${COLUMNS} from label_template where network_id = $1 and ($3::uuid is null or id > $3) order by id limit $2`, [this.networkId, limit, after]);
    return rows.map(toRecord);
  }

  async incidentName(incidentId: string): Promise<string | null> {
    const { rows } = await this.client.query<{ name: string }>('select name from incident where network_id = $1 and id = $2', [this.networkId, incidentId]);
    return rows[0]?.name ?? null;
  }
}
