import type { FamilyNewsStore, MessageChannel, MessageWishRecord, NewsKind, NewsRecord, UnreachedRecord } from '#application';
import type { Client } from '../pool.js';
import { at, msOrNull } from './row.js';

interface WishRow {
  id: string; incident_id: string; household_id: string; wish: MessageWishRecord['wish']; manner: MessageWishRecord['manner']; recorded_by: string; recorded_at: Date;
}

interface NewsRow {
  id: string; incident_id: string; household_id: string; kind: NewsKind; subject_id: string; part: number; noted_at: Date;
}

interface UnreachedRow {
  id: string; incident_id: string; household_id: string; channel: MessageChannel; address: Uint8Array | null; message_id: string; refused_at: Date; reached_at: Date | null;
}

export class PgFamilyNewsStore implements FamilyNewsStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async insertWish(wish: MessageWishRecord): Promise<void> {
    await this.client.query('insert into message_wish (network_id, incident_id, id, household_id, wish, manner, recorded_by, recorded_at) values ($1, $2, $3, $4, $5, $6, $7, $8)', [
      this.networkId, wish.incidentId, wish.id, wish.householdId, wish.wish, wish.manner, wish.recordedBy, at(wish.recordedAtMs),
    ]);
  }

  async wishes(householdId: string): Promise<MessageWishRecord[]> {
    const { rows } = await this.client.query<WishRow>('select * from message_wish where network_id = $1 and household_id = $2 order by id desc', [this.networkId, householdId]);
    return rows.map((row) => ({ id: row.id, incidentId: row.incident_id, householdId: row.household_id, wish: row.wish, manner: row.manner, recordedBy: row.recorded_by, recordedAtMs: row.recorded_at.getTime() }));
  }

  async wishInForce(householdId: string): Promise<MessageWishRecord['wish'] | null> {
    const { rows } = await this.client.query<Pick<WishRow, 'wish'>>({ name: 'message_wish_in_force', text: 'select wish from message_wish where network_id = $1 and household_id = $2 order by id desc limit 1', values: [this.networkId, householdId] });
    return rows[0]?.wish ?? null;
  }

  async note(news: NewsRecord): Promise<boolean> {
    const { rowCount } = await this.client.query({
      name: 'family_news_note',
      text: `insert into family_news (network_id, incident_id, id, household_id, kind, subject_id, part, noted_at) values ($1, $2, $3, $4, $5, $6, $7, $8)
             on conflict (network_id, household_id, kind, subject_id, part) do nothing`,
      values: [this.networkId, news.incidentId, news.id, news.householdId, news.kind, news.subjectId, news.part, at(news.notedAtMs)],
    });
    return rowCount === 1;
  }

  async open(householdId: string): Promise<NewsRecord[]> {
    const { rows } = await this.client.query<NewsRow>('select * from family_news where network_id = $1 and household_id = $2 and settled_at is null order by id for update', [this.networkId, householdId]);
    return rows.map((row) => ({ id: row.id, incidentId: row.incident_id, householdId: row.household_id, kind: row.kind, subjectId: row.subject_id, part: row.part, notedAtMs: row.noted_at.getTime() }));
  }

  async settle(ids: readonly string[], atMs: number, messageId: string | null): Promise<void> {
    await this.client.query('update family_news set settled_at = $3, message_id = $4 where network_id = $1 and id = any($2::uuid[]) and settled_at is null', [this.networkId, ids, at(atMs), messageId]);
  }

  async markUnreached(record: UnreachedRecord): Promise<void> {
    await this.client.query('insert into unreached_address (network_id, incident_id, id, household_id, channel, address, message_id, refused_at) values ($1, $2, $3, $4, $5, $6, $7, $8)', [
      this.networkId, record.incidentId, record.id, record.householdId, record.channel, record.address, record.messageId, at(record.refusedAtMs),
    ]);
  }

  async unreached(householdId: string): Promise<UnreachedRecord[]> {
    const { rows } = await this.client.query<UnreachedRow>('select * from unreached_address where network_id = $1 and household_id = $2 and reached_at is null order by id', [this.networkId, householdId]);
    return rows.map((row) => ({ id: row.id, incidentId: row.incident_id, householdId: row.household_id, channel: row.channel, address: row.address, messageId: row.message_id, refusedAtMs: row.refused_at.getTime(), reachedAtMs: msOrNull(row.reached_at) }));
  }

  async markReached(id: string, atMs: number): Promise<void> {
    await this.client.query('update unreached_address set reached_at = $3 where network_id = $1 and id = $2 and reached_at is null', [this.networkId, id, at(atMs)]);
  }
}
