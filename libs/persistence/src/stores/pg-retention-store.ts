import { HOUSEHOLD_KINDS, type HouseholdFacts, type HouseholdKind, INCIDENT_KINDS, type RetentionIncidentFacts, type IncidentKind, type RetentionKind, type RetentionRunRecord, type RetentionStore, type RetentionValues } from '#application';
import { blankAnswersNaming, blankHandBackAnswers, blankSealedAnswers } from '../personal/answers.js';
import { countsSql, INCIDENT_PARTS, KIND_PARTS } from '../personal/retention-kinds.js';
import type { Client } from '../pool.js';
import { at, msOrNull } from './row.js';

interface RunRow {
  id: string; incident_id: string; state: RetentionRunRecord['state']; person_id: string | null; principal_id: string; as_of: Date; policy_revision: number; policy: RetentionValues; after_household_id: string | null;
  looked_at: number; touched: number; erased: number; gone: Partial<Record<RetentionKind, number>>; ended_at: Date | null;
}

function toRun(row: RunRow): RetentionRunRecord {
  return {
    id: row.id, incidentId: row.incident_id, state: row.state, personId: row.person_id, principalId: row.principal_id, asOfMs: row.as_of.getTime(), policyRevision: row.policy_revision, policy: row.policy,
    afterHouseholdId: row.after_household_id, lookedAt: row.looked_at, touched: row.touched, erased: row.erased, gone: row.gone, endedAtMs: msOrNull(row.ended_at),
  };
}

const OF_INCIDENT = 'select id from household where network_id = $1 and incident_id = $2 and not unknown_owner and ($4::uuid is null or id > $4) order by id limit $3';
const OF_ONE = 'select id from household where network_id = $1 and id = $2';

export class PgRetentionStore implements RetentionStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async incidents(): Promise<string[]> {
    const { rows } = await this.client.query<{ id: string }>('select id from incident where network_id = $1 order by id', [this.networkId]);
    return rows.map(({ id }) => id);
  }

  async ofIncident(incidentId: string): Promise<RetentionIncidentFacts | null> {
    const there = INCIDENT_KINDS.map((kind) => `(${INCIDENT_PARTS[kind].map((part) => `(select count(*) from ${part.table} where network_id = $1 and incident_id = $2 and ${part.there})`).join(' + ')})::int as "${kind}"`).join(', ');
    const { rows } = await this.client.query<Record<IncidentKind, number> & { closed_at: Date | null; imports: number; on_hold: number; held: number }>(
      `select closed_at, (select count(*)::int from intake_import where network_id = $1 and incident_id = $2 and state in ('queued', 'running')) as imports,
         (select count(*)::int from household_hold where network_id = $1 and incident_id = $2 and lifted_at is null) as on_hold,
         (select count(*)::int from item where network_id = $1 and incident_id = $2 and stage not in ('released', 'handed-back', 'merged')) as held, ${there}
       from incident where network_id = $1 and id = $2`,
      [this.networkId, incidentId],
    );
    const [row] = rows;
    if (!row) return null;
    return { closedAtMs: msOrNull(row.closed_at), importsUnderWay: row.imports, onHold: row.on_hold, held: row.held, there: { 'refused-rows': row['refused-rows'], 'staff-notes': row['staff-notes'] } };
  }

  ofHouseholds(incidentId: string, limit: number, afterId: string | null): Promise<HouseholdFacts[]> {
    return this.facts(OF_INCIDENT, [incidentId, limit, afterId]);
  }

  async ofHousehold(householdId: string): Promise<HouseholdFacts | null> {
    return (await this.facts(OF_ONE, [householdId]))[0] ?? null;
  }

  private async facts(households: string, values: unknown[]): Promise<HouseholdFacts[]> {
    const { rows } = await this.client.query<{ id: string; name: string | null; n: number | null }>(countsSql(households), [this.networkId, ...values]);
    const counts = new Map<string, Map<string, number>>();
    for (const { id, name, n } of rows) {
      const own = counts.get(id) ?? new Map<string, number>();
      if (name !== null) own.set(name, (own.get(name) ?? 0) + (n ?? 0));
      counts.set(id, own);
    }
    const last = await this.lastEvents([...counts.keys()]);
    return [...counts].map(([id, own]) => toFacts(id, (name) => own.get(name) ?? 0, last.get(id) ?? null));
  }

  private async lastEvents(householdIds: readonly string[]): Promise<Map<string, number>> {
    const { rows } = await this.client.query<{ household_id: string; last: Date }>(
      'select i.household_id, max(e.recorded_at) as last from item i join custody_event e on e.network_id = i.network_id and e.item_id = i.id where i.network_id = $1 and i.household_id = any($2::uuid[]) group by 1',
      [this.networkId, householdIds],
    );
    return new Map(rows.map((row) => [row.household_id, row.last.getTime()]));
  }

  async blank(householdId: string, kind: Exclude<HouseholdKind, 'photographs' | 'voices' | 'records'>): Promise<void> {
    for (const { table, whose, there, set } of KIND_PARTS[kind]) await this.client.query(`update ${table} set ${set} where network_id = $1 and ${whose} = $2 and ${there}`, [this.networkId, householdId]);
    if (kind === 'contacts') await this.client.query('delete from household_word where network_id = $1 and household_id = $2', [this.networkId, householdId]);
    // The blind words of what the family said begin with `~`, as no other word does.
    if (kind === 'words') await this.client.query(`delete from item_word w using item i where i.network_id = $1 and i.household_id = $2 and w.network_id = i.network_id and w.incident_id = i.incident_id and w.item_id = i.id and left(w.word, 1) = '~'`, [this.networkId, householdId]);
  }

  async blankAnswers(householdId: string): Promise<void> {
    await blankSealedAnswers(this.client, this.networkId, householdId);
    await blankHandBackAnswers(this.client, this.networkId, householdId);
  }

  async blankOfIncident(incidentId: string, kind: IncidentKind): Promise<void> {
    const ids: string[] = [];
    for (const { table, there, set } of INCIDENT_PARTS[kind]) {
      const { rows } = await this.client.query<{ id: string }>(`update ${table} set ${set} where network_id = $1 and incident_id = $2 and ${there} returning ${table === 'intake_import_row' ? 'import_id' : 'id'} as id`, [this.networkId, incidentId]);
      ids.push(...rows.map(({ id }) => id));
    }
    await blankAnswersNaming(this.client, this.networkId, [...new Set(ids)]);
  }

  async insertRun(run: RetentionRunRecord): Promise<void> {
    await this.client.query(
      `insert into retention_run (network_id, incident_id, id, state, person_id, principal_id, as_of, policy_revision, policy) values ($1, $2, $3, 'running', $4, $5, $6, $7, $8)`,
      [this.networkId, run.incidentId, run.id, run.personId, run.principalId, at(run.asOfMs), run.policyRevision, JSON.stringify(run.policy)],
    );
  }

  async findRun(runId: string): Promise<RetentionRunRecord | null> {
    return this.one('', runId);
  }

  async lockRun(runId: string): Promise<RetentionRunRecord | null> {
    return this.one('for update', runId);
  }

  private async one(lock: '' | 'for update', runId: string): Promise<RetentionRunRecord | null> {
    const { rows } = await this.client.query<RunRow>(`select * from retention_run where network_id = $1 and id = $2 ${lock}`, [this.networkId, runId]);
    return rows[0] ? toRun(rows[0]) : null;
  }

  async saveRun(run: RetentionRunRecord): Promise<void> {
    await this.client.query(
      'update retention_run set state = $3, after_household_id = $4, looked_at = $5, touched = $6, erased = $7, gone = $8, ended_at = $9 where network_id = $1 and id = $2',
      [this.networkId, run.id, run.state, run.afterHouseholdId, run.lookedAt, run.touched, run.erased, JSON.stringify(run.gone), at(run.endedAtMs)],
    );
  }

  async runs(incidentId: string, limit: number, beforeId: string | null): Promise<RetentionRunRecord[]> {
    const { rows } = await this.client.query<RunRow>('select * from retention_run where network_id = $1 and incident_id = $2 and ($4::uuid is null or id < $4) order by id desc limit $3', [this.networkId, incidentId, limit, beforeId]);
    return rows.map(toRun);
  }
}

function toFacts(householdId: string, n: (name: string) => number, lastEventAtMs: number | null): HouseholdFacts {
  const there = Object.fromEntries(HOUSEHOLD_KINDS.map((kind) => [kind, kind === 'records' ? 1 - n('erased') : n(kind)])) as Record<HouseholdKind, number>;
  return { householdId, items: n('items'), held: n('held'), lastEventAtMs, onHold: n('on-hold') > 0, openQuestions: n('questions'), openMatters: n('matters'), openClaims: n('claims'), there };
}
