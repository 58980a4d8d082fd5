import type { AppointmentRecord, AppointmentState, BookingStore, IdentityFinding, SlotRecord } from '#application';
import type { Client } from '../pool.js';
import { at, msOrNull } from './row.js';

interface SlotRow {
  id: string;
  incident_id: string;
  site_id: string;
  starts_at: Date;
  ends_at: Date;
  capacity: number;
  booked: number;
  created_at: Date;
}

interface AppointmentRow {
  id: string;
  incident_id: string;
  slot_id: string;
  household_id: string;
  state: AppointmentState;
  code_salt: Uint8Array | null;
  code_hash: Uint8Array | null;
  check_kind: IdentityFinding['kind'] | null;
  check_result: IdentityFinding['result'] | null;
  booked_at: Date;
  booked_by: string;
  ended_at: Date | null;
  ended_by: string | null;
  version: number;
}

function toSlot(row: SlotRow): SlotRecord {
  return { id: row.id, incidentId: row.incident_id, siteId: row.site_id, startsAtMs: row.starts_at.getTime(), endsAtMs: row.ends_at.getTime(), capacity: row.capacity, booked: row.booked, createdAtMs: row.created_at.getTime() };
}

function toAppointment(row: AppointmentRow): AppointmentRecord {
  return {
    id: row.id, incidentId: row.incident_id, slotId: row.slot_id, householdId: row.household_id, state: row.state,
    code: row.code_salt === null || row.code_hash === null ? null : { salt: row.code_salt, hash: row.code_hash },
    check: row.check_kind === null || row.check_result === null ? null : { kind: row.check_kind, result: row.check_result },
    bookedAtMs: row.booked_at.getTime(), bookedBy: row.booked_by, endedAtMs: msOrNull(row.ended_at), endedBy: row.ended_by, version: row.version,
  };
}

export class PgBookingStore implements BookingStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async insertSlots(slots: readonly SlotRecord[]): Promise<string[]> {
    const { rows } = await this.client.query<{ id: string }>(
      `insert into hand_back_slot (network_id, incident_id, id, site_id, starts_at, ends_at, capacity, created_at)
       select $1, s.* from unnest($2::uuid[], $3::uuid[], $4::uuid[], $5::timestamptz[], $6::timestamptz[], $7::integer[], $8::timestamptz[]) as s
       on conflict (network_id, site_id, starts_at, ends_at) do nothing returning id`,
      [this.networkId, slots.map((slot) => slot.incidentId), slots.map((slot) => slot.id), slots.map((slot) => slot.siteId), slots.map((slot) => at(slot.startsAtMs)), slots.map((slot) => at(slot.endsAtMs)), slots.map((slot) => slot.capacity), slots.map((slot) => at(slot.createdAtMs))],
    );
    return rows.map(({ id }) => id);
  }

  async slot(slotId: string): Promise<SlotRecord | null> {
    const { rows } = await this.client.query<SlotRow>('select * from hand_back_slot where network_id = $1 and id = $2', [this.networkId, slotId]);
    return rows[0] ? toSlot(rows[0]) : null;
  }

  async slots(siteId: string, fromMs: number, limit: number, after: { startsAtMs: number; id: string } | null): Promise<SlotRecord[]> {
    const { rows } = await this.client.query<SlotRow>(
      `select * from hand_back_slot where network_id = $1 and site_id = $2 and ends_at > $3 and ($5::timestamptz is null or (starts_at, id) > ($5, $6::uuid))
       order by starts_at, id limit $4`,
      [this.networkId, siteId, at(fromMs), limit, at(after?.startsAtMs ?? null), after?.id ?? null],
    );
    return rows.map(toSlot);
  }

  async takePlace(slotId: string): Promise<boolean> {
    const { rowCount } = await this.client.query('update hand_back_slot set booked = booked + 1 where network_id = $1 and id = $2 and booked < capacity', [this.networkId, slotId]);
    return rowCount === 1;
  }

  async givePlace(slotId: string): Promise<void> {
    await this.client.query('update hand_back_slot set booked = booked - 1 where network_id = $1 and id = $2 and booked > 0', [this.networkId, slotId]);
  }

  async insert(appointment: AppointmentRecord): Promise<void> {
    await this.client.query(
      `insert into hand_back_appointment (network_id, incident_id, id, slot_id, household_id, state, code_salt, code_hash, booked_at, booked_by) values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)`,
      [this.networkId, appointment.incidentId, appointment.id, appointment.slotId, appointment.householdId, appointment.state, appointment.code?.salt ?? null, appointment.code?.hash ?? null, at(appointment.bookedAtMs), appointment.bookedBy],
    );
  }

  async lock(appointmentId: string): Promise<AppointmentRecord | null> {
    const { rows } = await this.client.query<AppointmentRow>('select * from hand_back_appointment where network_id = $1 and id = $2 for update', [this.networkId, appointmentId]);
    return rows[0] ? toAppointment(rows[0]) : null;
  }

  async ahead(householdId: string): Promise<AppointmentRecord | null> {
    const { rows } = await this.client.query<AppointmentRow>("select * from hand_back_appointment where network_id = $1 and household_id = $2 and state = 'booked'", [this.networkId, householdId]);
    return rows[0] ? toAppointment(rows[0]) : null;
  }

  async save(appointment: AppointmentRecord): Promise<void> {
    await this.client.query(
      `update hand_back_appointment set state = $3, code_salt = $4, code_hash = $5, check_kind = $6, check_result = $7, ended_at = $8, ended_by = $9, version = version + 1 where network_id = $1 and id = $2`,
      [this.networkId, appointment.id, appointment.state, appointment.code?.salt ?? null, appointment.code?.hash ?? null, appointment.check?.kind ?? null, appointment.check?.result ?? null, at(appointment.endedAtMs), appointment.endedBy],
    );
  }
}
