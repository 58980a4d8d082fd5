import type { HandBackRecord, HandBackStore } from '#application';
import type { Client } from '../pool.js';
import { at } from './row.js';

interface HandBackRow {
  id: string;
  incident_id: string;
  household_id: string;
  receiver: HandBackRecord['receiver'];
  identity_check: HandBackRecord['identityCheck'];
  signature_ref: string;
  receipt: unknown;
  handed_by: string;
  handed_at: Date;
  recorded_at: Date;
  items: HandBackRecord['items'];
  person_id: string | null;
  appointment_id: string | null;
  reservations: Uint8Array | null;
  signature: Uint8Array | null;
  code_used: boolean;
}

const SELECT = `select h.*, (select coalesce(jsonb_agg(jsonb_build_object('itemId', i.item_id, 'conditionNote', i.condition_note) order by i.item_id), '[]')
  from hand_back_item i where i.network_id = h.network_id and i.hand_back_id = h.id) as items from hand_back h`;

function toRecord(row: HandBackRow): HandBackRecord {
  return {
    id: row.id, incidentId: row.incident_id, householdId: row.household_id, receiver: row.receiver, identityCheck: row.identity_check, signatureRef: row.signature_ref,
    receipt: row.receipt, handedBy: row.handed_by, handedAtMs: row.handed_at.getTime(), recordedAtMs: row.recorded_at.getTime(), items: row.items,
    personId: row.person_id, appointmentId: row.appointment_id, reservationsSealed: row.reservations, signatureSealed: row.signature, codeUsed: row.code_used,
  };
}

export class PgHandBackStore implements HandBackStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async insert(handBack: HandBackRecord): Promise<void> {
    await this.client.query(
      `insert into hand_back (network_id, incident_id, id, household_id, receiver, identity_check, signature_ref, receipt, handed_by, handed_at, recorded_at,
         person_id, appointment_id, reservations, signature, code_used)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16)`,
      [this.networkId, handBack.incidentId, handBack.id, handBack.householdId, handBack.receiver, handBack.identityCheck, handBack.signatureRef, JSON.stringify(handBack.receipt), handBack.handedBy, at(handBack.handedAtMs), at(handBack.recordedAtMs),
        handBack.personId, handBack.appointmentId, handBack.reservationsSealed, handBack.signatureSealed, handBack.codeUsed],
    );
    await this.client.query(
      `insert into hand_back_item (network_id, incident_id, hand_back_id, item_id, condition_note) select $1, $2, $3, unnest($4::uuid[]), unnest($5::text[])`,
      [this.networkId, handBack.incidentId, handBack.id, handBack.items.map((item) => item.itemId), handBack.items.map((item) => item.conditionNote)],
    );
  }

  async find(handBackId: string): Promise<HandBackRecord | null> {
    const { rows } = await this.client.query<HandBackRow>(`${SELECT} where h.network_id = $1 and h.id = $2`, [this.networkId, handBackId]);
    return rows[0] ? toRecord(rows[0]) : null;
  }

  async ofHousehold(householdId: string): Promise<HandBackRecord[]> {
    const { rows } = await this.client.query<HandBackRow>(`${SELECT} where h.network_id = $1 and h.household_id = $2 order by h.handed_at, h.id`, [this.networkId, householdId]);
    return rows.map(toRecord);
  }
}
