/** What may be decided about things that nobody fetched. To let them go is none of it: that needs the owner's word for each item. */
export const UNCOLLECTED_DECISIONS = ['keep-longer', 'bring-to-them', 'store-elsewhere', 'search-for-them'] as const;
export type UncollectedDecision = (typeof UNCOLLECTED_DECISIONS)[number];
/** What two people may decide about something that was found and that nobody claimed. */
export const UNCLAIMED_DECISIONS = ['keep-longer', 'hand-to-authority', 'dispose'] as const;
export type UnclaimedDecision = (typeof UNCLAIMED_DECISIONS)[number];

/** What one of the two said. */
export interface UnclaimedVoteRecord {
  id: string;
  incidentId: string;
  uncollectedId: string;
  itemId: string;
  personId: string;
  principalId: string;
  decision: UnclaimedDecision;
  /** Sealed for the network. */
  reasonSealed: Uint8Array | null;
  decidedAtMs: number;
}

/** The dated path of a household whose things are ready and not fetched, or of one found thing that nobody claims. */
export interface UncollectedRecord {
  id: string;
  incidentId: string;
  /** The record of unknown owners for a found thing. */
  householdId: string;
  /** The found thing; null for a household, whose path is about all its things. */
  itemId: string | null;
  openedAtMs: number;
  openedBy: string;
  firstReminderAtMs: number;
  secondReminderAtMs: number;
  decideAtMs: number;
  /** The person who decides then. */
  deciderId: string;
  reminders: number;
  remindedAtMs: number | null;
  /** `ended`: the owner of a found thing became known, or its record was joined to another one. */
  state: 'open' | 'decided' | 'collected' | 'ended';
  decision: UncollectedDecision | UnclaimedDecision | null;
  /** Sealed for the household. */
  reasonSealed: Uint8Array | null;
  endedAtMs: number | null;
  endedBy: string | null;
  version: number;
}

export interface UncollectedStore {
  insert(path: UncollectedRecord): Promise<void>;
  lock(id: string): Promise<UncollectedRecord | null>;
  find(id: string): Promise<UncollectedRecord | null>;
  /** Of a household itself, never that of a found thing. */
  openOf(householdId: string): Promise<UncollectedRecord | null>;
  /** Every path of a found thing, oldest first. */
  ofFound(itemId: string): Promise<UncollectedRecord[]>;
  /** Open ones first, the longest open first; `after` is exclusive. */
  page(incidentId: string, limit: number, after: { ended: boolean; id: string } | null): Promise<UncollectedRecord[]>;
  /** Things of the household that are still with us. */
  held(householdId: string): Promise<number>;
  /** What was said on a path of a found thing, oldest first. */
  votes(uncollectedId: string): Promise<UnclaimedVoteRecord[]>;
  insertVote(vote: UnclaimedVoteRecord): Promise<void>;
  /** Saves how it stands and raises the version. */
  save(path: UncollectedRecord): Promise<void>;
}
