import type { DeadRow, LeaseLimits, OutboxKind, OutboxMessage, OutboxRelay, OutboxStanding, OutboxTicket } from '#application';
import type { Pool } from '../pool.js';
import { DEAD, EXHAUSTED, FORGET, LEASE, PRUNE, STANDING, TAKE_TURN } from './relay-sql.js';

/** Two relays that count at the same moment would both see room for a whole share: one at a time. */
const LEASE_LOCK = 727_410;

interface TicketRow {
  network_id: string;
  outbox_id: string;
  tries: number;
}

interface MessageRow extends TicketRow {
  incident_id: string;
  kind: OutboxKind;
  subject_id: string;
  traceparent: string;
}

interface DeadSqlRow extends MessageRow {
  dead_at: Date;
  dead_reason: string | null;
}

function toTicket(row: TicketRow): OutboxTicket {
  return { networkId: row.network_id, outboxId: row.outbox_id, tries: row.tries };
}

function toMessage(row: MessageRow): OutboxMessage {
  return { id: row.outbox_id, incidentId: row.incident_id, kind: row.kind, subjectId: row.subject_id, traceparent: row.traceparent };
}

/**
 * The relay's statements, on a pool of the login `wl_relay`: it sees the outbox of every network, how old the answers to commands are, and nothing else.
 * All leases are reckoned by the clock of the database, so that machines need not agree on the time.
 */
export class PgOutboxRelay implements OutboxRelay {
  constructor(private readonly pool: Pool) {}

  async lease(limits: LeaseLimits): Promise<OutboxTicket[]> {
    const client = await this.pool.connect();
    let broken: Error | undefined;
    try {
      await client.query('begin');
      const { rows: turn } = await client.query<{ mine: boolean }>(TAKE_TURN, [LEASE_LOCK]);
      const leased = turn[0]?.mine ? await client.query<TicketRow>({ name: 'relay_lease', text: LEASE, values: [limits.perNetwork, limits.maxTries, limits.leaseMs] }) : null;
      await client.query('commit');
      return leased?.rows.map(toTicket) ?? [];
    } catch (error) {
      await client.query('rollback').catch((failure: Error) => {
        broken = failure;
      });
      throw error;
    } finally {
      client.release(broken);
    }
  }

  async begin(ticket: OutboxTicket, leaseMs: number): Promise<boolean> {
    const { rowCount } = await this.pool.query({
      name: 'relay_begin',
      text: `update outbox set tries = tries + 1, leased_until = clock_timestamp() + $4 * interval '1 ms'
             where network_id = $1 and id = $2 and tries = $3 and done_at is null and dead_at is null`,
      values: [ticket.networkId, ticket.outboxId, ticket.tries, leaseMs],
    });
    return rowCount === 1;
  }

  async renew(ticket: OutboxTicket, leaseMs: number): Promise<boolean> {
    return (await this.postpone([ticket], leaseMs)) === 1;
  }

  async postpone(tickets: readonly OutboxTicket[], delayMs: number): Promise<number> {
    const { rowCount } = await this.pool.query({
      name: 'relay_postpone',
      text: `update outbox o set leased_until = clock_timestamp() + $4 * interval '1 ms'
             from unnest($1::uuid[], $2::uuid[], $3::int[]) as t (network_id, id, tries)
             where o.network_id = t.network_id and o.id = t.id and o.tries = t.tries and o.done_at is null and o.dead_at is null`,
      values: [tickets.map((t) => t.networkId), tickets.map((t) => t.outboxId), tickets.map((t) => t.tries), delayMs],
    });
    return rowCount ?? 0;
  }

  async exhausted(maxTries: number, limit: number): Promise<{ ticket: OutboxTicket; message: OutboxMessage }[]> {
    const { rows } = await this.pool.query<MessageRow>({ name: 'relay_exhausted', text: EXHAUSTED, values: [maxTries, limit] });
    return rows.map((row) => ({ ticket: toTicket(row), message: toMessage(row) }));
  }

  async bury(ticket: OutboxTicket, reason: string): Promise<boolean> {
    const { rowCount } = await this.pool.query({
      name: 'relay_bury',
      text: `update outbox set dead_at = clock_timestamp(), dead_reason = $4, leased_until = null
             where network_id = $1 and id = $2 and tries = $3 and done_at is null and dead_at is null`,
      values: [ticket.networkId, ticket.outboxId, ticket.tries, reason],
    });
    return rowCount === 1;
  }

  async prune(keepMs: number, limit: number): Promise<number> {
    const { rowCount } = await this.pool.query({ name: 'relay_prune', text: PRUNE, values: [keepMs, limit] });
    return rowCount ?? 0;
  }

  async forgetAnswers(keepMs: number, limit: number): Promise<number> {
    const { rowCount } = await this.pool.query({ name: 'relay_forget', text: FORGET, values: [keepMs, limit] });
    return rowCount ?? 0;
  }

  async standing(): Promise<OutboxStanding> {
    const { rows } = await this.pool.query<{ open: number; oldest_open_age_s: number | null; dead: number }>({ name: 'relay_standing', text: STANDING });
    const row = rows[0];
    return { open: row?.open ?? 0, oldestOpenAgeS: row?.oldest_open_age_s ?? null, dead: row?.dead ?? 0 };
  }

  async dead(limit: number, after: { networkId: string; outboxId: string } | null): Promise<DeadRow[]> {
    const { rows } = await this.pool.query<DeadSqlRow>({ name: 'relay_dead', text: DEAD, values: [limit, after?.networkId ?? null, after?.outboxId ?? null] });
    return rows.map((row) => ({ networkId: row.network_id, message: toMessage(row), tries: row.tries, deadAtMs: row.dead_at.getTime(), reason: row.dead_reason ?? '' }));
  }
}
