import type { AheadKind, OutboxKind, OutboxMessage, OutboxStore } from '#application';
import type { Client } from '../pool.js';

export class PgOutboxStore implements OutboxStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  /** A delay stands where the lease stands, as it does for a row that is tried again: the relay rings when it has ended. */
  async append(message: OutboxMessage, delayMs = 0): Promise<void> {
    await this.client.query({
      name: 'outbox_append',
      text: `insert into outbox (network_id, id, incident_id, kind, subject_id, traceparent, leased_until)
             values ($1, $2, $3, $4, $5, $6, case when $7::int > 0 then clock_timestamp() + $7 * interval '1 ms' end)`,
      values: [this.networkId, message.id, message.incidentId, message.kind, message.subjectId, message.traceparent, delayMs],
    });
  }

  async appendUnlessWaiting(message: OutboxMessage, delayMs = 0): Promise<void> {
    // The lock keeps the worker from beginning that row before we commit; one that is just beginning is waited for and then counts no more.
    const { rowCount } = await this.client.query({
      name: 'outbox_waiting',
      text: `select 1 from outbox where network_id = $1 and subject_id = $2 and kind = $3 and done_at is null and dead_at is null and tries = 0 and (not_before is null or not_before <= clock_timestamp()) limit 1 for share`,
      values: [this.networkId, message.subjectId, message.kind],
    });
    if (rowCount === 0) await this.append(message, delayMs);
  }

  async appendAhead(message: OutboxMessage & { kind: AheadKind }, aheadMs: number): Promise<void> {
    await this.client.query({
      name: 'outbox_append_ahead',
      text: `insert into outbox (network_id, id, incident_id, kind, subject_id, traceparent, not_before)
             select $1, $2, $3, $4::text, $5, $6, clock_timestamp() + $7 * interval '1 ms'
             where $4::text <> 'family.look' or not exists (
               select from outbox where network_id = $1 and kind = 'family.look' and subject_id = $5 and done_at is null and dead_at is null and not_before between clock_timestamp() and clock_timestamp() + $7 * interval '1 ms')
             on conflict do nothing`,
      values: [this.networkId, message.id, message.incidentId, message.kind, message.subjectId, message.traceparent, aheadMs],
    });
  }

  async appendRootLook(message: OutboxMessage, besideId: string, aheadMs: number): Promise<void> {
    await this.client.query({
      name: 'outbox_append_root_look',
      text: `insert into outbox (network_id, id, incident_id, kind, subject_id, traceparent, not_before)
             select $1, $2, $3, 'custody.root', $4, $5, clock_timestamp() + $7 * interval '1 ms'
             where not exists (select from outbox where network_id = $1 and kind = 'custody.root' and id <> $6 and done_at is null and dead_at is null)`,
      values: [this.networkId, message.id, message.incidentId, message.subjectId, message.traceparent, besideId, aheadMs],
    });
  }

  async appendRetentionLook(message: OutboxMessage & { kind: 'retention.look' }, aheadMs: number): Promise<void> {
    await this.client.query({
      name: 'outbox_append_retention_look',
      text: `insert into outbox (network_id, id, incident_id, kind, subject_id, traceparent, not_before)
             values ($1, $2, $3, 'retention.look', $4, $5, clock_timestamp() + $6 * interval '1 ms')
             on conflict (network_id, subject_id) where kind = 'retention.look' and done_at is null and dead_at is null and tries = 0
             do update set not_before = excluded.not_before`,
      values: [this.networkId, message.id, message.incidentId, message.subjectId, message.traceparent, aheadMs],
    });
  }

  async hasten(subjectId: string, delayMs: number): Promise<void> {
    await this.client.query({
      name: 'outbox_hasten',
      text: `update outbox set leased_until = clock_timestamp() + $3 * interval '1 ms'
             where network_id = $1 and subject_id = $2 and done_at is null and dead_at is null and tries = 0 and leased_until > clock_timestamp() + $3 * interval '1 ms'`,
      values: [this.networkId, subjectId, delayMs],
    });
  }

  async find(id: string): Promise<(OutboxMessage & { doneAt: Date | null }) | null> {
    const { rows } = await this.client.query<{ id: string; incident_id: string; kind: OutboxKind; subject_id: string; traceparent: string; done_at: Date | null }>(
      'select id, incident_id, kind, subject_id, traceparent, done_at from outbox where network_id = $1 and id = $2',
      [this.networkId, id],
    );
    const row = rows[0];
    return row ? { id: row.id, incidentId: row.incident_id, kind: row.kind, subjectId: row.subject_id, traceparent: row.traceparent, doneAt: row.done_at } : null;
  }

  async markDone(id: string): Promise<boolean> {
    const { rowCount } = await this.client.query('update outbox set done_at = clock_timestamp(), leased_until = null where network_id = $1 and id = $2 and done_at is null', [this.networkId, id]);
    return rowCount === 1;
  }

  async revive(id: string): Promise<'revived' | 'comes-anyway' | null> {
    const { rows } = await this.client.query<{ comes: boolean }>(REVIVE, [this.networkId, id]);
    if (rows[0] === undefined) return null;
    return rows[0].comes ? 'comes-anyway' : 'revived';
  }
}

/** Of work that writes its own successor one row lies ahead at most; a dead one beside it is closed instead, as the other does all of its work. */
const REVIVE = `
  update outbox o set dead_at = null, dead_reason = null, tries = 0, leased_until = null,
    done_at = case when o.kind in ('climate.tick', 'sight.look', 'retention.look') and exists (
      select from outbox n where n.network_id = o.network_id and n.kind = o.kind and n.subject_id = o.subject_id and n.id <> o.id and n.done_at is null and n.dead_at is null and n.tries = 0
    ) then clock_timestamp() end
  where o.network_id = $1 and o.id = $2 and o.dead_at is not null and o.done_at is null
  returning o.done_at is not null as comes`;
