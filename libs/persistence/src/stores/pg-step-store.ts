import type { ReferralRecord, StepResultRecord, StepStore } from '#application';
import type { Client } from '../pool.js';
import { at, msOrNull } from './row.js';

interface StepRow {
  id: string;
  incident_id: string;
  item_id: string;
  step: StepResultRecord['step'];
  outcome: StepResultRecord['outcome'];
  station_id: string | null;
  person_id: string | null;
  note: string;
  started_at: Date | null;
  finished_at: Date;
  recorded_at: Date;
}

export class PgStepStore implements StepStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async insert(result: StepResultRecord): Promise<void> {
    await this.client.query({
      name: 'step_result_insert',
      text: `insert into step_result (network_id, incident_id, id, item_id, step, outcome, station_id, person_id, note, started_at, finished_at, recorded_at)
             values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12)`,
      values: [this.networkId, result.incidentId, result.id, result.itemId, result.step, result.outcome, result.stationId, result.personId, result.note, at(result.startedAtMs), at(result.finishedAtMs), at(result.recordedAtMs)],
    });
  }

  async ofItem(itemId: string): Promise<StepResultRecord[]> {
    const { rows } = await this.client.query<StepRow>({ name: 'step_results_of_item', text: 'select * from step_result where network_id = $1 and item_id = $2 order by recorded_at, id', values: [this.networkId, itemId] });
    return rows.map((row) => ({
      id: row.id, incidentId: row.incident_id, itemId: row.item_id, step: row.step, outcome: row.outcome, stationId: row.station_id, personId: row.person_id, note: row.note,
      startedAtMs: msOrNull(row.started_at), finishedAtMs: row.finished_at.getTime(), recordedAtMs: row.recorded_at.getTime(),
    }));
  }

  async insertReferral(referral: ReferralRecord): Promise<void> {
    await this.client.query(
      `insert into referral (network_id, incident_id, id, item_id, specialist_id, consent_id, reason, sent_at, returned_at) values ($1, $2, $3, $4, $5, $6, $7, $8, $9)`,
      [this.networkId, referral.incidentId, referral.id, referral.itemId, referral.specialistId, referral.consentId, referral.reason, at(referral.sentAtMs), at(referral.returnedAtMs)],
    );
  }

  async openReferral(itemId: string): Promise<ReferralRecord | null> {
    const { rows } = await this.client.query<{ id: string; incident_id: string; specialist_id: string; consent_id: string; reason: string; sent_at: Date }>(
      'select * from referral where network_id = $1 and item_id = $2 and returned_at is null order by sent_at desc limit 1',
      [this.networkId, itemId],
    );
    const row = rows[0];
    return row ? { id: row.id, incidentId: row.incident_id, itemId, specialistId: row.specialist_id, consentId: row.consent_id, reason: row.reason, sentAtMs: row.sent_at.getTime(), returnedAtMs: null } : null;
  }

  async closeReferral(referralId: string, returnedAtMs: number): Promise<void> {
    await this.client.query('update referral set returned_at = $3 where network_id = $1 and id = $2', [this.networkId, referralId, at(returnedAtMs)]);
  }
}
