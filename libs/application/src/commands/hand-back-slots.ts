import { notFound, Problem, type ProblemError } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { refuseUnknownOwner } from '../claims/unknown-owner.js';
import { personOf } from '../care/claims.js';
import { openPath } from '../hand-back/uncollected-path.js';
import type { AppointmentRecord, AppointmentState, CodeHash, IdentityFinding, SlotRecord } from '../ports/booking-store.js';
import type { Stores } from '../ports/work.js';

export interface OpenSlotsInput {
  siteId: string;
  startsAtMs: number;
  /** Length of one slot. */
  minutes: number;
  /** One after the other. */
  slots: number;
  /** Families at most in each. */
  capacity: number;
}

const MINUTE_MS = 60_000;

/** Opens slots for hand-backs at a site, one after the other; those that are there already stay as they are. */
export async function openHandBackSlots(stores: Stores, call: UseCaseCall, input: OpenSlotsInput): Promise<{ opened: SlotRecord[]; there: number }> {
  const site = await stores.places.site(input.siteId);
  if (!site) throw notFound('site');
  const lengthMs = input.minutes * MINUTE_MS;
  const wanted = Array.from({ length: input.slots }, (_, index): SlotRecord => ({
    id: call.env.newId(), incidentId: site.incidentId, siteId: site.id, startsAtMs: input.startsAtMs + index * lengthMs, endsAtMs: input.startsAtMs + (index + 1) * lengthMs, capacity: input.capacity, booked: 0, createdAtMs: call.env.nowMs,
  }));
  const made = new Set(await stores.bookings.insertSlots(wanted));
  return { opened: wanted.filter(({ id }) => made.has(id)), there: wanted.length - made.size };
}

export interface BookAppointmentInput {
  slotId: string;
  householdId: string;
}

/**
 * Books a place in a slot. The place is taken in the same transaction by the statement that counts it, so a slot never holds more
 * families than it has places for. `made` is the id, and how to make what is kept of the code that the caller tells the family.
 */
export async function bookAppointment(stores: Stores, call: UseCaseCall, input: BookAppointmentInput, made: { appointmentId: string; code: () => Promise<CodeHash> }): Promise<AppointmentRecord> {
  const slot = await stores.bookings.slot(input.slotId);
  if (!slot) throw notFound('slot');
  const household = await stores.households.find(input.householdId);
  if (!household || household.incidentId !== slot.incidentId) throw refused('reference_unknown', 'There is no such household in the incident of this slot.', { detail: 'names nothing of this incident', code: 'reference_unknown', pointer: '#/householdId' });
  refuseUnknownOwner(household);
  if (slot.endsAtMs <= call.env.nowMs) throw new Problem('command_refused', 'The slot is over. Choose one that lies ahead.', { members: { endsAt: new Date(slot.endsAtMs).toISOString() } });
  const ahead = await stores.bookings.ahead(household.id);
  if (ahead) throw new Problem('already_exists', 'The household has an appointment ahead of it. Cancel that one first, or keep it.', { members: { appointmentId: ahead.id } });
  if (slot.booked >= slot.capacity) throw full(slot);
  // Made before the place is taken: it takes a while, and others wait for the slot.
  const code = await made.code();
  if (!(await stores.bookings.takePlace(slot.id))) throw full(slot);
  const appointment: AppointmentRecord = {
    id: made.appointmentId, incidentId: slot.incidentId, slotId: slot.id, householdId: household.id, state: 'booked', code, check: null,
    bookedAtMs: call.env.nowMs, bookedBy: call.context.principalId, endedAtMs: null, endedBy: null, version: 1,
  };
  await stores.bookings.insert(appointment);
  return appointment;
}

function full({ capacity }: SlotRecord): Problem {
  return new Problem('capacity_full', 'All places of this slot are taken. Choose another one.', { members: { capacity } });
}

export interface EndAppointmentInput {
  appointmentId: string;
  outcome: Exclude<AppointmentState, 'booked' | 'kept'>;
  /** How identity was checked, when somebody is turned away. */
  check: IdentityFinding | null;
  /** Who decides about what nobody fetches, when nobody came. */
  deciderId: string | null;
}

/** Ends an appointment that was not kept: called off, nobody came, or somebody came who could not show who they are. */
export async function endAppointment(stores: Stores, call: UseCaseCall, input: EndAppointmentInput): Promise<AppointmentRecord> {
  const appointment = await stores.bookings.lock(input.appointmentId);
  if (!appointment) throw notFound('appointment');
  if (appointment.state !== 'booked') throw new Problem('already_exists', 'The appointment is over already; how it ended stands.', { members: { state: appointment.state } });
  refuseUnfitting(input);
  if (input.outcome === 'cancelled') await stores.bookings.givePlace(appointment.slotId);
  if (input.outcome === 'missed') await waitForThem(stores, call, appointment, input);
  const ended: AppointmentRecord = { ...appointment, state: input.outcome, check: input.check, code: null, endedAtMs: call.env.nowMs, endedBy: call.context.principalId };
  await stores.bookings.save(ended);
  return { ...ended, version: appointment.version + 1 };
}

function refuseUnfitting({ outcome, check, deciderId }: EndAppointmentInput): void {
  const turnedAway = outcome === 'turned-away';
  if (turnedAway && check === null) throw refused('command_refused', 'Say how identity was checked and what came of it; never a number of a document.', { detail: 'is needed for turned-away', code: 'check_missing', pointer: '#/check' });
  if (check?.result === 'matched') throw refused('command_refused', 'Who could show who they are is not turned away: hand back, or cancel.', { detail: 'is not why somebody is turned away', code: 'check_matched', pointer: '#/check/result' });
  if (!turnedAway && check !== null) throw refused('command_refused', 'An identity check belongs to `turned-away` alone.', { detail: 'belongs to turned-away', code: 'check_unfitting', pointer: '#/check' });
  if (outcome === 'missed' && deciderId === null) throw refused('command_refused', 'Name the person who decides if the things are not fetched later.', { detail: 'is needed for missed', code: 'decider_missing', pointer: '#/deciderId' });
}

/** Opens the dated path of what was not fetched, where none is open. */
async function waitForThem(stores: Stores, call: UseCaseCall, { householdId, incidentId }: AppointmentRecord, { deciderId }: EndAppointmentInput): Promise<void> {
  if (deciderId === null) return;
  await personOf(stores, incidentId, deciderId, '#/deciderId');
  if ((await stores.uncollected.openOf(householdId)) !== null || (await stores.uncollected.held(householdId)) === 0) return;
  await openPath(stores, call, { id: householdId, incidentId }, deciderId);
}

function refused(code: 'reference_unknown' | 'command_refused', text: string, error: ProblemError): Problem {
  return new Problem(code, text, { errors: [error] });
}
