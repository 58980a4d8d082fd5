import type { UnclaimedDecision, UnclaimedVoteRecord, UncollectedRecord, UncollectedStore } from '#application';
import { TERMINAL_STAGES } from '#custody';
import type { Client } from '../pool.js';
import { at, msOrNull } from './row.js';

interface UncollectedRow {
  id: string;
  incident_id: string;
  household_id: string;
  item_id: string | null;
  opened_at: Date;
  opened_by: string;
  first_reminder_at: Date;
  second_reminder_at: Date;
  decide_at: Date;
  decider_id: string;
  reminders: number;
  reminded_at: Date | null;
  state: UncollectedRecord['state'];
  decision: UncollectedRecord['decision'];
  reason: Uint8Array | null;
  ended_at: Date | null;
  ended_by: string | null;
  version: number;
}

interface VoteRow { id: string; incident_id: string; uncollected_id: string; item_id: string; person_id: string; principal_id: string; decision: UnclaimedDecision; reason: Uint8Array | null; decided_at: Date }

function toRecord(row: UncollectedRow): UncollectedRecord {
  return {
    id: row.id, incidentId: row.incident_id, householdId: row.household_id, itemId: row.item_id, openedAtMs: row.opened_at.getTime(), openedBy: row.opened_by,
    firstReminderAtMs: row.first_reminder_at.getTime(), secondReminderAtMs: row.second_reminder_at.getTime(), decideAtMs: row.decide_at.getTime(), deciderId: row.decider_id,
    reminders: row.reminders, remindedAtMs: msOrNull(row.reminded_at), state: row.state, decision: row.decision, reasonSealed: row.reason, endedAtMs: msOrNull(row.ended_at), endedBy: row.ended_by, version: row.version,
  };
}

export class PgUncollectedStore implements UncollectedStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async insert(path: UncollectedRecord): Promise<void> {
    await this.client.query(
      `insert into uncollected (network_id, incident_id, id, household_id, opened_at, opened_by, first_reminder_at, second_reminder_at, decide_at, decider_id, state, item_id)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, 'open', $11)`,
      [this.networkId, path.incidentId, path.id, path.householdId, at(path.openedAtMs), path.openedBy, at(path.firstReminderAtMs), at(path.secondReminderAtMs), at(path.decideAtMs), path.deciderId, path.itemId],
    );
  }

  async lock(id: string): Promise<UncollectedRecord | null> {
    const { rows } = await this.client.query<UncollectedRow>('select * from uncollected where network_id = $1 and id = $2 for update', [this.networkId, id]);
    return rows[0] ? toRecord(rows[0]) : null;
  }

  async find(id: string): Promise<UncollectedRecord | null> {
    const { rows } = await this.client.query<UncollectedRow>('select * from uncollected where network_id = $1 and id = $2', [this.networkId, id]);
    return rows[0] ? toRecord(rows[0]) : null;
  }

  async ofFound(itemId: string): Promise<UncollectedRecord[]> {
    const { rows } = await this.client.query<UncollectedRow>('select * from uncollected where network_id = $1 and item_id = $2 order by id', [this.networkId, itemId]);
    return rows.map(toRecord);
  }

  async votes(uncollectedId: string): Promise<UnclaimedVoteRecord[]> {
    const { rows } = await this.client.query<VoteRow>('select * from unclaimed_decision where network_id = $1 and uncollected_id = $2 order by id', [this.networkId, uncollectedId]);
    return rows.map((row) => ({
      id: row.id, incidentId: row.incident_id, uncollectedId: row.uncollected_id, itemId: row.item_id, personId: row.person_id, principalId: row.principal_id, decision: row.decision, reasonSealed: row.reason, decidedAtMs: row.decided_at.getTime(),
    }));
  }

  async insertVote(vote: UnclaimedVoteRecord): Promise<void> {
    await this.client.query(
      'insert into unclaimed_decision (network_id, incident_id, id, uncollected_id, item_id, person_id, principal_id, decision, reason, decided_at) values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)',
      [this.networkId, vote.incidentId, vote.id, vote.uncollectedId, vote.itemId, vote.personId, vote.principalId, vote.decision, vote.reasonSealed, at(vote.decidedAtMs)],
    );
  }

  async openOf(householdId: string): Promise<UncollectedRecord | null> {
    const { rows } = await this.client.query<UncollectedRow>("select * from uncollected where network_id = $1 and household_id = $2 and state = 'open' and item_id is null", [this.networkId, householdId]);
    return rows[0] ? toRecord(rows[0]) : null;
  }

  async page(incidentId: string, limit: number, after: { ended: boolean; id: string } | null): Promise<UncollectedRecord[]> {
    const { rows } = await this.client.query<UncollectedRow>(
      `select * from uncollected where network_id = $1 and incident_id = $2 and ($4::boolean is null or (state <> 'open', id) > ($4, $5::uuid)) order by (state <> 'open'), id limit $3`,
      [this.networkId, incidentId, limit, after?.ended ?? null, after?.id ?? null],
    );
    return rows.map(toRecord);
  }

  async held(householdId: string): Promise<number> {
    const { rows } = await this.client.query<{ held: number }>('select count(*)::int as held from item where network_id = $1 and household_id = $2 and stage <> all($3::text[])', [this.networkId, householdId, TERMINAL_STAGES]);
    return rows[0]?.held ?? 0;
  }

  async save(path: UncollectedRecord): Promise<void> {
    await this.client.query(
      `update uncollected set reminders = $3, reminded_at = $4, state = $5, decision = $6, reason = $7, ended_at = $8, ended_by = $9, version = version + 1 where network_id = $1 and id = $2`,
      [this.networkId, path.id, path.reminders, at(path.remindedAtMs), path.state, path.decision, path.reasonSealed, at(path.endedAtMs), path.endedBy],
    );
  }
}
