import type { AssignmentFilter, AssignmentRecord, CarryRow, DryingRow, PlanChangeKind, PersonalStore, PlanChanges, PlanInput, PlanRevisionRecord, PlanRunRecord, PlanStore, PlanSummary, ReferralRow, RevisionContent, RevisionView, UnplannedRecord, WorkRow } from '#application';
import { type CarrySqlRow, TO_CARRY_SQL, toCarryRow } from '../planning/carry-list-sql.js';
import { loadPlanInput } from '../planning/load-plan-input.js';
import { planChanges } from '../planning/plan-changes.js';
import { assignmentPage, unplannedPage } from '../planning/plan-pages.js';
import { IS_UNPLANNED_REFERRAL_SQL, type ReferralSqlRow, TO_REFER_SQL, toReferralRow } from '../planning/referral-list-sql.js';
import { oneRevision, publishRevision, revisionViews } from '../planning/revisions.js';
import { insertRevision } from '../planning/save-revision.js';
import { type DryingSqlRow, HANGING_SQL, TO_HANG_SQL, toDryingRow, toWorkRow, WORK_NEXT_SQL, WORK_NOW_SQL, type WorkSqlRow } from '../planning/work-list-sql.js';
import type { Client } from '../pool.js';
import { openFamilyWords } from './family-words.js';
import { toMessage, toMessageOrNull, valuesOf } from './message-columns.js';
import { at, msOrNull } from './row.js';

interface RunRow {
  id: string;
  incident_id: string;
  state: PlanRunRecord['state'];
  reason: string;
  reason_values: unknown;
  requested_at: Date;
  started_at: Date | null;
  finished_at: Date | null;
  revision_id: string | null;
  failure: string | null;
  failure_values: unknown;
  epoch: number | null;
  rounds_done: number | null;
  rounds_in_all: number | null;
}

function toRun(row: RunRow): PlanRunRecord {
  return {
    id: row.id, incidentId: row.incident_id, state: row.state, reason: toMessage(row.reason, row.reason_values), requestedAtMs: row.requested_at.getTime(),
    startedAtMs: msOrNull(row.started_at), finishedAtMs: msOrNull(row.finished_at), revisionId: row.revision_id, failure: toMessageOrNull(row.failure, row.failure_values), epoch: row.epoch,
    rounds: row.rounds_in_all === null ? null : { done: row.rounds_done ?? 0, inAll: row.rounds_in_all },
  };
}

export class PgPlanStore implements PlanStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
    private readonly personal: PersonalStore,
  ) {}

  async requestRun(run: PlanRunRecord): Promise<{ run: PlanRunRecord; created: boolean }> {
    const { rowCount } = await this.client.query(
      `insert into plan_run (network_id, incident_id, id, state, reason, reason_values, requested_at) values ($1, $2, $3, 'queued', $4, $5, $6)
       on conflict (network_id, incident_id) where state = 'queued' do nothing`,
      [this.networkId, run.incidentId, run.id, run.reason.text, valuesOf(run.reason), at(run.requestedAtMs)],
    );
    if (rowCount === 1) return { run, created: true };
    const { rows } = await this.client.query<RunRow>(`select * from plan_run where network_id = $1 and incident_id = $2 and state = 'queued'`, [this.networkId, run.incidentId]);
    // The waiting run may have begun between the two statements; then ours is needed after all.
    return rows[0] ? { run: toRun(rows[0]), created: false } : this.requestRun(run);
  }

  async findRun(runId: string): Promise<PlanRunRecord | null> {
    const { rows } = await this.client.query<RunRow>('select * from plan_run where network_id = $1 and id = $2', [this.networkId, runId]);
    return rows[0] ? toRun(rows[0]) : null;
  }

  async lockRun(runId: string): Promise<PlanRunRecord | null> {
    const { rows } = await this.client.query<RunRow>('select * from plan_run where network_id = $1 and id = $2 for update', [this.networkId, runId]);
    return rows[0] ? toRun(rows[0]) : null;
  }

  async openRun(incidentId: string): Promise<PlanRunRecord | null> {
    const { rows } = await this.client.query<RunRow>(
      `select * from plan_run where network_id = $1 and incident_id = $2 and state in ('queued', 'running') order by requested_at desc, id desc limit 1`, [this.networkId, incidentId]);
    return rows[0] ? toRun(rows[0]) : null;
  }

  async saveRun(runId: string, changed: Partial<Omit<PlanRunRecord, 'id' | 'incidentId'>>): Promise<void> {
    await this.client.query(
      `update plan_run set state = coalesce($3, state), started_at = coalesce($4, started_at), finished_at = coalesce($5, finished_at),
              revision_id = coalesce($6, revision_id), failure = coalesce($7, failure), failure_values = case when $7::text is null then failure_values else $9::jsonb end,
              epoch = coalesce($8, epoch), rounds_done = coalesce($10, rounds_done), rounds_in_all = coalesce($11, rounds_in_all)
       where network_id = $1 and id = $2`,
      [this.networkId, runId, changed.state ?? null, at(changed.startedAtMs ?? null), at(changed.finishedAtMs ?? null), changed.revisionId ?? null, changed.failure?.text ?? null, changed.epoch ?? null, valuesOf(changed.failure),
        changed.rounds?.done ?? null, changed.rounds?.inAll ?? null],
    );
  }

  async saveRounds(runId: string, epoch: number, roundsDone: number): Promise<void> {
    await this.client.query(`update plan_run set rounds_done = $4 where network_id = $1 and id = $2 and epoch = $3 and state = 'running'`, [this.networkId, runId, epoch, roundsDone]);
  }

  async reopenRun(runId: string): Promise<boolean> {
    const { rowCount } = await this.client.query(
      `update plan_run r set state = 'queued', started_at = null, finished_at = null, failure = null, failure_values = null
       where r.network_id = $1 and r.id = $2 and r.state = 'failed' and not exists (
         select from plan_run o where o.network_id = $1 and o.incident_id = r.incident_id
            and (o.state in ('queued', 'running') or (o.state = 'done' and o.requested_at > r.requested_at)))`,
      [this.networkId, runId],
    );
    return rowCount === 1;
  }

  async takeEpoch(incidentId: string): Promise<number> {
    const { rows } = await this.client.query<{ epoch: number }>(
      `insert into plan_epoch (network_id, incident_id, epoch) values ($1, $2, 1)
       on conflict (network_id, incident_id) do update set epoch = plan_epoch.epoch + 1 returning epoch`,
      [this.networkId, incidentId],
    );
    return rows[0]?.epoch ?? 0;
  }

  async storedEpoch(incidentId: string): Promise<number> {
    const { rows } = await this.client.query<{ stored_epoch: number }>('select stored_epoch from plan_epoch where network_id = $1 and incident_id = $2', [this.networkId, incidentId]);
    return rows[0]?.stored_epoch ?? 0;
  }

  async claimStoring(incidentId: string, epoch: number): Promise<boolean> {
    const { rowCount } = await this.client.query('update plan_epoch set stored_epoch = $3 where network_id = $1 and incident_id = $2 and stored_epoch < $3', [this.networkId, incidentId, epoch]);
    return rowCount === 1;
  }

  loadInput(incidentId: string): Promise<PlanInput | null> {
    return loadPlanInput(this.client, this.networkId, incidentId);
  }

  saveRevision(revision: Parameters<PlanStore['saveRevision']>[0], content: RevisionContent): Promise<number> {
    return insertRevision(this.client, this.networkId, revision, content);
  }

  async airInForce(incidentId: string): ReturnType<PlanStore['airInForce']> {
    const { rows } = await this.client.query<{ rooms: PlanSummary['rooms'] | null; outdoor: PlanSummary['outdoor'] }>({
      name: 'plan_air_in_force',
      text: `select summary -> 'rooms' as rooms, nullif(summary -> 'outdoor', 'null'::jsonb) as outdoor from plan_revision where network_id = $1 and incident_id = $2 order by number desc limit 1`,
      values: [this.networkId, incidentId],
    });
    return { rooms: rows[0]?.rooms ?? [], outdoor: rows[0]?.outdoor ?? null };
  }

  currentRevision(incidentId: string): Promise<PlanRevisionRecord | null> {
    return oneRevision(this.client, 'incident_id = $2 and published_at is not null order by number desc', [this.networkId, incidentId]);
  }

  newestRevision(incidentId: string): Promise<PlanRevisionRecord | null> {
    return oneRevision(this.client, 'incident_id = $2 order by number desc', [this.networkId, incidentId]);
  }

  revision(revisionId: string): Promise<PlanRevisionRecord | null> {
    return oneRevision(this.client, 'id = $2', [this.networkId, revisionId]);
  }

  revisionByNumber(incidentId: string, number: number): Promise<PlanRevisionRecord | null> {
    return oneRevision(this.client, 'incident_id = $2 and number = $3', [this.networkId, incidentId, number]);
  }

  revisionPage(incidentId: string, limit: number, before: number | null): Promise<RevisionView[]> {
    return revisionViews(this.client, 'v.incident_id = $2 and ($4::int is null or v.number < $4) order by v.number desc limit $3', [this.networkId, incidentId, limit, before]);
  }

  async revisionView(revisionId: string): Promise<RevisionView | null> {
    return (await revisionViews(this.client, 'v.id = $2', [this.networkId, revisionId]))[0] ?? null;
  }

  publish({ id, incidentId }: Pick<PlanRevisionRecord, 'id' | 'incidentId'>, by: string, nowMs: number): Promise<boolean> {
    return publishRevision(this.client, this.networkId, { id, incidentId, by, nowMs });
  }

  changes(ids: { beforeId: string | null; nowId: string }, kind: PlanChangeKind | null, limit: number, after: { weight: number; itemId: string } | null): Promise<PlanChanges> {
    return planChanges(this.client, this.networkId, ids, kind, limit, after);
  }

  assignments(revisionId: string, filter: AssignmentFilter, limit: number, after: { startsAtMs: number; itemId: string; position: number } | null): Promise<AssignmentRecord[]> {
    return assignmentPage(this.client, this.networkId, revisionId, filter, limit, after);
  }

  unplanned(revisionId: string, limit: number, after: { weight: number; itemId: string } | null): Promise<UnplannedRecord[]> {
    return unplannedPage(this.client, this.networkId, revisionId, limit, after);
  }

  async station(stationId: string): Promise<{ id: string; incidentId: string; siteId: string; code: string; name: string } | null> {
    const { rows } = await this.client.query<{ id: string; incident_id: string; site_id: string; code: string; name: string }>(
      'select id, incident_id, site_id, code, name from station where network_id = $1 and id = $2', [this.networkId, stationId]);
    const [row] = rows;
    return row ? { id: row.id, incidentId: row.incident_id, siteId: row.site_id, code: row.code, name: row.name } : null;
  }

  workNext(stationId: string, revisionId: string, limit: number): Promise<WorkRow[]> {
    return this.work('work_next', WORK_NEXT_SQL, [this.networkId, revisionId, stationId, limit]);
  }

  workNow(stationId: string, limit: number): Promise<WorkRow[]> {
    return this.work('work_now', WORK_NOW_SQL, [this.networkId, stationId, limit]);
  }

  toHang(siteId: string, revisionId: string, limit: number): Promise<WorkRow[]> {
    return this.work('to_hang', TO_HANG_SQL, [this.networkId, revisionId, siteId, limit]);
  }

  async toRefer(revisionId: string, specialistId: string | null, limit: number): Promise<ReferralRow[]> {
    const { rows } = await this.client.query<ReferralSqlRow>({ name: 'to_refer', text: TO_REFER_SQL, values: [this.networkId, revisionId, specialistId, limit] });
    return rows.map(toReferralRow);
  }

  async toCarry(revisionId: string, limit: number): Promise<CarryRow[]> {
    const { rows } = await this.client.query<CarrySqlRow>({ name: 'to_carry', text: TO_CARRY_SQL, values: [this.networkId, revisionId, limit] });
    return rows.map(toCarryRow);
  }

  async isUnplannedReferral(itemId: string, specialistId: string): Promise<boolean> {
    const { rows } = await this.client.query<{ unplanned: boolean }>({ name: 'is_unplanned_referral', text: IS_UNPLANNED_REFERRAL_SQL, values: [this.networkId, itemId, specialistId] });
    return rows[0]?.unplanned ?? false;
  }

  async hanging(siteId: string): Promise<DryingRow[]> {
    const { rows } = await this.client.query<DryingSqlRow>({ name: 'hanging', text: HANGING_SQL, values: [this.networkId, siteId] });
    return rows.map(toDryingRow);
  }

  private async work(name: string, text: string, values: unknown[]): Promise<WorkRow[]> {
    const { rows } = await this.client.query<WorkSqlRow>({ name, text, values });
    const words = await openFamilyWords(this.personal, rows);
    return rows.map((row, index) => toWorkRow(row, words[index] ?? ''));
  }
}
