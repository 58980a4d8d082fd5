/** Why a household was erased. */
export const ERASURE_REASONS = ['owner-asked', 'retention-ended', 'registered-in-error'] as const;
export type ErasureReason = (typeof ERASURE_REASONS)[number];

export interface ErasureRecord {
  id: string;
  incidentId: string;
  householdId: string;
  reason: ErasureReason;
  /** Null when the retention rule of the network did it. */
  decidedBy: string | null;
  principalId: string;
  items: number;
  files: number;
  /** Words in custody events of earlier versions, which a hash covers and nothing can take out. */
  wordsInChain: number;
  erasedAtMs: number;
}

export interface HoldRecord {
  id: string;
  incidentId: string;
  householdId: string;
  /** Sealed; `personalField('household_hold.reason', id)`. */
  reasonSealed: Uint8Array | null;
  placedBy: string;
  placedAtMs: number;
  liftedBy: string | null;
  liftedAtMs: number | null;
  version: number;
}

/** Rows by the name of their table, as they are held; sealed columns as text. */
export type HeldRows = Record<string, Record<string, unknown>[]>;

/** Tables that only repeat what others say; they are left out of `everything`. */
export const HELD_LEFT_OUT = ['item_word', 'household_word', 'household_key', 'plan_assignment', 'plan_unplanned', 'file_object', 'custody_root_event', 'custody_root_waiting'] as const;

export interface ErasureStore {
  /** Locks the household until the transaction ends; false when there is none. */
  lockHousehold(householdId: string): Promise<boolean>;
  of(householdId: string): Promise<ErasureRecord | null>;
  /** Tags of its things that have not left us yet, a few of them, and how many there are. */
  stillHeld(householdId: string, limit: number): Promise<{ count: number; tags: string[] }>;
  /** Imports of its incident that still wait or run: they may be about to say something of it. */
  importsUnderWay(incidentId: string): Promise<number>;
  /** Blanks every row about the household and its things, and destroys its key. Answers the numbers for the record. */
  erase(householdId: string, atMs: number): Promise<Pick<ErasureRecord, 'items' | 'wordsInChain'>>;
  /** Every row that names the household or one of its things. */
  everything(householdId: string): Promise<HeldRows>;
  insert(record: ErasureRecord): Promise<void>;
  /** Seals at most so many rows of each table that still stand in the clear; answers how many. */
  sealInClear(incidentId: string, rows: number): Promise<number>;
  openHold(householdId: string): Promise<HoldRecord | null>;
  holds(householdId: string): Promise<HoldRecord[]>;
  insertHold(hold: HoldRecord): Promise<void>;
  /** Null when there is no such hold. */
  lockHold(holdId: string): Promise<HoldRecord | null>;
  liftHold(holdId: string, by: string, atMs: number): Promise<void>;
}
