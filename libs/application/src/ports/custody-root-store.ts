import type { RootEvent, SignedRoot } from '#custody';

/** An event that waits for a root; `itemId` is the item or container whose record it is of. */
export type WaitingEvent = RootEvent & { incidentId: string };

/** Leaf hashes that are stored in a row, with the root of their subtree. */
export interface LeafBlock {
  leaves: Uint8Array[];
  subtree: Uint8Array;
}

/** Which leaf of which root an event is. */
export interface EventRoot {
  seq: number;
  rootNo: number;
  leafIndex: number;
}

export interface CustodyKeyRecord {
  keyId: string;
  /** Ed25519, hex. */
  publicKey: string;
  firstUsedAtMs: number;
}

export interface CustodyRootStore {
  /** Waits until no other transaction makes a root of this network, and keeps others from it until this one ends. */
  lockLine(): Promise<void>;
  /** Takes away, in leaf order, events recorded before a moment that wait for a root; only together with the root they go under. */
  takeWaiting(beforeMs: number, limit: number): Promise<WaitingEvent[]>;
  /** Notes a public key; one that is there stays as it is. */
  insertKey(key: CustodyKeyRecord): Promise<void>;
  /** Saves a root with its events in leaf order. */
  insert(root: SignedRoot, events: readonly WaitingEvent[], blocks: readonly LeafBlock[]): Promise<void>;
  last(): Promise<SignedRoot | null>;
  find(rootNo: number): Promise<SignedRoot | null>;
  findMany(rootNos: readonly number[]): Promise<SignedRoot[]>;
  /** In the order of their numbers. */
  page(limit: number, afterNo: number): Promise<SignedRoot[]>;
  keys(): Promise<CustodyKeyRecord[]>;
  /** Of the events of an item or container after one number up to another; those that wait for a root are left out. */
  rootsOf(itemId: string, afterSeq: number, upToSeq: number): Promise<EventRoot[]>;
  /** One block of leaf hashes; empty when it is not there. */
  block(rootNo: number, blockNo: number): Promise<Uint8Array[]>;
  /** Roots of the subtrees of all blocks, in order. */
  subtrees(rootNo: number): Promise<Uint8Array[]>;
}
