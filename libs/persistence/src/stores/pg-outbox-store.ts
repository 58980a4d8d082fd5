import type { OutboxKind, OutboxMessage, OutboxStore } from '#application';
import type { Client } from '../pool.js';

export class PgOutboxStore implements OutboxStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async append(message: OutboxMessage): Promise<void> {
    await this.client.query({
      name: 'outbox_append',
      text: 'insert into outbox (network_id, id, incident_id, kind, subject_id, traceparent) values ($1, $2, $3, $4, $5, $6)',
      values: [this.networkId, message.id, message.incidentId, message.kind, message.subjectId, message.traceparent],
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
}
