import { contactWords, type ContactWord, type ContactWordKind, type HouseholdContact, type HouseholdRecord, type HouseholdStore, type PersonalStore } from '#application';
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
  unknown_owner: boolean;
  version: number;
  created_at: Date;
  updated_at: Date;
}

function toRecord(row: HouseholdRow): HouseholdRecord {
  return { networkId: row.network_id, incidentId: row.incident_id, id: row.id, code: row.code, language: row.language, unknownOwner: row.unknown_owner, version: row.version, createdAtMs: row.created_at.getTime(), updatedAtMs: row.updated_at.getTime() };
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
      'select * from household where network_id = $1 and incident_id = $2 and not unknown_owner and ($4::uuid is null or id > $4) order by id limit $3',
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
      'insert into household_contact (network_id, incident_id, household_id, sealed, words_kept) values ($1, $2, $3, $4, true)',
      [this.networkId, household.incidentId, household.id, await this.personal.seal(household.id, CONTACT_FIELD, contactText(contact))],
    );
    await keepContactWords(this.client, this.personal, { networkId: this.networkId, incidentId: household.incidentId, id: household.id }, contact);
  }

  async unknownOwnerOf(fresh: HouseholdRecord): Promise<HouseholdRecord> {
    const find = async () => (await this.client.query<HouseholdRow>('select * from household where network_id = $1 and incident_id = $2 and unknown_owner', [this.networkId, fresh.incidentId])).rows[0];
    const known = await find();
    if (known) return toRecord(known);
    await this.client.query(
      'insert into household (network_id, incident_id, id, code, language, unknown_owner, version, created_at, updated_at) values ($1, $2, $3, $4, $5, true, $6, $7, $8) on conflict do nothing',
      [this.networkId, fresh.incidentId, fresh.id, fresh.code, fresh.language, fresh.version, at(fresh.createdAtMs), at(fresh.updatedAtMs)],
    );
    const made = await find();
    if (!made) throw new Error('the record of unknown owners is neither there nor made');
    return toRecord(made);
  }

  async findByWords(incidentId: string, words: readonly ContactWord[], limit: number): Promise<{ household: HouseholdRecord; matched: ContactWordKind[] }[]> {
    const blind: Uint8Array[] = [];
    for (const { kind, word } of words) blind.push(...(await this.personal.blindToFind(PURPOSE[kind], [word])));
    const { rows } = await this.client.query<HouseholdRow & { matched: ContactWordKind[] }>(
      `select h.*, m.matched from household h join (
         select w.household_id, array_agg(distinct w.kind order by w.kind) as matched from household_word w join unnest($3::text[], $4::bytea[]) as asked (kind, word) on asked.kind = w.kind and asked.word = w.word
         where w.network_id = $1 and w.incident_id = $2 group by w.household_id
       ) m on m.household_id = h.id where h.network_id = $1 and h.incident_id = $2 order by cardinality(m.matched) desc, h.id limit $5`,
      [this.networkId, incidentId, words.map(({ kind }) => kind), blind, limit],
    );
    return rows.map((row) => ({ household: toRecord(row), matched: row.matched }));
  }
}

const PURPOSE: Record<ContactWordKind, string> = { name: 'household_word.name', phone: 'household_word.phone', email: 'household_word.email' };

/** Makes the household found by its contact, once. */
export async function keepContactWords(client: Client, personal: PersonalStore, household: { networkId: string; incidentId: string; id: string }, contact: HouseholdContact): Promise<void> {
  for (const { kind, word } of contactWords(contact)) {
    const [blind] = await personal.blindToKeep(PURPOSE[kind], [word]);
    await client.query('insert into household_word (network_id, incident_id, household_id, kind, word) values ($1, $2, $3, $4, $5) on conflict do nothing', [household.networkId, household.incidentId, household.id, kind, blind]);
  }
}
