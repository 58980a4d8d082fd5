/** What may be decided about things that nobody fetched. To let them go is none of it: that needs the owner's word for each item. */
export const UNCOLLECTED_DECISIONS = ['keep-longer', 'bring-to-them', 'store-elsewhere', 'search-for-them'] as const;
export type UncollectedDecision = (typeof UNCOLLECTED_DECISIONS)[number];

/** The dated path of a household whose things are ready and not fetched. */
export interface UncollectedRecord {
  id: string;
  incidentId: string;
  householdId: string;
  openedAtMs: number;
  openedBy: string;
  firstReminderAtMs: number;
  secondReminderAtMs: number;
  decideAtMs: number;
  /** The person who decides then. */
  deciderId: string;
  reminders: number;
  remindedAtMs: number | null;
  state: 'open' | 'decided' | 'collected';
  decision: UncollectedDecision | null;
  /** Sealed for the household. */
  reasonSealed: Uint8Array | null;
  endedAtMs: number | null;
  endedBy: string | null;
  version: number;
}

export interface UncollectedStore {
  insert(path: UncollectedRecord): Promise<void>;
  lock(id: string): Promise<UncollectedRecord | null>;
  openOf(householdId: string): Promise<UncollectedRecord | null>;
  /** Open ones first, the longest open first; `after` is exclusive. */
  page(incidentId: string, limit: number, after: { ended: boolean; id: string } | null): Promise<UncollectedRecord[]>;
  /** Things of the household that are still with us. */
  held(householdId: string): Promise<number>;
  /** Saves how it stands and raises the version. */
  save(path: UncollectedRecord): Promise<void>;
}
