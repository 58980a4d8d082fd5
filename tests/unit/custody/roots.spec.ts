import { generateKeyPairSync, sign, verify } from 'node:crypto';
import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { bytesToHex } from '@noble/hashes/utils.js';
import { compareExported, compareLeaves, FIRST_ROOT_HASH, hashRoot, inclusionPath, isUnderRoot, keyIdOf, rootCutoff, rootForm, sha256Hex, stateRoot, untilNextCutoff, verifyRootLine, verifyUnderRoot, type AssignedEvent, type RootEvent, type SignatureCheck, type SignedRoot } from '#custody';

const NETWORK = '0190b000-0000-7000-8000-00000000000a';
const HOUR_MS = 3_600_000;
const AT_MS = Date.parse('2026-05-09T07:00:00Z');

const pair = generateKeyPairSync('ed25519');
const publicKey = Buffer.from(pair.publicKey.export({ format: 'jwk' }).x ?? '', 'base64url').toString('hex');
const keyId = keyIdOf(publicKey);
const signed = (root: Parameters<typeof rootForm>[0]): SignedRoot => ({ ...root, hash: hashRoot(root), signature: sign(null, Buffer.from(rootForm(root)), pair.privateKey).toString('hex') });
const check: SignatureCheck = {
  publicKeyOf: (id) => (id === keyId ? publicKey : null),
  verifySignature: (_key, text, signature) => verify(null, Buffer.from(text), pair.publicKey, Buffer.from(signature, 'hex')),
};

const event = (n: number, hour = 0): RootEvent => ({ itemId: `0190b000-0000-7000-8000-${String(n).padStart(12, '0')}`, seq: 1, hash: sha256Hex(`event ${n}`), recordedAtMs: AT_MS + hour * HOUR_MS + n });

/** Three roots with their events, one after the other. */
function line(): { root: SignedRoot; events: RootEvent[]; leaves: Uint8Array[] }[] {
  const made: { root: SignedRoot; events: RootEvent[]; leaves: Uint8Array[] }[] = [];
  for (let hour = 0; hour < 3; hour += 1) {
    const events = [1, 2, 3, 4, 5].map((n) => event(n + hour * 10, hour));
    const { root, leaves } = stateRoot(events, made.at(-1)?.root ?? null, { networkId: NETWORK, keyId, periodMs: HOUR_MS });
    made.push({ root: signed(root), events, leaves });
  }
  return made;
}

const assignedOf = (events: readonly RootEvent[]): AssignedEvent[] => events.map(({ itemId, seq, hash, recordedAtMs }, leafIndex) => ({ leafIndex, itemId, seq, event: { hash, recordedAtMs } }));
const faultsOf = (roots: readonly SignedRoot[]) => verifyRootLine(NETWORK, roots, check).map(({ rootNo, fault }) => `${rootNo} ${fault}`);

describe('the canonical form of a root', () => {
  test('is one JSON array of fixed order, whose bytes anybody can make again', () => {
    const [first] = line();
    if (!first) throw new Error('no root');
    expect(rootForm(first.root)).toBe(`["wrackline-custody-root",1,"${NETWORK}",1,${AT_MS},${AT_MS + HOUR_MS},5,"${first.root.merkleRoot}","${FIRST_ROOT_HASH}","${keyId}"]`);
    expect(first.root.hash).toBe(sha256Hex(rootForm(first.root)));
  });

  test('property: two statements that differ anywhere differ in their form', () => {
    const [first] = line();
    if (!first) throw new Error('no root');
    const changes = fc.record({ networkId: fc.uuid(), rootNo: fc.nat(), fromMs: fc.nat(), toMs: fc.nat(), eventCount: fc.nat(), merkleRoot: fc.string(), prevRootHash: fc.string(), keyId: fc.string() }, { requiredKeys: [] });
    fc.assert(fc.property(changes, changes, (a, b) => {
      const [one, other] = [{ ...first.root, ...a }, { ...first.root, ...b }];
      const members = (root: SignedRoot) => [root.networkId, root.rootNo, root.fromMs, root.toMs, root.eventCount, root.merkleRoot, root.prevRootHash, root.keyId];
      expect(rootForm(one) === rootForm(other)).toBe(members(one).every((value, index) => Object.is(value, members(other)[index])));
    }));
  });

  test('refuses what would have no unique form', () => {
    const [first] = line();
    if (!first) throw new Error('no root');
    expect(() => rootForm({ ...first.root, fromMs: 0.5 })).toThrow(RangeError);
    expect(() => rootForm({ ...first.root, v: 2 as never })).toThrow(RangeError);
  });
});

describe('a sound line of roots', () => {
  test('has no faults, and neither has what stands under it', () => {
    const roots = line();
    expect(faultsOf(roots.map(({ root }) => root))).toEqual([]);
    for (const { root, events, leaves } of roots) expect(verifyUnderRoot(root, leaves, assignedOf(events))).toEqual([]);
  });

  test('every event is proved by its path and by no other root or event', () => {
    for (const { root, events, leaves } of line()) {
      events.forEach((one, index) => {
        const path = inclusionPath(leaves, index).map((hash) => bytesToHex(hash));
        expect(isUnderRoot(root, one, index, path)).toBe(true);
        expect(isUnderRoot(root, { ...one, hash: sha256Hex('another') }, index, path)).toBe(false);
        expect(isUnderRoot(root, { ...one, seq: 2 }, index, path)).toBe(false);
        expect(isUnderRoot({ ...root, eventCount: 4 }, one, index, path)).toBe(false);
        expect(isUnderRoot(root, one, index, ['not a hash', ...path.slice(1)])).toBe(false);
      });
    }
  });
});

describe('what was altered about roots is named', () => {
  const changed = (index: number, change: Partial<SignedRoot>) => line().map(({ root }, at) => (at === index ? { ...root, ...change } : root));

  test.each<[string, Partial<SignedRoot>]>([
    ['hours', { fromMs: AT_MS }], ['end', { toMs: AT_MS }], ['count', { eventCount: 4 }], ['tree', { merkleRoot: 'a'.repeat(64) }], ['form', { v: 2 as never }],
  ])('an edited %s breaks the hash of its own statement', (_what, change) => expect(faultsOf(changed(1, change))).toContain('2 statement'));

  test('an edit with its hash made again is betrayed by the signature and by the next root', () => {
    const [, second] = line();
    if (!second) throw new Error('no root');
    const root = { ...second.root, eventCount: 4 };
    expect(faultsOf(changed(1, { ...root, hash: hashRoot(root) }))).toEqual(['2 signature', '3 prev_root']);
  });

  test('a root that is gone is named, from the beginning and from the middle', () => {
    const roots = line().map(({ root }) => root);
    expect(faultsOf(roots.slice(1))).toEqual(['1 root_missing']);
    expect(faultsOf([...roots.slice(0, 1), ...roots.slice(2)])).toEqual(['2 root_missing']);
  });

  test('a foreign network, an unknown key, a key under a false name and a broken signature are named', () => {
    expect(faultsOf(changed(0, { networkId: NETWORK.replace('a', 'b') }))).toContain('1 wrong_network');
    expect(faultsOf(changed(0, { keyId: '0'.repeat(16) }))).toContain('1 key_unknown');
    expect(faultsOf(changed(2, { signature: '00' }))).toEqual(['3 signature']);
    const [first] = line();
    const under = { ...check, publicKeyOf: () => 'f'.repeat(64) };
    expect(verifyRootLine(NETWORK, first ? [first.root] : [], under).map(({ fault }) => fault)).toEqual(['key_unknown']);
  });
});

describe('what was altered under a root is named with its event', () => {
  const second = () => line()[1] ?? (undefined as never);
  const faults = (assigned: AssignedEvent[], leaves = second().leaves) => verifyUnderRoot(second().root, leaves, assigned).map(({ fault, itemId, seq }) => (itemId === undefined ? fault : `${fault} ${itemId.slice(-2)} ${seq}`));

  test('an event that differs, one that is gone, and one that says it was recorded at another hour', () => {
    const assigned = assignedOf(second().events);
    expect(faults(assigned.map((one, index) => (index === 2 ? { ...one, event: { hash: sha256Hex('rewritten'), recordedAtMs: one.event?.recordedAtMs ?? 0 } } : one)))).toEqual(['event_differs 13 1']);
    expect(faults(assigned.map((one, index) => (index === 2 ? { ...one, event: null } : one)))).toEqual(['event_missing 13 1']);
    expect(faults(assigned.map((one, index) => (index === 2 && one.event ? { ...one, event: { ...one.event, recordedAtMs: AT_MS } } : one)))).toEqual(['outside_period 13 1']);
  });

  test('two events whose places were exchanged, and one that nobody assigns any more', () => {
    const assigned = assignedOf(second().events);
    expect(faults(assigned.map((one) => ({ ...one, leafIndex: one.leafIndex < 2 ? 1 - one.leafIndex : one.leafIndex })))).toEqual(['event_differs 11 1', 'event_differs 12 1']);
    expect(faults(assigned.slice(1))).toEqual(['count', 'leaf_unassigned']);
  });

  test('leaves that were rewritten with the events do not give the signed root', () => {
    const events = second().events.map((one, index) => (index === 2 ? { ...one, hash: sha256Hex('rewritten') } : one));
    const { leaves } = stateRoot(events, null, { networkId: NETWORK, keyId, periodMs: HOUR_MS });
    expect(faults(assignedOf(events), leaves)).toEqual(['merkle']);
  });
});

describe('a root that somebody else keeps', () => {
  const [first] = line();
  if (!first) throw new Error('no root');

  test('agrees with the record as it was', () => expect(compareExported(first.root, first.root, check)).toEqual([]));

  test('names the root whose record was rewritten and signed again with the true key', () => {
    const rewritten = signed({ ...first.root, merkleRoot: sha256Hex('another history') });
    expect(verifyRootLine(NETWORK, [rewritten], check)).toEqual([]);
    expect(compareExported(first.root, rewritten, check).map(({ rootNo, fault }) => [rootNo, fault])).toEqual([[1, 'not_as_exported']]);
    expect(compareExported(first.root, null, check).map(({ fault }) => fault)).toEqual(['root_missing']);
  });

  test('proves nothing when it was altered itself', () => {
    expect(compareExported({ ...first.root, eventCount: 4 }, first.root, check).map(({ fault }) => fault)).toEqual(['statement']);
    expect(compareExported({ ...first.root, signature: 'aa' }, first.root, check).map(({ fault }) => fault)).toEqual(['signature']);
    expect(compareExported({ ...first.root, keyId: 'unknown' }, first.root, check).map(({ fault }) => fault)).toEqual(['statement']);
  });
});

describe('hours', () => {
  test('an event may go under a root only when its hour has been over for the grace', () => {
    expect(rootCutoff(AT_MS + 59_999, HOUR_MS, 60_000)).toBe(AT_MS - HOUR_MS);
    expect(rootCutoff(AT_MS + 60_000, HOUR_MS, 60_000)).toBe(AT_MS);
  });

  test('property: when the wait is over, and not a millisecond before, what is recorded now may go under a root', () => {
    fc.assert(fc.property(fc.integer({ min: 0, max: AT_MS }), fc.integer({ min: 1_000, max: 86_400_000 }), fc.nat(60_000), (nowMs, periodMs, graceMs) => {
      const waitMs = untilNextCutoff(nowMs, periodMs, graceMs);
      expect(waitMs).toBeGreaterThan(0);
      expect(waitMs).toBeLessThanOrEqual(periodMs + graceMs);
      expect(rootCutoff(nowMs + waitMs, periodMs, graceMs)).toBeGreaterThan(rootCutoff(nowMs, periodMs, graceMs));
      expect(rootCutoff(nowMs + waitMs - 1, periodMs, graceMs)).toBe(rootCutoff(nowMs, periodMs, graceMs));
    }));
  });

  test('an event that comes late shows its own hour, because the period spans all events', () => {
    const events = [event(1, -5), event(2, 0)].sort(compareLeaves);
    const { root } = stateRoot(events, null, { networkId: NETWORK, keyId, periodMs: HOUR_MS });
    expect([root.fromMs, root.toMs]).toEqual([AT_MS - 5 * HOUR_MS, AT_MS + HOUR_MS]);
    expect(() => stateRoot([], null, { networkId: NETWORK, keyId, periodMs: HOUR_MS })).toThrow(RangeError);
  });
});
