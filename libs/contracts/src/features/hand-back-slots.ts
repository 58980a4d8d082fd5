import { z } from 'zod';
import { instant, PageQuery, text, uuid } from '../primitives.js';

const id = '0198b7a0-0000-7000-8000-000000000001';
const KINDS = ['document-seen', 'known-in-person', 'pickup-code'] as const;
const RESULTS = ['matched', 'not-matched', 'not-possible'] as const;
const DECISIONS = ['keep-longer', 'bring-to-them', 'store-elsewhere', 'search-for-them'] as const;
const UNCLAIMED = ['keep-longer', 'hand-to-authority', 'dispose'] as const;

export const HandBackSiteParams = z.strictObject({ siteId: uuid });
export const SlotParams = z.strictObject({ slotId: uuid });
export const AppointmentParams = z.strictObject({ appointmentId: uuid });
export const UncollectedParams = z.strictObject({ uncollectedId: uuid });

export const OpenHandBackSlots = z
  .strictObject({
    startsAt: instant,
    /** Length of one slot. */
    minutes: z.int().min(5).max(480),
    /** One after the other. */
    slots: z.int().min(1).max(100),
    /** Families at most in each. */
    capacity: z.int().min(1).max(200),
  })
  .meta({ id: 'OpenHandBackSlots', examples: [{ startsAt: '2026-05-20T15:00:00Z', minutes: 30, slots: 8, capacity: 3 }] });

export const SlotListQuery = PageQuery.extend({ from: instant.optional() });

const slot = { id, incidentId: id, siteId: id, startsAt: '2026-05-20T15:00:00.000Z', endsAt: '2026-05-20T15:30:00.000Z', capacity: 3, booked: 1, free: 2 };
export const HandBackSlotBody = z
  .strictObject({ id: z.string(), incidentId: z.string(), siteId: z.string(), startsAt: z.string(), endsAt: z.string(), capacity: z.int(), booked: z.int(), free: z.int() })
  .meta({ id: 'HandBackSlot', description: 'A stretch of time in which so many families may come. No family stands in it.', examples: [slot] });

export const OpenedSlotsBody = z
  .strictObject({
    opened: z.array(HandBackSlotBody),
    /** Slots of the same times that were there already and stay as they are. */
    there: z.int(),
  })
  .meta({ id: 'OpenedHandBackSlots', examples: [{ opened: [slot], there: 0 }] });

export const BookAppointment = z.strictObject({ householdId: uuid }).meta({ id: 'BookAppointment', examples: [{ householdId: id }] });

const check = z.strictObject({ kind: z.enum(KINDS), result: z.enum(RESULTS) });

export const EndAppointment = z
  .strictObject({
    outcome: z.enum(['cancelled', 'missed', 'turned-away']),
    /** For `turned-away`: how identity was checked and what came of it. Never the number of a document. */
    check: check.nullable().default(null),
    /** For `missed`: the person who decides if the things are not fetched later. */
    deciderId: uuid.nullable().default(null),
  })
  .meta({ id: 'EndAppointment', examples: [{ outcome: 'missed', deciderId: id }] });

const appointmentMembers = {
  id: z.string(), incidentId: z.string(), slotId: z.string(), householdId: z.string(), state: z.enum(['booked', 'cancelled', 'missed', 'turned-away', 'kept']),
  check: check.nullable(), bookedAt: z.string(), endedAt: z.string().nullable(), version: z.int(),
};
const appointment = { id, incidentId: id, slotId: id, householdId: id, state: 'booked' as const, check: null, bookedAt: '2026-05-18T09:00:00.000Z', endedAt: null, version: 1 };

export const AppointmentBody = z.strictObject(appointmentMembers).meta({ id: 'HandBackAppointment', description: 'A family has a place in a slot. A code that was given for it is shown once and kept only as a hash.', examples: [appointment] });

export const BookedAppointmentBody = z
  .strictObject({
    ...appointmentMembers,
    /** The one-time code, for the family alone. Shown this once; a repeated request answers without it. */
    code: z.string().optional(),
  })
  .meta({ id: 'BookedHandBackAppointment', examples: [{ ...appointment, code: 'BCDF-GHKM' }] });

const days = {
  /** Days from now until each. */
  firstReminder: z.int().min(1).max(365),
  secondReminder: z.int().min(2).max(730),
  decide: z.int().min(3).max(1_825),
};
const daysInOrder = z
  .strictObject(days)
  .refine(({ firstReminder, secondReminder, decide }) => firstReminder < secondReminder && secondReminder < decide, { message: 'the reminders come one after the other, and the decision after them' });
const pathDays = daysInOrder.default({ firstReminder: 7, secondReminder: 21, decide: 42 });

export const OpenUncollected = z
  .strictObject({
    deciderId: uuid, days: pathDays,
    /** Since when the things are ready and the family knows it: the days count from then. Now when left out. */
    readyAt: instant.nullable().default(null),
  })
  .meta({ id: 'OpenUncollected', examples: [{ deciderId: id, days: { firstReminder: 7, secondReminder: 21, decide: 42 } }] });

/** A command without members. */
export const RecordReminder = z.strictObject({}).meta({ id: 'RecordReminder', examples: [{}] });

export const DecideUncollected = z
  .strictObject({
    personId: uuid,
    /** To let things go is none of them: that needs the owner's word for each item. */
    decision: z.enum(DECISIONS),
    /** Sealed for the household. */
    reason: text(1_000, 3),
    days: pathDays,
  })
  .meta({ id: 'DecideUncollected', examples: [{ personId: id, decision: 'bring-to-them', reason: 'They live with relatives out of town and have no car.' }] });

export const UncollectedBody = z
  .strictObject({
    id: z.string(), incidentId: z.string(), householdId: z.string(),
    /** The found thing that it is about; null for all things of a household. */
    itemId: z.string().nullable(),
    /** From when the days count. */
    openedAt: z.string(), firstReminderAt: z.string(), secondReminderAt: z.string(), decideAt: z.string(),
    deciderId: z.string(), reminders: z.int(), remindedAt: z.string().nullable(), state: z.enum(['open', 'decided', 'collected', 'ended']), decision: z.enum([...DECISIONS, 'hand-to-authority', 'dispose']).nullable(),
    /** What somebody should do about it now. */
    due: z.enum(['first-reminder', 'second-reminder', 'decision']).nullable(), endedAt: z.string().nullable(), version: z.int(),
  })
  .meta({
    id: 'Uncollected',
    description: 'Things that are ready and that nobody fetches: two reminders, then the decision of a named person. Nothing is ever let go by it. With `itemId` it is a found thing that nobody claims: its reminders are the notices at the desk, two people decide, and it ends when its owner is known.',
    examples: [{
      id, incidentId: id, householdId: id, itemId: null, openedAt: '2026-05-20T16:00:00.000Z', firstReminderAt: '2026-05-27T16:00:00.000Z', secondReminderAt: '2026-06-10T16:00:00.000Z', decideAt: '2026-07-01T16:00:00.000Z',
      deciderId: id, reminders: 0, remindedAt: null, state: 'open', decision: null, due: null, endedAt: null, version: 1,
    }],
  });

export const OpenUnclaimed = z
  .strictObject({
    deciderId: uuid,
    /** Those of our own calibration (library `found`) when left out. */
    days: daysInOrder.nullable().default(null),
    /** Since when the notice hangs: the days count from then. Now when left out. */
    noticedAt: instant.nullable().default(null),
  })
  .meta({ id: 'OpenUnclaimed', examples: [{ deciderId: id }] });

export const DecideUnclaimed = z
  .strictObject({
    personId: uuid,
    decision: z.enum(UNCLAIMED),
    /** What the authority said, and why; sealed. */
    reason: text(1_000, 3),
  })
  .meta({ id: 'DecideUnclaimed', examples: [{ personId: id, decision: 'hand-to-authority', reason: 'The town office takes found things after a year and answered so by letter.' }] });

export const UnclaimedBody = z
  .strictObject({
    path: UncollectedBody,
    /** How many of two have spoken. */
    votes: z.int(),
    caution: z.string(),
  })
  .meta({
    id: 'Unclaimed',
    description: 'The dated path of a found thing that nobody claims. Two people decide; one who would keep it is enough to keep it.',
    examples: [{
      path: {
        id, incidentId: id, householdId: id, itemId: id, openedAt: '2026-05-20T16:00:00.000Z', firstReminderAt: '2026-06-03T16:00:00.000Z', secondReminderAt: '2026-07-19T16:00:00.000Z', decideAt: '2027-05-20T16:00:00.000Z',
        deciderId: id, reminders: 0, remindedAt: null, state: 'open', decision: null, due: null, endedAt: null, version: 1,
      },
      votes: 0, caution: 'Local law on found property decides what may become of it: ask the authority before anything is let go.',
    }],
  });
