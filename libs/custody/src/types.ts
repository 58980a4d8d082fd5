/**
 * Custody: who or what holds an item now, the immutable record of every passing, and the item's stage.
 * Plain data; times are epoch milliseconds; ids are lower-case UUID strings.
 */

export const KEEPER_KINDS = ['household', 'station', 'drying-place', 'freezer', 'container', 'holding', 'courier', 'specialist', 'partner-network', 'disposed'] as const;
/** `station` is the crew at a station; `holding` a waiting area of a site; `disposed` ends with the owner's agreement. */
export type KeeperKind = (typeof KEEPER_KINDS)[number];

export interface Keeper {
  kind: KeeperKind;
  id: string;
}

/** Each item is in exactly one stage; the situation report adds them up. */
export const STAGES = ['waiting', 'in-work', 'drying', 'held-wet', 'held-frozen', 'referred-out', 'released', 'handed-back'] as const;
export type Stage = (typeof STAGES)[number];

export const CUSTODY_EVENT_KINDS = ['taken-in', 'moved', 'work-started', 'work-ended', 'drying-started', 'drying-ended', 'frozen', 'thawed', 'held-wet', 'referred-out', 'referral-returned', 'released', 'handed-back', 'lot-split', 'split-off', 'correction'] as const;
export type CustodyEventKind = (typeof CUSTODY_EVENT_KINDS)[number];

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
  code: 'already_taken_in' | 'not_taken_in' | 'terminal' | 'wrong_keeper' | 'same_keeper' | 'wrong_stage' | 'keeper_kind_not_allowed' | 'consent_missing' | 'correction_target_missing' | 'occurred_in_future' | 'reference_missing' | 'command_malformed';
  /** One sentence that helps. */
  text: string;
}

export interface ChainFault {
  itemId: string;
  seq: number;
  fault: 'gap' | 'prev_hash' | 'hash' | 'keeper_break' | 'head_mismatch' | 'wrong_item' | 'stage';
}
