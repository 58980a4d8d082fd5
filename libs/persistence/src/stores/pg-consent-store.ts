import type { ConsentRecord, ConsentScope, ConsentStore, Money, PersonalStore } from '#application';
import { personalField } from '#application';
import type { Consents } from '#care';
import type { Client } from '../pool.js';
import { at } from './row.js';

interface ConsentRow {
  id: string;
  incident_id: string;
  household_id: string;
  item_id: string | null;
  scope: ConsentScope;
  given: boolean;
  manner: ConsentRecord['manner'];
  note: string | null;
  note_sealed: Uint8Array | null;
  recorded_by: string;
  recorded_at: Date;
  limit_minor: string | null;
  limit_currency: string | null;
}

export const noteField = (consentId: string): string => personalField('consent.note', consentId);

const limitOf = (row: Pick<ConsentRow, 'limit_minor' | 'limit_currency'>): Money | null => (row.limit_minor === null || row.limit_currency === null ? null : { minor: Number(row.limit_minor), currency: row.limit_currency });

export class PgConsentStore implements ConsentStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
    private readonly personal: PersonalStore,
  ) {}

  async insert(consents: readonly ConsentRecord[]): Promise<void> {
    const said = consents.filter(({ note }) => note !== '');
    const notes = await this.personal.sealAll(said.map(({ id, householdId, note }) => ({ householdId, field: noteField(id), text: note })));
    for (const consent of consents) {
      await this.client.query(
        `insert into consent (network_id, incident_id, id, household_id, item_id, scope, given, manner, note_sealed, recorded_by, recorded_at, limit_minor, limit_currency)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13)`,
        [this.networkId, consent.incidentId, consent.id, consent.householdId, consent.itemId, consent.scope, consent.given, consent.manner, notes[said.indexOf(consent)] ?? null, consent.recordedBy, at(consent.recordedAtMs), consent.limit?.minor ?? null, consent.limit?.currency ?? null],
      );
    }
  }

  async ofHousehold(householdId: string): Promise<ConsentRecord[]> {
    const { rows } = await this.client.query<ConsentRow>('select * from consent where network_id = $1 and household_id = $2 order by recorded_at, id', [this.networkId, householdId]);
    const notes = await this.personal.openAll(rows.map((row) => ({ householdId, field: noteField(row.id), sealed: row.note_sealed })));
    return rows.map((row, index) => ({
      id: row.id, incidentId: row.incident_id, householdId: row.household_id, itemId: row.item_id, scope: row.scope, given: row.given,
      manner: row.manner, note: notes[index] ?? row.note ?? '', recordedBy: row.recorded_by, recordedAtMs: row.recorded_at.getTime(), limit: limitOf(row),
    }));
  }

  async inForce(householdId: string, itemId: string): Promise<{ consents: Consents; ids: Partial<Record<ConsentScope, string>>; referLimit: Money | null }> {
    const { rows } = await this.client.query<Pick<ConsentRow, 'id' | 'scope' | 'given' | 'limit_minor' | 'limit_currency'>>(
      `select distinct on (scope) id, scope, given, limit_minor, limit_currency from consent
       where network_id = $1 and household_id = $2 and (item_id = $3 or (item_id is null and (scope <> 'release' or not given)))
       order by scope, (item_id is not null and scope <> 'release') desc, recorded_at desc, id desc`,
      [this.networkId, householdId, itemId],
    );
    const consents: Consents = { treat: null, freeze: null, refer: null, release: null };
    const ids: Partial<Record<ConsentScope, string>> = {};
    let referLimit: Money | null = null;
    for (const row of rows) {
      if (row.scope === 'refer') referLimit = limitOf(row);
      ids[row.scope] = row.id;
      if (row.scope !== 'photograph') consents[row.scope] = row.given;
    }
    return { consents, ids, referLimit };
  }
}
