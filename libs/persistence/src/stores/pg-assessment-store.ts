import type { AssessmentRecord, AssessmentStore, ColourTestRecord, OverrideRecord, OverrideView, SeenThing, TriageRecord, TriageWithAssessment } from '#application';
import type { Client } from '../pool.js';
import { COUNT_ITEMS, HISTORY, LAST_SEEN_OF_INCIDENT, LAST_SEEN_OF_ITEMS, OVERRIDE_PAGE, toAssessment, toOverride, toOverrideView, toSeenThing, toTriage, type AssessmentRow, type OverrideRow, type OverrideViewRow, type SeenRow, type TriageRow } from './assessment-rows.js';
import { at } from './row.js';

export class PgAssessmentStore implements AssessmentStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async insert(record: AssessmentRecord): Promise<void> {
    await this.client.query({
      name: 'assessment_insert',
      text: `insert into assessment (network_id, incident_id, id, item_id, observed, origin, assessed_by, assessed_at, recorded_at, seen_again_reason) values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)`,
      values: [this.networkId, record.incidentId, record.id, record.itemId, JSON.stringify(record.observed), record.origin, record.assessedBy, at(record.assessedAtMs), at(record.recordedAtMs), record.seenAgain ?? null],
    });
  }

  async latest(itemId: string): Promise<AssessmentRecord | null> {
    const { rows } = await this.client.query<AssessmentRow>({
      name: 'assessment_latest',
      text: 'select * from assessment where network_id = $1 and item_id = $2 order by recorded_at desc, id desc limit 1',
      values: [this.networkId, itemId],
    });
    return rows[0] ? toAssessment(rows[0]) : null;
  }

  async insertColourTest(record: ColourTestRecord): Promise<void> {
    await this.client.query({
      name: 'colour_test_insert',
      text: `insert into colour_test (network_id, incident_id, id, item_id, colour, solution, method, reading, tested_by, tested_at, recorded_at)
             values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)`,
      values: [this.networkId, record.incidentId, record.id, record.itemId, record.test.colour, record.test.solution, record.test.method, record.test.reading, record.testedBy, at(record.testedAtMs), at(record.recordedAtMs)],
    });
  }

  async colourTests(itemId: string): Promise<ColourTestRecord[]> {
    const { rows } = await this.client.query<ColourTestRecord['test'] & { id: string; incident_id: string; tested_by: string; tested_at: Date; recorded_at: Date }>(
      'select id, incident_id, colour, solution, method, reading, tested_by, tested_at, recorded_at from colour_test where network_id = $1 and item_id = $2 order by id',
      [this.networkId, itemId],
    );
    return rows.map(({ id, incident_id, tested_by, tested_at, recorded_at, ...test }) => ({ id, incidentId: incident_id, itemId, test, testedBy: tested_by, testedAtMs: tested_at.getTime(), recordedAtMs: recorded_at.getTime() }));
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
    const { rows } = await this.client.query<TriageRow>({
      name: 'triage_latest',
      text: 'select id, incident_id, item_id, assessment_id, result, created_at from triage_result where network_id = $1 and item_id = $2 order by created_at desc, id desc limit 1',
      values: [this.networkId, itemId],
    });
    return rows[0] ? toTriage(rows[0]) : null;
  }

  async insertOverride(record: OverrideRecord): Promise<void> {
    await this.client.query(
      `insert into disposition_override (network_id, incident_id, id, item_id, disposition, reason, decided_by, decided_at, instead_of, rule_book_version, open_needs) values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)`,
      [this.networkId, record.incidentId, record.id, record.itemId, record.disposition, record.reason, record.decidedBy, at(record.decidedAtMs), record.insteadOf, record.ruleBookVersion, record.openNeeds === null ? null : JSON.stringify(record.openNeeds)],
    );
  }

  async latestOverride(itemId: string): Promise<OverrideRecord | null> {
    const { rows } = await this.client.query<OverrideRow>({
      name: 'override_latest',
      // By id, which is the order in which they were recorded; the time told by a tablet may be wrong.
      text: 'select * from disposition_override where network_id = $1 and item_id = $2 order by id desc limit 1',
      values: [this.networkId, itemId],
    });
    return rows[0] ? toOverride(rows[0]) : null;
  }

  async history(itemId: string, limit: number, before: { createdAtMs: number; id: string } | null): Promise<TriageWithAssessment[]> {
    const { rows } = await this.client.query<TriageRow & { assessment: AssessmentRow }>({ name: 'triage_history', text: HISTORY, values: [this.networkId, itemId, limit, at(before?.createdAtMs ?? null), before?.id ?? null] });
    return rows.map((row) => ({ triage: toTriage(row), assessment: toAssessment(row.assessment) }));
  }

  async overridePage(incidentId: string, limit: number, beforeId: string | null): Promise<OverrideView[]> {
    const { rows } = await this.client.query<OverrideViewRow>({ name: 'override_page', text: OVERRIDE_PAGE, values: [this.networkId, incidentId, limit, beforeId] });
    return rows.map(toOverrideView);
  }

  async lastSeen(incidentId: string, limit: number): Promise<{ things: SeenThing[]; items: number }> {
    const { rows } = await this.client.query<SeenRow>({ name: 'last_seen_of_incident', text: LAST_SEEN_OF_INCIDENT, values: [this.networkId, incidentId, limit] });
    const counted = await this.client.query<{ items: number }>({ name: 'last_seen_count', text: COUNT_ITEMS, values: [this.networkId, incidentId] });
    return { things: rows.map(toSeenThing), items: counted.rows[0]?.items ?? 0 };
  }

  async lastSeenOf(itemIds: readonly string[]): Promise<SeenThing[]> {
    const { rows } = await this.client.query<SeenRow>({ name: 'last_seen_of_items', text: LAST_SEEN_OF_ITEMS, values: [this.networkId, itemIds] });
    return rows.map(toSeenThing);
  }
}
