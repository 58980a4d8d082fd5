/**
 * The hash chain of one item's custody events: the canonical form, the hash, and the check that names what was altered.
 *
 * Canonical form, version 1. The UTF-8 bytes of one JSON text, an array of exactly these members in this order:
 *
 *   ["wrackline-custody", v, networkId, itemId, seq, commandId, kind, from, to, stage, actorId,
 *    occurredAtMs, recordedAtMs, refs, corrects, prevHash]
 *
 *   v            1
 *   from, to     [kind, id]; `from` is null when nobody held the item
 *   refs         array of [key, value], sorted by key in order of UTF-16 code units
 *   corrects     [seq, reason] or null
 *   others       strings, or whole numbers in plain decimal
 *
 * No white space; strings as ECMAScript `JSON.stringify` writes them (ECMA-262, QuoteJSONString). For this array the result
 * equals the JSON Canonicalization Scheme (RFC 8785), so any JCS library reproduces it. Every field is quoted or delimited
 * and the count is fixed, so two different events never share a form. `hash` itself is the only member left out.
 * `hash` is the lower-case hexadecimal SHA-256 (FIPS 180-4) of those bytes.
 *
 * What a chain cannot show: somebody who rewrites every event to the end, and the head beside it. Only a head that was
 * given to somebody else before can show that (exported roots, hand-over documents).
 */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import { sameKeeper } from './keeper.js';
import { mattersAfter, NO_MATTERS, sameMatters } from './matters.js';
import { stageAfter } from './stage-rules.js';
import type { ChainFault, CustodyEvent, ItemCustody, Keeper, Stage } from './types.js';

/** Stands for "the event before the first": 64 zeros. */
export const GENESIS_HASH = '0'.repeat(64);

/** Lower-case hexadecimal SHA-256 (FIPS 180-4) of the UTF-8 bytes of a text. */
export function sha256Hex(text: string): string {
  return bytesToHex(sha256(utf8ToBytes(text)));
}

/**
 * The canonical form, version 1, of an event (see the head of this file).
 * @throws RangeError for another version, or when a number is not a whole one: its form would not be unique.
 */
export function canonicalForm(event: Omit<CustodyEvent, 'hash'>): string {
  if (event.v !== 1) throw new RangeError(`canonical form ${String(event.v)} is not known`);
  const numbers = [event.seq, event.occurredAtMs, event.recordedAtMs, ...(event.corrects === null ? [] : [event.corrects.seq])];
  if (!numbers.every(Number.isSafeInteger)) throw new RangeError('seq and times must be whole numbers');
  return JSON.stringify([
    'wrackline-custody',
    event.v,
    event.networkId,
    event.itemId,
    event.seq,
    event.commandId,
    event.kind,
    event.from === null ? null : pair(event.from),
    pair(event.to),
    event.stage,
    event.actorId,
    event.occurredAtMs,
    event.recordedAtMs,
    Object.entries(event.refs).sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0)),
    event.corrects === null ? null : [event.corrects.seq, event.corrects.reason],
    event.prevHash,
  ]);
}

/** The hash of an event: `sha256Hex` of its canonical form. Throws as `canonicalForm` does. */
export function hashEvent(event: Omit<CustodyEvent, 'hash'>): string {
  return sha256Hex(canonicalForm(event));
}

/**
 * Checks the whole chain of one item, in the order given (store order: by `seq`).
 * @param events every event of the item, from the first.
 * @param head what is stored beside the chain as its present state; without it a missing last event cannot be seen.
 * @returns every fault found, in order, each with the item and the event number; empty when the chain is sound.
 *   `gap` names the first missing number, or the event's own number when it comes twice or out of order;
 *   `hash` an event whose content is not what was hashed; `prev_hash` one that does not link to the event before it;
 *   `keeper_break` one whose giver did not hold the item; `stage` one whose stage is not what the event leads to;
 *   `wrong_item` an event of another item or network; `head_mismatch` a head that the last event does not give.
 */
export function verifyChain(events: readonly CustodyEvent[], head?: ItemCustody): ChainFault[] {
  const faults: ChainFault[] = [];
  const owner = head ?? events[0];
  if (owner === undefined) return faults;
  let last = { seq: 0, hash: GENESIS_HASH, to: null as Keeper | null, stage: null as Stage | null, matters: NO_MATTERS };
  for (const event of events) {
    const add = (fault: ChainFault['fault'], seq = event.seq): number => faults.push({ itemId: event.itemId, seq, fault });
    if (event.itemId !== owner.itemId || event.networkId !== owner.networkId) add('wrong_item');
    if (event.seq !== last.seq + 1) add('gap', Math.min(event.seq, last.seq + 1));
    if (event.prevHash !== last.hash) add('prev_hash');
    if (!hashHolds(event)) add('hash');
    if (!sameKeeper(event.from, last.to)) add('keeper_break');
    if (stageAfter(last.stage, event) !== event.stage) add('stage');
    const matters = mattersAfter({ keeper: last.to, matters: last.matters }, event);
    last = { seq: event.seq, hash: event.hash, to: event.to, stage: event.stage, matters };
  }
  if (head !== undefined && !(head.seq === last.seq && head.headHash === last.hash && head.stage === last.stage && sameKeeper(head.keeper, last.to) && sameMatters(head.matters, last.matters))) {
    faults.push({ itemId: head.itemId, seq: Math.max(head.seq, last.seq), fault: 'head_mismatch' });
  }
  return faults;
}

function pair(keeper: Keeper): [string, string] {
  return [keeper.kind, keeper.id];
}

/** A stored event of unknown version or with broken numbers is a fault to report, not a reason to stop the check. */
function hashHolds(event: CustodyEvent): boolean {
  try {
    return hashEvent(event) === event.hash;
  } catch (error) {
    if (error instanceof RangeError) return false;
    throw error;
  }
}
