import type { ConsentRecord, ConsentScope, ConsentStore } from '#application';
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
  note: string;
  recorded_by: string;
  recorded_at: Date;
}

export class PgConsentStore implements ConsentStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async insert(consents: readonly ConsentRecord[]): Promise<void> {
    for (const consent of consents) {
      await this.client.query(
        `insert into consent (network_id, incident_id, id, household_id, item_id, scope, given, manner, note, recorded_by, recorded_at)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)`,
        [this.networkId, consent.incidentId, consent.id, consent.householdId, consent.itemId, consent.scope, consent.given, consent.manner, consent.note, consent.recordedBy, at(consent.recordedAtMs)],
      );
    }
  }

  async ofHousehold(householdId: string): Promise<ConsentRecord[]> {
    const { rows } = await this.client.query<ConsentRow>('select * from consent where network_id = $1 and household_id = $2 order by recorded_at, id', [this.networkId, householdId]);
    return rows.map((row) => ({
      id: row.id, incidentId: row.incident_id, householdId: row.household_id, itemId: row.item_id, scope: row.scope, given: row.given,
      manner: row.manner, note: row.note, recordedBy: row.recorded_by, recordedAtMs: row.recorded_at.getTime(),
    }));
  }

  async inForce(householdId: string, itemId: string): Promise<{ consents: Consents; ids: Partial<Record<ConsentScope, string>> }> {
    const { rows } = await this.client.query<Pick<ConsentRow, 'id' | 'scope' | 'given'>>(
      `select distinct on (scope) id, scope, given from consent
       where network_id = $1 and household_id = $2 and (item_id = $3 or (item_id is null and (scope <> 'release' or not given)))
       order by scope, (item_id is not null and scope <> 'release') desc, recorded_at desc, id desc`,
      [this.networkId, householdId, itemId],
    );
    const consents: Consents = { treat: null, freeze: null, refer: null, release: null };
    const ids: Partial<Record<ConsentScope, string>> = {};
    for (const row of rows) {
      ids[row.scope] = row.id;
      if (row.scope !== 'photograph') consents[row.scope] = row.given;
    }
    return { consents, ids };
  }
}
