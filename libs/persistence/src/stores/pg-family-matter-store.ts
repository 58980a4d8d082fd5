import type { FamilyMatterKind, FamilyMatterRecord, FamilyMatterStore } from '#application';
import type { StepKind } from '#care';
import type { Client } from '../pool.js';
import { toMessage, valuesOf } from './message-columns.js';
import { at, msOrNull } from './row.js';

interface MatterRow {
  id: string;
  incident_id: string;
  household_id: string;
  kind: FamilyMatterKind;
  item_id: string | null;
  question_id: string | null;
  message_id: string | null;
  consent_id: string | null;
  step: StepKind | null;
  advice_text: string;
  advice_values: unknown;
  opened_at: Date;
  settled_at: Date | null;
  settled_by: string | null;
  settlement: Buffer | null;
}

function toRecord(row: MatterRow): FamilyMatterRecord {
  return {
    id: row.id, incidentId: row.incident_id, householdId: row.household_id, kind: row.kind, itemId: row.item_id, questionId: row.question_id, messageId: row.message_id, consentId: row.consent_id,
    step: row.step, advice: toMessage(row.advice_text, row.advice_values), openedAtMs: row.opened_at.getTime(), settledAtMs: msOrNull(row.settled_at), settledBy: row.settled_by, settlement: row.settlement,
  };
}

export class PgFamilyMatterStore implements FamilyMatterStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async insert(matter: FamilyMatterRecord): Promise<void> {
    await this.client.query(
      `insert into family_matter (network_id, incident_id, id, household_id, kind, item_id, question_id, message_id, consent_id, step, advice_text, advice_values, opened_at)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13)`,
      [
        this.networkId, matter.incidentId, matter.id, matter.householdId, matter.kind, matter.itemId, matter.questionId, matter.messageId, matter.consentId, matter.step,
        matter.advice.text, valuesOf(matter.advice), at(matter.openedAtMs),
      ],
    );
  }

  async lock(matterId: string): Promise<FamilyMatterRecord | null> {
    const { rows } = await this.client.query<MatterRow>('select * from family_matter where network_id = $1 and id = $2 for no key update', [this.networkId, matterId]);
    return rows[0] ? toRecord(rows[0]) : null;
  }

  async page(incidentId: string, settled: boolean, limit: number, afterId: string | null): Promise<FamilyMatterRecord[]> {
    const { rows } = await this.client.query<MatterRow>(
      'select * from family_matter where network_id = $1 and incident_id = $2 and (settled_at is not null) = $3 and ($5::uuid is null or id > $5) order by id limit $4',
      [this.networkId, incidentId, settled, limit, afterId],
    );
    return rows.map(toRecord);
  }

  async stopOf(itemId: string): Promise<FamilyMatterRecord | null> {
    const { rows } = await this.client.query<MatterRow>(
      `select * from family_matter where network_id = $1 and item_id = $2 and kind = 'consent-withdrawn' and step is not null and settled_at is null order by id desc limit 1`,
      [this.networkId, itemId],
    );
    return rows[0] ? toRecord(rows[0]) : null;
  }

  async settle(matter: FamilyMatterRecord): Promise<void> {
    await this.client.query('update family_matter set settled_at = $3, settled_by = $4, settlement = $5 where network_id = $1 and id = $2', [this.networkId, matter.id, at(matter.settledAtMs), matter.settledBy, matter.settlement]);
  }
}
