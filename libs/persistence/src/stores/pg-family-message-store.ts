import type { FamilyMessageRecord, FamilyMessageStore, MessageChannel, MessageFailure, MessageState, MessageTemplate } from '#application';
import type { Client } from '../pool.js';
import { at, msOrNull } from './row.js';

interface MessageRow {
  id: string;
  incident_id: string;
  household_id: string;
  template: MessageTemplate;
  subject_id: string;
  state: MessageState;
  tries: number;
  queued_at: Date;
  next_at: Date;
  attempt_at: Date | null;
  ended_at: Date | null;
  channel: MessageChannel | null;
  language: 'en' | 'es' | null;
  recipient: Buffer | null;
  link_id: string | null;
  failure: MessageFailure | null;
  automatic: boolean;
}

function toRecord(row: MessageRow): FamilyMessageRecord {
  return {
    id: row.id, incidentId: row.incident_id, householdId: row.household_id, template: row.template, subjectId: row.subject_id, state: row.state, tries: row.tries,
    queuedAtMs: row.queued_at.getTime(), nextAtMs: row.next_at.getTime(), attemptAtMs: msOrNull(row.attempt_at), endedAtMs: msOrNull(row.ended_at),
    channel: row.channel, language: row.language, recipient: row.recipient, linkId: row.link_id, failure: row.failure, automatic: row.automatic,
  };
}

export class PgFamilyMessageStore implements FamilyMessageStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async insert(message: FamilyMessageRecord): Promise<boolean> {
    const { rowCount } = await this.client.query({
      name: 'family_message_insert',
      text: `insert into family_message (network_id, incident_id, id, household_id, template, subject_id, state, queued_at, next_at, automatic) values ($1, $2, $3, $4, $5, $6, 'waiting', $7, $8, $9)
             on conflict (network_id, household_id, template, subject_id) do nothing`,
      values: [this.networkId, message.incidentId, message.id, message.householdId, message.template, message.subjectId, at(message.queuedAtMs), at(message.nextAtMs), message.automatic],
    });
    return rowCount === 1;
  }

  async find(messageId: string): Promise<FamilyMessageRecord | null> {
    const { rows } = await this.client.query<MessageRow>('select * from family_message where network_id = $1 and id = $2', [this.networkId, messageId]);
    return rows[0] ? toRecord(rows[0]) : null;
  }

  async lock(messageId: string): Promise<FamilyMessageRecord | null> {
    const { rows } = await this.client.query<MessageRow>({ name: 'family_message_lock', text: 'select * from family_message where network_id = $1 and id = $2 for no key update', values: [this.networkId, messageId] });
    return rows[0] ? toRecord(rows[0]) : null;
  }

  async ofHousehold(householdId: string, limit: number): Promise<FamilyMessageRecord[]> {
    const { rows } = await this.client.query<MessageRow>('select * from family_message where network_id = $1 and household_id = $2 order by id desc limit $3', [this.networkId, householdId, limit]);
    return rows.map(toRecord);
  }

  async attemptsSince(householdId: string, sinceMs: number): Promise<number> {
    await this.client.query({ name: 'family_message_turn', text: `select pg_advisory_xact_lock(hashtextextended('family_message' || $1 || $2, 0))`, values: [this.networkId, householdId] });
    const { rows } = await this.client.query<{ count: number }>({
      name: 'family_message_attempts',
      text: `select count(*)::int as count from family_message where network_id = $1 and household_id = $2 and state in ('sending', 'sent', 'unclear') and attempt_at >= $3`,
      values: [this.networkId, householdId, at(sinceMs)],
    });
    return rows[0]?.count ?? 0;
  }

  async save(message: FamilyMessageRecord): Promise<void> {
    await this.client.query({
      name: 'family_message_save',
      text: `update family_message set state = $3, tries = $4, next_at = $5, attempt_at = $6, ended_at = $7, channel = $8, language = $9, recipient = $10, link_id = $11, failure = $12 where network_id = $1 and id = $2`,
      values: [
        this.networkId, message.id, message.state, message.tries, at(message.nextAtMs), at(message.attemptAtMs), at(message.endedAtMs), message.channel, message.language, message.recipient,
        message.linkId, message.failure,
      ],
    });
  }
}
