import type { ReferralRecord, StepResultRecord, StepStore, UnsuitedPerson, UnsuitedStepRecord, UnsuitedStepView, WorkedSpan } from '#application';
import type { Client } from '../pool.js';
import { at, msOrNull } from './row.js';

interface StepRow {
  id: string;
  incident_id: string;
  item_id: string;
  step: StepResultRecord['step'];
  outcome: StepResultRecord['outcome'];
  undoes: StepResultRecord['undoes'];
  station_id: string | null;
  person_id: string | null;
  note: string;
  started_at: Date | null;
  finished_at: Date;
  recorded_at: Date;
  with_person_ids: string[];
  lifting_aid: boolean;
  rest_minutes: number;
}

interface UnsuitedRow {
  id: string;
  incident_id: string;
  step_result_id: string | null;
  item_id: string;
  people: UnsuitedPerson[];
  decided_by: string | null;
  reason: string | null;
  recorded_at: Date;
  step: UnsuitedStepView['step'];
  outcome: UnsuitedStepView['outcome'];
}

export class PgStepStore implements StepStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async insert(result: StepResultRecord): Promise<void> {
    await this.client.query({
      name: 'step_result_insert',
      text: `insert into step_result (network_id, incident_id, id, item_id, step, outcome, station_id, person_id, note, started_at, finished_at, recorded_at, with_person_ids, lifting_aid, undoes, rest_minutes)
             values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16)`,
      values: [this.networkId, result.incidentId, result.id, result.itemId, result.step, result.outcome, result.stationId, result.personId, result.note, at(result.startedAtMs), at(result.finishedAtMs), at(result.recordedAtMs), result.withPersonIds ?? [], result.liftingAid ?? false, result.undoes, result.restMinutes ?? 0],
    });
  }

  async workedSpans(incidentId: string, personIds: readonly string[], fromMs: number, toMs: number): Promise<WorkedSpan[]> {
    const { rows } = await this.client.query<{ person_id: string; started_at: Date; finished_at: Date }>({
      name: 'step_worked_spans',
      text: `select p.id as person_id, s.started_at, s.finished_at - s.rest_minutes * interval '1 minute' as finished_at from step_result s cross join unnest($3::uuid[]) as p(id)
             where s.network_id = $1 and s.incident_id = $2 and s.finished_at > $4 and s.started_at < $5 and (s.person_id = p.id or p.id = any(s.with_person_ids))`,
      values: [this.networkId, incidentId, personIds, at(fromMs), at(toMs)],
    });
    return rows.map((row) => ({ personId: row.person_id, fromMs: row.started_at.getTime(), toMs: row.finished_at.getTime() }));
  }

  async insertUnsuited(record: UnsuitedStepRecord): Promise<void> {
    await this.client.query(
      'insert into unsuited_step (network_id, incident_id, id, step_result_id, item_id, step, people, decided_by, reason, recorded_at) values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)',
      [this.networkId, record.incidentId, record.id, record.stepResultId, record.itemId, record.step, JSON.stringify(record.people), record.override?.personId ?? null, record.override?.reason ?? null, at(record.recordedAtMs)],
    );
  }

  async unsuitedPage(incidentId: string, limit: number, afterId: string | null): Promise<UnsuitedStepView[]> {
    const { rows } = await this.client.query<UnsuitedRow>(
      `select u.*, s.outcome from unsuited_step u left join step_result s on s.network_id = u.network_id and s.id = u.step_result_id
       where u.network_id = $1 and u.incident_id = $2 and ($4::uuid is null or u.id > $4) order by u.id limit $3`,
      [this.networkId, incidentId, limit, afterId],
    );
    return rows.map((row) => ({
      id: row.id, incidentId: row.incident_id, stepResultId: row.step_result_id, itemId: row.item_id, step: row.step, outcome: row.outcome, people: row.people,
      override: row.decided_by === null || row.reason === null ? null : { personId: row.decided_by, reason: row.reason }, recordedAtMs: row.recorded_at.getTime(),
    }));
  }

  async ofItem(itemId: string): Promise<StepResultRecord[]> {
    const { rows } = await this.client.query<StepRow>({ name: 'step_results_of_item', text: 'select * from step_result where network_id = $1 and item_id = $2 order by recorded_at, id', values: [this.networkId, itemId] });
    return rows.map((row) => ({
      id: row.id, incidentId: row.incident_id, itemId: row.item_id, step: row.step, outcome: row.outcome, undoes: row.undoes, stationId: row.station_id, personId: row.person_id, note: row.note,
      startedAtMs: msOrNull(row.started_at), finishedAtMs: row.finished_at.getTime(), recordedAtMs: row.recorded_at.getTime(),
      withPersonIds: row.with_person_ids, liftingAid: row.lifting_aid, restMinutes: row.rest_minutes,
    }));
  }

  async insertReferral(referral: ReferralRecord): Promise<void> {
    await this.client.query(
      `insert into referral (network_id, incident_id, id, item_id, specialist_id, consent_id, reason, sent_at, returned_at, quote_id, decided_by, payer) values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12)`,
      [this.networkId, referral.incidentId, referral.id, referral.itemId, referral.specialistId, referral.consentId, referral.reason, at(referral.sentAtMs), at(referral.returnedAtMs), referral.quoteId, referral.decidedBy, referral.payer],
    );
  }

  async openReferral(itemId: string): Promise<ReferralRecord | null> {
    const { rows } = await this.client.query<{ id: string; incident_id: string; specialist_id: string; consent_id: string | null; reason: string; sent_at: Date; quote_id: string | null; decided_by: string | null; payer: string | null }>(
      'select * from referral where network_id = $1 and item_id = $2 and returned_at is null order by sent_at desc limit 1',
      [this.networkId, itemId],
    );
    const row = rows[0];
    return row ? { id: row.id, incidentId: row.incident_id, itemId, specialistId: row.specialist_id, consentId: row.consent_id, reason: row.reason, sentAtMs: row.sent_at.getTime(), returnedAtMs: null, quoteId: row.quote_id, decidedBy: row.decided_by, payer: row.payer } : null;
  }

  async closeReferral(referralId: string, returnedAtMs: number): Promise<void> {
    await this.client.query('update referral set returned_at = $3 where network_id = $1 and id = $2', [this.networkId, referralId, at(returnedAtMs)]);
  }
}
