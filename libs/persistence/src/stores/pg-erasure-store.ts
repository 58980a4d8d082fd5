import type { ErasureReason, ErasureRecord, ErasureStore, HeldRows, HoldRecord, HouseholdStore, PersonalStore } from '#application';
import { formatTagCode } from '#custody';
import { blankRows } from '../personal/erase.js';
import { everythingOf } from '../personal/everything.js';
import { sealInClear } from '../personal/seal-in-clear.js';
import type { Client } from '../pool.js';
import { at, msOrNull } from './row.js';

interface ErasureRow {
  id: string; incident_id: string; household_id: string; reason: ErasureReason; decided_by: string | null; principal_id: string; items: number; files: number; words_in_chain: number; erased_at: Date;
}

interface HoldRow {
  id: string; incident_id: string; household_id: string; reason: Uint8Array | null; placed_by: string; placed_at: Date; lifted_by: string | null; lifted_at: Date | null; version: number;
}

function toHold(row: HoldRow): HoldRecord {
  return {
    id: row.id, incidentId: row.incident_id, householdId: row.household_id, reasonSealed: row.reason, placedBy: row.placed_by, placedAtMs: row.placed_at.getTime(),
    liftedBy: row.lifted_by, liftedAtMs: msOrNull(row.lifted_at), version: row.version,
  };
}

export class PgErasureStore implements ErasureStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
    private readonly personal: PersonalStore,
    private readonly households: HouseholdStore,
  ) {}

  async lockHousehold(householdId: string): Promise<boolean> {
    return (await this.client.query('select from household where network_id = $1 and id = $2 for update', [this.networkId, householdId])).rowCount === 1;
  }

  async of(householdId: string): Promise<ErasureRecord | null> {
    const { rows } = await this.client.query<ErasureRow>('select * from household_erasure where network_id = $1 and household_id = $2', [this.networkId, householdId]);
    const [row] = rows;
    return row
      ? { id: row.id, incidentId: row.incident_id, householdId, reason: row.reason, decidedBy: row.decided_by, principalId: row.principal_id, items: row.items, files: row.files, wordsInChain: row.words_in_chain, erasedAtMs: row.erased_at.getTime() }
      : null;
  }

  async stillHeld(householdId: string, limit: number): Promise<{ count: number; tags: string[] }> {
    const { rows } = await this.client.query<{ count: number; tag_code: string }>(
      `select count(*) over ()::int as count, tag_code from item where network_id = $1 and household_id = $2 and stage not in ('released', 'handed-back', 'merged') order by id limit $3`,
      [this.networkId, householdId, limit],
    );
    return { count: rows[0]?.count ?? 0, tags: rows.map((row) => formatTagCode(row.tag_code)) };
  }

  async importsUnderWay(incidentId: string): Promise<number> {
    const { rows } = await this.client.query<{ count: number }>(`select count(*)::int as count from intake_import where network_id = $1 and incident_id = $2 and state in ('queued', 'running')`, [this.networkId, incidentId]);
    return rows[0]?.count ?? 0;
  }

  async erase(householdId: string, atMs: number): Promise<Pick<ErasureRecord, 'items' | 'wordsInChain'>> {
    const [household, contact] = [await this.households.find(householdId), await this.households.contact(householdId)];
    if (!household) throw new Error('the household is gone although it was locked');
    const items = (await this.client.query<{ id: string }>('select id from item where network_id = $1 and household_id = $2 order by id for update', [this.networkId, householdId])).rows.map(({ id }) => id);
    await blankRows(this.client, this.personal, { networkId: this.networkId, incidentId: household.incidentId, householdId, code: household.code, name: contact?.name ?? '', itemIds: items });
    await this.client.query('update household set version = version + 1, updated_at = $3 where network_id = $1 and id = $2', [this.networkId, householdId, at(atMs)]);
    await this.personal.destroyKey(householdId, atMs);
    return { items: items.length, wordsInChain: await this.wordsInChain(items) };
  }

  /** Reasons in own words have been hashed since they are sealed; before, only passings and corrections had any. */
  private async wordsInChain(itemIds: readonly string[]): Promise<number> {
    const { rows } = await this.client.query<{ count: number }>(
      `select count(*)::int as count from custody_event e where e.network_id = $1 and e.item_id = any($2::uuid[])
         and not exists (select from custody_words w where w.network_id = e.network_id and w.chain_id = e.item_id and w.seq = e.seq)
         and ((e.refs ? 'reason' and e.kind not in ('retagged', 'hand-over-ended', 'merged-away', 'merged-in')) or (e.corrects_reason is not null and e.corrects_reason not in ('stock-take', 'owner-found')))`,
      [this.networkId, itemIds],
    );
    return rows[0]?.count ?? 0;
  }

  everything(householdId: string): Promise<HeldRows> {
    return everythingOf(this.client, this.personal, this.networkId, householdId);
  }

  sealInClear(incidentId: string, rows: number): Promise<number> {
    return sealInClear({ client: this.client, personal: this.personal, networkId: this.networkId, incidentId, rows });
  }

  async insert(record: ErasureRecord): Promise<void> {
    await this.client.query(
      `insert into household_erasure (network_id, incident_id, id, household_id, reason, decided_by, principal_id, items, files, words_in_chain, erased_at) values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)`,
      [this.networkId, record.incidentId, record.id, record.householdId, record.reason, record.decidedBy, record.principalId, record.items, record.files, record.wordsInChain, at(record.erasedAtMs)],
    );
  }

  async openHold(householdId: string): Promise<HoldRecord | null> {
    const { rows } = await this.client.query<HoldRow>('select * from household_hold where network_id = $1 and household_id = $2 and lifted_at is null', [this.networkId, householdId]);
    return rows[0] ? toHold(rows[0]) : null;
  }

  async holds(householdId: string): Promise<HoldRecord[]> {
    const { rows } = await this.client.query<HoldRow>('select * from household_hold where network_id = $1 and household_id = $2 order by placed_at, id', [this.networkId, householdId]);
    return rows.map(toHold);
  }

  async insertHold(hold: HoldRecord): Promise<void> {
    await this.client.query(
      'insert into household_hold (network_id, incident_id, id, household_id, reason, placed_by, placed_at) values ($1, $2, $3, $4, $5, $6, $7)',
      [this.networkId, hold.incidentId, hold.id, hold.householdId, hold.reasonSealed, hold.placedBy, at(hold.placedAtMs)],
    );
  }

  async lockHold(holdId: string): Promise<HoldRecord | null> {
    const { rows } = await this.client.query<HoldRow>('select * from household_hold where network_id = $1 and id = $2 for update', [this.networkId, holdId]);
    return rows[0] ? toHold(rows[0]) : null;
  }

  async liftHold(holdId: string, by: string, atMs: number): Promise<void> {
    await this.client.query('update household_hold set lifted_by = $3, lifted_at = $4, version = version + 1 where network_id = $1 and id = $2', [this.networkId, holdId, by, at(atMs)]);
  }
}
