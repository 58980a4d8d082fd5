import type { CalibrationDecision, CalibrationRecord, CalibrationStore } from '#application';
import type { Client } from '../pool.js';
import { at } from './row.js';

interface CalibrationRow {
  id: string;
  number: number;
  library: CalibrationRecord['library'];
  key: string;
  value: number | null;
  reason: string;
  decided_by: string;
  decided_at: Date;
  principal_id: string;
  lead_id: string | null;
  lead_name: string | null;
}

// The person is joined below the policy of the incident: who is limited to another one does not see the lead.
const COLUMNS = 'c.id, c.number, c.library, c.key, c.value, c.reason, c.decided_by, c.decided_at, c.principal_id, p.id as lead_id, p.display_name as lead_name';
const FROM = 'from calibration_value c left join person p on p.network_id = c.network_id and p.id = c.decided_by';

export class PgCalibrationStore implements CalibrationStore {
  private loaded: Promise<CalibrationDecision[]> | undefined;

  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  inForce(): Promise<CalibrationDecision[]> {
    this.loaded ??= this.decisions({ name: 'calibration_in_force', text: `select distinct on (c.network_id, c.library, c.key) ${COLUMNS} ${FROM} where c.network_id = $1 order by c.network_id, c.library, c.key, c.number desc`, values: [this.networkId] });
    return this.loaded;
  }

  async append(record: CalibrationRecord): Promise<boolean> {
    this.loaded = undefined;
    const { rowCount } = await this.client.query(
      `insert into calibration_value (network_id, id, number, library, key, value, reason, decided_by, decided_at, principal_id)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10) on conflict (network_id, number) do nothing`,
      [this.networkId, record.id, record.number, record.library, record.key, record.value, record.reason, record.decidedBy, at(record.decidedAtMs), record.principalId],
    );
    return rowCount === 1;
  }

  page(limit: number, beforeNumber: number | null): Promise<CalibrationDecision[]> {
    return this.decisions({
      name: 'calibration_page',
      text: `select ${COLUMNS} ${FROM} where c.network_id = $1 and ($3::int is null or c.number < $3) order by c.number desc limit $2`,
      values: [this.networkId, limit, beforeNumber],
    });
  }

  private async decisions(query: { name: string; text: string; values: unknown[] }): Promise<CalibrationDecision[]> {
    const { rows } = await this.client.query<CalibrationRow>(query);
    return rows.map(toDecision);
  }
}

function toDecision(row: CalibrationRow): CalibrationDecision {
  return {
    id: row.id, number: row.number, library: row.library, key: row.key, value: row.value, reason: row.reason,
    decidedBy: row.decided_by, decidedAtMs: row.decided_at.getTime(), principalId: row.principal_id,
    lead: row.lead_id === null ? null : { id: row.lead_id, name: row.lead_name ?? '' },
  };
}
