/**
 * Custody: who or what holds an item now, the immutable record of every passing, and the item's stage.
 * Plain data; times are epoch milliseconds; ids are lower-case UUID strings.
 */

export const KEEPER_KINDS = ['household', 'station', 'drying-place', 'freezer', 'container', 'holding', 'shelf', 'vehicle', 'courier', 'specialist', 'partner-network', 'disposed', 'same-thing'] as const;
/**
 * `station` is the crew at a station; `holding` a waiting area of a site; `shelf` a numbered place of storage; `vehicle` what carries
 * things between sites; `disposed` ends with the owner's agreement; `same-thing` is another record of the very same object.
 */
export type KeeperKind = (typeof KEEPER_KINDS)[number];

export interface Keeper {
  kind: KeeperKind;
  id: string;
}

/** Each item is in exactly one stage; the situation report adds them up. */
export const STAGES = ['waiting', 'in-work', 'drying', 'held-wet', 'held-frozen', 'referred-out', 'released', 'handed-back', 'merged'] as const;
export type Stage = (typeof STAGES)[number];

export const CUSTODY_EVENT_KINDS = ['taken-in', 'moved', 'work-started', 'work-ended', 'drying-started', 'drying-ended', 'frozen', 'thawed', 'held-wet', 'referred-out', 'referral-returned', 'released', 'handed-back', 'lot-split', 'split-off',
  'hand-over-offered', 'hand-over-accepted', 'hand-over-ended', 'location-disputed', 'location-settled', 'reported-missing', 'found-again',
  'retagged', 'merged-away', 'merged-in', 'correction'] as const;
export type CustodyEventKind = (typeof CUSTODY_EVENT_KINDS)[number];

/** A hand-over that was offered and not yet answered; until it is accepted the giver stays the keeper. */
export interface OpenHandOver {
  id: string;
  /** Who is to receive it. */
  to: Keeper;
}

/** What is open about an item and must be answered by an event of its own kind. */
export interface OpenMatters {
  handOver: OpenHandOver | null;
  /** Two claims about where it is; the keeper on record stays until a person has looked. */
  disputed: boolean;
  /** Looked for and not found; the keeper on record is the last known one. */
  missing: boolean;
}

/** The item as the custody decisions need it; the projection of its events. */
export interface ItemCustody {
  networkId: string;
  itemId: string;
  /** Number of the last event; 0 before intake. */
  seq: number;
  /** Hex SHA-256 of the last event; 64 zeros before intake. */
  headHash: string;
  keeper: Keeper | null;
  stage: Stage | null;
  matters: OpenMatters;
}

export interface CustodyCommand {
  commandId: string;
  kind: CustodyEventKind;
  /** Who the sender believes holds it; must be the truth, or the move is refused. `null` only for `taken-in` and `split-off`. */
  from: Keeper | null;
  to: Keeper;
  /** Person or key that vouches for it. */
  actorId: string;
  /** When it happened, as the sender says. */
  occurredAtMs: number;
  /** References only, never personal data: reason code, step, consent id, hand-back id... Values are strings. */
  refs: Record<string, string>;
  /** For `correction`: the event number that it corrects and a code that says why. */
  corrects?: { seq: number; reason: string };
}

export interface CustodyEvent {
  /** Version of the canonical form. */
  v: 1;
  networkId: string;
  itemId: string;
  seq: number;
  commandId: string;
  kind: CustodyEventKind;
  from: Keeper | null;
  to: Keeper;
  stage: Stage;
  actorId: string;
  occurredAtMs: number;
  recordedAtMs: number;
  refs: Record<string, string>;
  corrects: { seq: number; reason: string } | null;
  prevHash: string;
  hash: string;
}

export interface Refusal {
  refused: true;
  code: 'already_taken_in' | 'not_taken_in' | 'terminal' | 'wrong_keeper' | 'same_keeper' | 'wrong_stage' | 'keeper_kind_not_allowed' | 'consent_missing' | 'correction_target_missing' | 'occurred_in_future' | 'reference_missing' | 'command_malformed' | 'hand_over_open' | 'hand_over_not_open' | 'location_disputed' | 'not_disputed' | 'missing' | 'not_missing';
  /** One sentence that helps. */
  text: string;
}

export interface ChainFault {
  itemId: string;
  seq: number;
  fault: 'gap' | 'prev_hash' | 'hash' | 'keeper_break' | 'head_mismatch' | 'wrong_item' | 'stage';
}
