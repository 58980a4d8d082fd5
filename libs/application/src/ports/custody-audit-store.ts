import type { AssignedEvent, CustodyEvent, ItemCustody } from '#custody';

/** Items and containers have records of one form in tables of their own. */
export const CHAIN_KINDS = ['item', 'container'] as const;
export type ChainKind = (typeof CHAIN_KINDS)[number];

/** An event as it stands in the record, beside everything that must agree with it; read in one statement. */
export interface AuditedEvent {
  event: CustodyEvent;
  /** The present state that stands beside the record; null when there is no such item or container. */
  head: ItemCustody | null;
  /** Something in the row that is not hashed contradicts the rest of it, its item or its root. */
  contradicts: boolean;
  rootNo: number | null;
  /** Hash that the event had when it was put down to wait for a root; null when it does not wait. */
  waitingHash: string | null;
}

/** Numbers of the last event, by id. */
export interface ChainPlace {
  id: string;
  seq: number;
}

/** Reads of the custody record for `verify`, page by page. Nothing here changes anything. */
export interface CustodyAuditStore {
  /** Events in the order of (item, number) after a place. */
  events(kind: ChainKind, after: ChainPlace | null, limit: number): Promise<AuditedEvent[]>;
  /** Items or containers that say they have events and have none. */
  withoutEvents(kind: ChainKind, afterId: string | null, limit: number): Promise<ChainPlace[]>;
  /** What was assigned to the leaves of a root, in leaf order. */
  assigned(rootNo: number): Promise<AssignedEvent[]>;
  /** Leaf hashes as stored with a root, and whether each block gives the subtree that stands beside it. */
  leaves(rootNo: number): Promise<{ leaves: Uint8Array[]; subtreesHold: boolean }>;
  /** Events that are assigned to a root that is not there. */
  assignedNowhere(limit: number): Promise<(ChainPlace & { rootNo: number })[]>;
  /** What waits for a root although there is no such event. */
  waitingForNothing(limit: number): Promise<ChainPlace[]>;
  /** Events that wait for a root, and since when the earliest does. */
  waiting(): Promise<{ count: number; sinceMs: number | null }>;
}
