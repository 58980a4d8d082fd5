import type { AssessmentRecord, AssessmentStore, OverrideRecord, TriageRecord } from '#application';
import type { Client } from '../pool.js';
import { at } from './row.js';

type ColourTestRecord = Parameters<AssessmentStore['insertColourTest']>[0];

export class PgAssessmentStore implements AssessmentStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async insert(record: AssessmentRecord): Promise<void> {
    await this.client.query({
      name: 'assessment_insert',
      text: `insert into assessment (network_id, incident_id, id, item_id, observed, origin, assessed_by, assessed_at, recorded_at) values ($1, $2, $3, $4, $5, $6, $7, $8, $9)`,
      values: [this.networkId, record.incidentId, record.id, record.itemId, JSON.stringify(record.observed), record.origin, record.assessedBy, at(record.assessedAtMs), at(record.recordedAtMs)],
    });
  }

  async latest(itemId: string): Promise<AssessmentRecord | null> {
    const { rows } = await this.client.query<{ id: string; incident_id: string; observed: AssessmentRecord['observed']; origin: AssessmentRecord['origin']; assessed_by: string; assessed_at: Date; recorded_at: Date }>({
      name: 'assessment_latest',
      text: 'select * from assessment where network_id = $1 and item_id = $2 order by recorded_at desc, id desc limit 1',
      values: [this.networkId, itemId],
    });
    const row = rows[0];
    return row
      ? { id: row.id, incidentId: row.incident_id, itemId, observed: row.observed, origin: row.origin, assessedBy: row.assessed_by, assessedAtMs: row.assessed_at.getTime(), recordedAtMs: row.recorded_at.getTime() }
      : null;
  }

  async insertColourTest(record: ColourTestRecord): Promise<void> {
    await this.client.query({
      name: 'colour_test_insert',
      text: `insert into colour_test (network_id, incident_id, id, item_id, colour, solution, method, reading, tested_by, tested_at, recorded_at)
             values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)`,
      values: [this.networkId, record.incidentId, record.id, record.itemId, record.test.colour, record.test.solution, record.test.method, record.test.reading, record.testedBy, at(record.testedAtMs), at(record.recordedAtMs)],
    });
  }

  async insertTriage(record: TriageRecord): Promise<void> {
    await this.client.query({
      name: 'triage_insert',
      text: `insert into triage_result (network_id, incident_id, id, item_id, assessment_id, rule_book_version, urgency, start_by, result, created_at)
             values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)`,
      values: [this.networkId, record.incidentId, record.id, record.itemId, record.assessmentId, record.result.ruleBookVersion, record.result.urgency, at(record.result.startByMs), JSON.stringify(record.result), at(record.createdAtMs)],
    });
  }

  async latestTriage(itemId: string): Promise<TriageRecord | null> {
    const { rows } = await this.client.query<{ id: string; incident_id: string; assessment_id: string; result: TriageRecord['result']; created_at: Date }>({
      name: 'triage_latest',
      text: 'select id, incident_id, assessment_id, result, created_at from triage_result where network_id = $1 and item_id = $2 order by created_at desc, id desc limit 1',
      values: [this.networkId, itemId],
    });
    const row = rows[0];
    return row ? { id: row.id, incidentId: row.incident_id, itemId, assessmentId: row.assessment_id, result: row.result, createdAtMs: row.created_at.getTime() } : null;
  }

  async insertOverride(record: OverrideRecord): Promise<void> {
    await this.client.query(
      `insert into disposition_override (network_id, incident_id, id, item_id, disposition, reason, decided_by, decided_at) values ($1, $2, $3, $4, $5, $6, $7, $8)`,
      [this.networkId, record.incidentId, record.id, record.itemId, record.disposition, record.reason, record.decidedBy, at(record.decidedAtMs)],
    );
  }

  async latestOverride(itemId: string): Promise<OverrideRecord | null> {
    const { rows } = await this.client.query<{ id: string; incident_id: string; disposition: OverrideRecord['disposition']; reason: string; decided_by: string; decided_at: Date }>({
      name: 'override_latest',
      // By id, which is the order in which they were recorded; the time told by a tablet may be wrong.
      text: 'select * from disposition_override where network_id = $1 and item_id = $2 order by id desc limit 1',
      values: [this.networkId, itemId],
    });
    const row = rows[0];
    return row ? { id: row.id, incidentId: row.incident_id, itemId, disposition: row.disposition, reason: row.reason, decidedBy: row.decided_by, decidedAtMs: row.decided_at.getTime() } : null;
  }
}
