/**
 * Root statements: what a network's custody record was, hour by hour, in one line that can be signed, printed and kept elsewhere.
 *
 * Canonical form, version 1. The UTF-8 bytes of one JSON text, an array of exactly these members in this order:
 *
 *   ["wrackline-custody-root", v, networkId, rootNo, fromMs, toMs, eventCount, merkleRoot, prevRootHash, keyId]
 *
 * No white space; whole numbers in plain decimal; strings hold no character that JSON escapes. It equals its RFC 8785 form.
 * `hash` is the lower-case hexadecimal SHA-256 of those bytes, `signature` Ed25519 (RFC 8032) over the bytes themselves.
 *
 * A leaf of the tree is the UTF-8 text `itemId|seq|hash` of one event, in the order of (recordedAtMs, itemId, seq).
 */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, hexToBytes } from '@noble/hashes/utils.js';
import { GENESIS_HASH, sha256Hex } from './hash-chain.js';
import { leafHash, treeRoot, type Hash } from './merkle.js';

/** Stands for "the root before the first": 64 zeros. */
export const FIRST_ROOT_HASH = GENESIS_HASH;

export interface RootStatement {
  /** Version of the canonical form. */
  v: 1;
  networkId: string;
  /** From 1 without gaps in each network. */
  rootNo: number;
  /** Every event was recorded at or after this moment and before `toMs`; both are edges of a period. */
  fromMs: number;
  toMs: number;
  eventCount: number;
  /** Hex root of the tree over the events (`merkle.ts`). */
  merkleRoot: string;
  /** `hash` of the root before; `FIRST_ROOT_HASH` for the first. */
  prevRootHash: string;
  /** Names the public key (`keyIdOf`). */
  keyId: string;
}

export interface SignedRoot extends RootStatement {
  hash: string;
  /** Hex, 64 bytes. */
  signature: string;
}

/** What of an event goes into a leaf, and what orders the leaves. */
export interface RootEvent {
  itemId: string;
  seq: number;
  hash: string;
  recordedAtMs: number;
}

/** @throws RangeError for another version, or numbers that are not whole: the form would not be unique. */
export function rootForm(root: RootStatement): string {
  if (root.v !== 1) throw new RangeError(`root form ${String(root.v)} is not known`);
  if (![root.rootNo, root.fromMs, root.toMs, root.eventCount].every(Number.isSafeInteger)) throw new RangeError('numbers of a root must be whole');
  return JSON.stringify(['wrackline-custody-root', root.v, root.networkId, root.rootNo, root.fromMs, root.toMs, root.eventCount, root.merkleRoot, root.prevRootHash, root.keyId]);
}

export function hashRoot(root: RootStatement): string {
  return sha256Hex(rootForm(root));
}

/** Name of a public key: the first 16 hex digits of the SHA-256 of its 32 bytes (our own choice; 64 bits keep two keys of one network apart). */
export function keyIdOf(publicKeyHex: string): string {
  return bytesToHex(sha256(hexToBytes(publicKeyHex))).slice(0, 16);
}

export function rootLeaf(event: Pick<RootEvent, 'itemId' | 'seq' | 'hash'>): Hash {
  return leafHash(`${event.itemId}|${event.seq}|${event.hash}`);
}

/** Order of leaves: by the time of recording, then by item and number, as code units. */
export function compareLeaves(a: RootEvent, b: RootEvent): number {
  return a.recordedAtMs - b.recordedAtMs || (a.itemId < b.itemId ? -1 : a.itemId > b.itemId ? 1 : a.seq - b.seq);
}

/** The newest edge of a period that lies at least the grace before now: events recorded before it may be put under a root. */
export function rootCutoff(nowMs: number, periodMs: number, graceMs: number): number {
  return Math.floor((nowMs - graceMs) / periodMs) * periodMs;
}

/** How long until events that are recorded now may be put under a root. */
export function untilNextCutoff(nowMs: number, periodMs: number, graceMs: number): number {
  return rootCutoff(nowMs, periodMs, graceMs) + periodMs + graceMs - nowMs;
}

/**
 * The statement over some events (at least one, in leaf order). The period spans the edges round them: from that before the
 * earliest to that after the latest, so that an event that was committed late shows the hour it belongs to.
 */
export function stateRoot(events: readonly RootEvent[], before: { rootNo: number; hash: string } | null, about: { networkId: string; keyId: string; periodMs: number }): { root: RootStatement; leaves: Hash[] } {
  const [first, last] = [events[0], events.at(-1)];
  if (!first || !last) throw new RangeError('a root needs an event');
  const leaves = events.map(rootLeaf);
  const { networkId, keyId, periodMs } = about;
  return {
    leaves,
    root: {
      v: 1, networkId, keyId,
      rootNo: (before?.rootNo ?? 0) + 1,
      fromMs: Math.floor(first.recordedAtMs / periodMs) * periodMs,
      toMs: Math.floor(last.recordedAtMs / periodMs) * periodMs + periodMs,
      eventCount: events.length,
      merkleRoot: bytesToHex(treeRoot(leaves)),
      prevRootHash: before?.hash ?? FIRST_ROOT_HASH,
    },
  };
}
