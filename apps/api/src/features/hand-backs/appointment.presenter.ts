import type { z } from 'zod';
import { dueOf, FOUND_LAW_CAUTION, type AppointmentRecord, type SlotRecord, type UnclaimedView, type UncollectedRecord, type UncollectedView } from '#application';
import { render, type Language } from '#care';
import type { AppointmentBody, HandBackSlotBody, UnclaimedBody, UncollectedBody } from '#contracts';
import { iso, isoOrNull } from '../../presenters/time.js';

export function presentSlot(slot: SlotRecord): z.output<typeof HandBackSlotBody> {
  const { id, incidentId, siteId, capacity, booked } = slot;
  return { id, incidentId, siteId, startsAt: iso(slot.startsAtMs), endsAt: iso(slot.endsAtMs), capacity, booked, free: capacity - booked };
}

export function presentAppointment(appointment: AppointmentRecord): z.output<typeof AppointmentBody> {
  const { id, incidentId, slotId, householdId, state, check, version } = appointment;
  return { id, incidentId, slotId, householdId, state, check, bookedAt: iso(appointment.bookedAtMs), endedAt: isoOrNull(appointment.endedAtMs), version };
}

/** `nowMs` is the moment of a command; a listed one says itself what is due. */
export function presentUncollected(path: UncollectedRecord | UncollectedView, nowMs: number | null): z.output<typeof UncollectedBody> {
  const { id, incidentId, householdId, itemId, deciderId, reminders, state, decision, version } = path;
  return {
    id, incidentId, householdId, itemId, openedAt: iso(path.openedAtMs), firstReminderAt: iso(path.firstReminderAtMs), secondReminderAt: iso(path.secondReminderAtMs), decideAt: iso(path.decideAtMs),
    deciderId, reminders, remindedAt: isoOrNull(path.remindedAtMs), state, decision, due: 'due' in path ? path.due : nowMs === null ? null : dueOf(path, nowMs), endedAt: isoOrNull(path.endedAtMs), version,
  };
}

export function presentUnclaimed({ path, votes }: UnclaimedView, nowMs: number | null, language: Language): z.output<typeof UnclaimedBody> {
  return { path: presentUncollected(path, nowMs), votes, caution: render(FOUND_LAW_CAUTION, language) };
}
