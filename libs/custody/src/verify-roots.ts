/** Checks of roots: their line, the events under them, one event's proof, and roots that somebody else has kept. */
import { bytesToHex, hexToBytes } from '@noble/hashes/utils.js';
import { rootFromPath, treeRoot, type Hash } from './merkle.js';
import { FIRST_ROOT_HASH, hashRoot, keyIdOf, rootForm, rootLeaf, type RootEvent, type SignedRoot } from './root-form.js';

/**
 * `root_missing`      no root of this number, though a later one, or something assigned to it, is there
 * `wrong_network`     the statement names another network
 * `statement`         its content is not what was hashed (or its form is unknown)
 * `prev_root`         it does not link to the root before it
 * `key_unknown`       the key it names is not known, or is not the key of that name
 * `signature`         the signature does not fit statement and key
 * `count`             another number of events than stated
 * `merkle`            the stored leaves do not give the stated root
 * `leaf_unassigned`   nobody says which event a leaf stands for
 * `event_missing`     the event under a leaf is not there
 * `event_differs`     the event is not the one that was put under the root
 * `outside_period`    the event says it was recorded outside the stated hours
 * `not_as_exported`   somebody else keeps a root of this number that says otherwise
 */
export type RootFaultKind = 'root_missing' | 'wrong_network' | 'statement' | 'prev_root' | 'key_unknown' | 'signature' | 'count' | 'merkle' | 'leaf_unassigned' | 'event_missing' | 'event_differs' | 'outside_period' | 'not_as_exported';

export interface RootFault {
  networkId: string;
  rootNo: number;
  fault: RootFaultKind;
  /** The event, where it can be told. */
  itemId?: string;
  seq?: number;
}

/** What the pure checks need from outside: the public key of a name, as hex, and Ed25519. */
export interface SignatureCheck {
  publicKeyOf(keyId: string): string | null;
  verifySignature(publicKeyHex: string, text: string, signatureHex: string): boolean;
}

/** Missing numbers that are named before one root: a number that was altered must not fill the report. */
const MISSING_NAMED = 100;

/** Checks a root by itself and against the one before it (`null` before the first). */
export function verifyRoot(networkId: string, root: SignedRoot, before: Pick<SignedRoot, 'rootNo' | 'hash'> | null, check: SignatureCheck): RootFault[] {
  const faults: RootFault[] = [];
  const add = (fault: RootFaultKind, rootNo = root.rootNo): number => faults.push({ networkId, rootNo, fault });
  if (root.networkId !== networkId) add('wrong_network');
  const expected = (before?.rootNo ?? 0) + 1;
  for (let missing = expected; missing < Math.min(root.rootNo, expected + MISSING_NAMED); missing += 1) add('root_missing', missing);
  const followsOn = root.rootNo === expected;
  if (followsOn && root.prevRootHash !== (before?.hash ?? FIRST_ROOT_HASH)) add('prev_root');
  const form = formOf(root);
  if (form === null || hashRoot(root) !== root.hash) add('statement');
  const publicKey = check.publicKeyOf(root.keyId);
  if (publicKey === null || !isHash(publicKey) || keyIdOf(publicKey) !== root.keyId) add('key_unknown');
  else if (form !== null && !check.verifySignature(publicKey, form, root.signature)) add('signature');
  return faults;
}

/** Checks a whole line of roots in the order of their numbers. */
export function verifyRootLine(networkId: string, roots: readonly SignedRoot[], check: SignatureCheck): RootFault[] {
  return roots.flatMap((root, index) => verifyRoot(networkId, root, roots[index - 1] ?? null, check));
}

/** An event as it was assigned to a leaf; `event` is what the record holds for it now, `null` when it holds none. */
export interface AssignedEvent {
  leafIndex: number;
  itemId: string;
  seq: number;
  event: Pick<RootEvent, 'hash' | 'recordedAtMs'> | null;
}

/**
 * Checks what stands under a root. `leaves` are the leaf hashes as they were stored with it; because they give the signed root
 * or do not, an event that was altered later is named itself.
 */
export function verifyUnderRoot(root: SignedRoot, leaves: readonly Hash[], assigned: readonly AssignedEvent[]): RootFault[] {
  const { networkId, rootNo } = root;
  const faults: RootFault[] = [];
  if (leaves.length !== root.eventCount || assigned.length !== root.eventCount) faults.push({ networkId, rootNo, fault: 'count' });
  if (bytesToHex(treeRoot(leaves)) !== root.merkleRoot) faults.push({ networkId, rootNo, fault: 'merkle' });
  const taken = new Set(assigned.map(({ leafIndex }) => leafIndex));
  for (let index = 0; index < leaves.length; index += 1) if (!taken.has(index)) faults.push({ networkId, rootNo, fault: 'leaf_unassigned' });
  for (const one of assigned) {
    const fault = underLeaf(root, leaves[one.leafIndex], one);
    if (fault !== null) faults.push({ networkId, rootNo, fault, itemId: one.itemId, seq: one.seq });
  }
  return faults;
}

function underLeaf(root: SignedRoot, leaf: Hash | undefined, { itemId, seq, event }: AssignedEvent): RootFaultKind | null {
  if (event === null) return 'event_missing';
  if (leaf === undefined || bytesToHex(rootLeaf({ itemId, seq, hash: event.hash })) !== bytesToHex(leaf)) return 'event_differs';
  return event.recordedAtMs < root.fromMs || event.recordedAtMs >= root.toMs ? 'outside_period' : null;
}

/** True when the event is under the root by this path of hex hashes. The root itself is checked by `verifyRoot`. */
export function isUnderRoot(root: Pick<SignedRoot, 'merkleRoot' | 'eventCount'>, event: Pick<RootEvent, 'itemId' | 'seq' | 'hash'>, leafIndex: number, path: readonly string[]): boolean {
  if (!path.every(isHash)) return false;
  const found = rootFromPath(rootLeaf(event), leafIndex, root.eventCount, path.map((hash) => hexToBytes(hash)));
  return found !== null && bytesToHex(found) === root.merkleRoot;
}

/**
 * Holds a root that somebody has kept against the one of the record: the same signed statement, or a fault. An exported root
 * whose own hash or signature is wrong proves nothing, and that is a fault, too.
 */
export function compareExported(exported: SignedRoot, stored: SignedRoot | null, check: SignatureCheck): RootFault[] {
  const { networkId, rootNo } = exported;
  const own = formOf(exported);
  if (own === null || hashRoot(exported) !== exported.hash) return [{ networkId, rootNo, fault: 'statement' }];
  const publicKey = check.publicKeyOf(exported.keyId);
  if (publicKey === null || !isHash(publicKey) || keyIdOf(publicKey) !== exported.keyId) return [{ networkId, rootNo, fault: 'key_unknown' }];
  if (!check.verifySignature(publicKey, own, exported.signature)) return [{ networkId, rootNo, fault: 'signature' }];
  if (stored === null) return [{ networkId, rootNo, fault: 'root_missing' }];
  return formOf(stored) === own && stored.hash === exported.hash ? [] : [{ networkId, rootNo, fault: 'not_as_exported' }];
}

const isHash = (text: string): boolean => /^[0-9a-f]{64}$/.test(text);

/** A stored row of unknown version or with broken numbers is a fault to report, not a reason to stop the check. */
function formOf(root: SignedRoot): string | null {
  try {
    return rootForm(root);
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}
