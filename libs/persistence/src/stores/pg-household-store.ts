import type { HouseholdContact, HouseholdRecord, HouseholdStore, PersonalStore } from '#application';
import type { Client } from '../pool.js';
import { at } from './row.js';

/** The clear columns hold it only until the worker has sealed it. */
interface ContactRow extends Record<keyof HouseholdContact, string | null> {
  sealed: Uint8Array | null;
}

/** The contact as one sealed text. */
export const CONTACT_FIELD = 'household_contact';
export const contactText = ({ name, phone, email, address }: HouseholdContact): string => JSON.stringify({ name, phone, email, address });

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
    private readonly personal: PersonalStore,
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
    const { rows } = await this.client.query<ContactRow>('select name, phone, email, address, sealed from household_contact where network_id = $1 and household_id = $2', [this.networkId, householdId]);
    const [row] = rows;
    if (!row) return null;
    if (row.sealed === null && row.name === null) return null;
    if (row.sealed === null) return { name: row.name ?? '', phone: row.phone ?? '', email: row.email ?? '', address: row.address ?? '' };
    const text = await this.personal.open(householdId, CONTACT_FIELD, row.sealed);
    return text === null ? null : (JSON.parse(text) as HouseholdContact);
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
      'insert into household_contact (network_id, incident_id, household_id, sealed) values ($1, $2, $3, $4)',
      [this.networkId, household.incidentId, household.id, await this.personal.seal(household.id, CONTACT_FIELD, contactText(contact))],
    );
  }
}
