import type { HouseholdContact, HouseholdRecord, HouseholdStore } from '#application';
import type { Client } from '../pool.js';
import { at } from './row.js';

interface HouseholdRow {
  network_id: string;
  incident_id: string;
  id: string;
  code: string;
  language: string;
  version: number;
  created_at: Date;
  updated_at: Date;
}

function toRecord(row: HouseholdRow): HouseholdRecord {
  return { networkId: row.network_id, incidentId: row.incident_id, id: row.id, code: row.code, language: row.language, version: row.version, createdAtMs: row.created_at.getTime(), updatedAtMs: row.updated_at.getTime() };
}

export class PgHouseholdStore implements HouseholdStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async find(householdId: string): Promise<HouseholdRecord | null> {
    const { rows } = await this.client.query<HouseholdRow>('select * from household where network_id = $1 and id = $2', [this.networkId, householdId]);
    return rows[0] ? toRecord(rows[0]) : null;
  }

  async findByCode(incidentId: string, code: string): Promise<HouseholdRecord | null> {
    const { rows } = await this.client.query<HouseholdRow>('select * from household where network_id = $1 and incident_id = $2 and code = $3', [this.networkId, incidentId, code]);
    return rows[0] ? toRecord(rows[0]) : null;
  }

  async contact(householdId: string): Promise<HouseholdContact | null> {
    const { rows } = await this.client.query<HouseholdContact>('select name, phone, email, address from household_contact where network_id = $1 and household_id = $2', [this.networkId, householdId]);
    return rows[0] ?? null;
  }

  async page(incidentId: string, limit: number, afterId: string | null): Promise<HouseholdRecord[]> {
    const { rows } = await this.client.query<HouseholdRow>(
      'select * from household where network_id = $1 and incident_id = $2 and ($4::uuid is null or id > $4) order by id limit $3',
      [this.networkId, incidentId, limit, afterId],
    );
    return rows.map(toRecord);
  }

  async insert(household: HouseholdRecord, contact: HouseholdContact): Promise<void> {
    await this.client.query(
      `insert into household (network_id, incident_id, id, code, language, version, created_at, updated_at) values ($1, $2, $3, $4, $5, $6, $7, $8)`,
      [this.networkId, household.incidentId, household.id, household.code, household.language, household.version, at(household.createdAtMs), at(household.updatedAtMs)],
    );
    await this.client.query(
      `insert into household_contact (network_id, incident_id, household_id, name, phone, email, address) values ($1, $2, $3, $4, $5, $6, $7)`,
      [this.networkId, household.incidentId, household.id, contact.name, contact.phone, contact.email, contact.address],
    );
  }
}
