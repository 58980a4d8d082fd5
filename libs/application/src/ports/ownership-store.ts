/** Found things whose owner nobody knows (yet), what only an owner can know of them, and who says that one is theirs. */
import type { MaterialClass } from '#care';

/** A thing that was found. It belongs to the record of unknown owners of its incident until a claim is granted. */
export interface FoundItemRecord {
  id: string;
  incidentId: string;
  itemId: string;
  /** `2026-05-08`. */
  foundOn: string;
  /** In words; sealed for the network, `personalField('found_item.place', id)`. Null once erased. */
  placeSealed: Uint8Array | null;
  /** Likewise; null where nobody said who found it. */
  finderSealed: Uint8Array | null;
  recordedBy: string;
  recordedAtMs: number;
  grantedClaimId: string | null;
}

/** A question whose answer only the owner can know. Both sealed for the network. */
export interface OwnerMarkRecord {
  id: string;
  incidentId: string;
  foundItemId: string;
  itemId: string;
  questionSealed: Uint8Array | null;
  answerSealed: Uint8Array | null;
  /** The person, and the key with which it was written down. */
  recordedBy: string;
  recordedWith: string;
  recordedAtMs: number;
}

export const CLAIM_STATES = ['open', 'granted', 'declined', 'withdrawn'] as const;
export type ClaimState = (typeof CLAIM_STATES)[number];
/** Why somebody who decides does not accept. Codes only: words could tell a claimant which answer was wrong. */
export const DECLINE_REASONS = ['not-enough-agreed', 'cannot-be-told'] as const;
export type DeclineReason = (typeof DECLINE_REASONS)[number];
export const CLAIM_REASONS = [...DECLINE_REASONS, 'another-claim-accepted', 'taken-back', 'household-erased'] as const;
export type ClaimReason = (typeof CLAIM_REASONS)[number];

export interface OwnershipClaimRecord {
  id: string;
  incidentId: string;
  foundItemId: string;
  householdId: string;
  state: ClaimState;
  reason: ClaimReason | null;
  /** What the household said, as JSON; sealed for it. */
  answersSealed: Uint8Array | null;
  /** Who took the answers down, and with which key. */
  takenBy: string;
  takenWith: string;
  takenAtMs: number;
  endedAtMs: number | null;
  version: number;
}

export interface ClaimDecisionRecord {
  id: string;
  incidentId: string;
  claimId: string;
  personId: string;
  principalId: string;
  accepts: boolean;
  reason: DeclineReason | null;
  decidedAtMs: number;
}

/** Somebody saw what only the owner can know. */
export interface MarkLookRecord {
  id: string;
  incidentId: string;
  foundItemId: string;
  claimId: string;
  personId: string;
  principalId: string;
  lookedAtMs: number;
}

export const FOUND_STATES = ['unclaimed', 'claimed', 'decided', 'ended'] as const;
/** `decided`: its owner is known, or two people have said what becomes of it; `ended`: it has left us. */
export type FoundState = (typeof FOUND_STATES)[number];

/** A found thing in a list: nothing of where and by whom it was found, nor of what only the owner can know. */
export interface FoundListRecord {
  id: string;
  incidentId: string;
  itemId: string;
  tagCode: string;
  description: string;
  materialClass: MaterialClass;
  count: number;
  foundOn: string;
  recordedAtMs: number;
  state: FoundState;
  /** How many questions are on record. */
  questions: number;
  openClaims: number;
  /** The newest dated path. */
  uncollectedId: string | null;
}

export interface OwnershipStore {
  /** In the order in which they were recorded; `after` is the id of a found record and exclusive. */
  page(incidentId: string, state: FoundState | null, limit: number, after: string | null): Promise<FoundListRecord[]>;
  /** An open legal hold on the record of unknown owners, or on a household that claims or claimed the thing; its id. */
  heldByLaw(foundItemId: string): Promise<string | null>;
  insertFound(found: FoundItemRecord): Promise<void>;
  findByItem(itemId: string): Promise<FoundItemRecord | null>;
  /** Locks the found thing, and with it all claims on it, until the transaction ends. */
  lockFound(foundItemId: string): Promise<FoundItemRecord | null>;
  insertMark(mark: OwnerMarkRecord): Promise<void>;
  /** In the order in which they were written down. */
  marks(foundItemId: string): Promise<OwnerMarkRecord[]>;
  /** False when the household has an open claim on the thing already. */
  insertClaim(claim: OwnershipClaimRecord): Promise<boolean>;
  findClaim(claimId: string): Promise<OwnershipClaimRecord | null>;
  /** Every claim on the thing, oldest first. */
  claims(foundItemId: string): Promise<OwnershipClaimRecord[]>;
  /** State, reason and end of a claim. */
  endClaim(claim: OwnershipClaimRecord): Promise<void>;
  /** Claims of a household on this thing, ever, and on all things from the moment on. */
  tries(householdId: string, foundItemId: string, sinceMs: number): Promise<{ here: number; lately: number }>;
  insertDecision(decision: ClaimDecisionRecord): Promise<void>;
  decisions(claimId: string): Promise<ClaimDecisionRecord[]>;
  insertLook(look: MarkLookRecord): Promise<void>;
  looks(foundItemId: string): Promise<MarkLookRecord[]>;
  /** Ends every open claim of a household. */
  endClaimsOf(householdId: string, reason: ClaimReason, nowMs: number): Promise<void>;
  /** The place that the incident as a whole is known by. */
  areaOf(incidentId: string): Promise<string>;
  saveGranted(foundItemId: string, claimId: string): Promise<void>;
  /** The parts that were split off an item, and off these, as long as they belong to the same household; ids. */
  partsOf(itemId: string): Promise<string[]>;
  /**
   * Makes a locked item one of another household: the item, what was said of it and of its passings, and its files, sealed anew for that household.
   * Answers the new version of the item.
   */
  giveTo(itemId: string, householdId: string, nowMs: number): Promise<number>;
}
