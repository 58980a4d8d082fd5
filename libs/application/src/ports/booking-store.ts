/** A stretch of time at a site in which so many families may come. */
export interface SlotRecord {
  id: string;
  incidentId: string;
  siteId: string;
  startsAtMs: number;
  endsAtMs: number;
  /** Families at most. */
  capacity: number;
  booked: number;
  createdAtMs: number;
}

export const APPOINTMENT_STATES = ['booked', 'cancelled', 'missed', 'turned-away', 'kept'] as const;
export type AppointmentState = (typeof APPOINTMENT_STATES)[number];
export const IDENTITY_RESULTS = ['matched', 'not-matched', 'not-possible'] as const;

/** How identity was checked and what came of it; never the number of a document. */
export interface IdentityFinding {
  kind: 'document-seen' | 'known-in-person' | 'pickup-code';
  result: (typeof IDENTITY_RESULTS)[number];
}

/** What is kept of a one-time code. */
export interface CodeHash {
  salt: Uint8Array;
  hash: Uint8Array;
}

export interface AppointmentRecord {
  id: string;
  incidentId: string;
  slotId: string;
  householdId: string;
  state: AppointmentState;
  /** Null once it was used or the appointment ended. */
  code: CodeHash | null;
  check: IdentityFinding | null;
  bookedAtMs: number;
  bookedBy: string;
  endedAtMs: number | null;
  endedBy: string | null;
  version: number;
}

export interface BookingStore {
  /** Answers those that were not there yet. */
  insertSlots(slots: readonly SlotRecord[]): Promise<string[]>;
  slot(slotId: string): Promise<SlotRecord | null>;
  /** From a moment on, in the order of their beginnings; `after` is exclusive. */
  slots(siteId: string, fromMs: number, limit: number, after: { startsAtMs: number; id: string } | null): Promise<SlotRecord[]>;
  /** Takes one place where one is free, in one statement. Answers false when none is. */
  takePlace(slotId: string): Promise<boolean>;
  givePlace(slotId: string): Promise<void>;
  insert(appointment: AppointmentRecord): Promise<void>;
  lock(appointmentId: string): Promise<AppointmentRecord | null>;
  /** The one that the household has ahead of it. */
  ahead(householdId: string): Promise<AppointmentRecord | null>;
  /** Saves how it stands and raises the version. */
  save(appointment: AppointmentRecord): Promise<void>;
}
