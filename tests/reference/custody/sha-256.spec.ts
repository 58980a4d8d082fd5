import { createHash } from 'node:crypto';
import { describe, expect, test } from '@jest/globals';
import { canonicalForm, hashEvent, sha256Hex, type CustodyEvent } from '#custody';

/**
 * SHA-256, FIPS 180-4 (NIST, Secure Hash Standard). The first, second and fourth message are NIST's examples (FIPS 180-2,
 * appendix B.1 to B.3, kept with FIPS 180-4 as "Examples with Intermediate Values"), the empty one is from NIST's CAVP short
 * message file. Digests written from memory; Node's own implementation must agree, so a slip of memory cannot pass.
 */
const VECTORS = [
  ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
  ['abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq', '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1'],
  ['', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
  ['a'.repeat(1_000_000), 'cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0'],
] as const;

describe('SHA-256 of FIPS 180-4', () => {
  test.each(VECTORS.map(([message, digest]) => ({ message, digest, name: `${message.slice(0, 8)}... (${message.length})` })))('$name', ({ message, digest }) => {
    expect(sha256Hex(message)).toBe(digest);
    expect(createHash('sha256').update(message, 'utf8').digest('hex')).toBe(digest);
  });

  test('text beyond ASCII is hashed as UTF-8', () => {
    expect(sha256Hex('Überschwemmung 洪水 🧵')).toBe(createHash('sha256').update('Überschwemmung 洪水 🧵', 'utf8').digest('hex'));
  });
});

describe('canonical form, version 1', () => {
  const event: Omit<CustodyEvent, 'hash'> = {
    v: 1,
    networkId: '0190a000-0000-7000-8000-000000000001',
    itemId: '0190a000-0000-7000-8000-000000000002',
    seq: 2,
    commandId: '0190a000-0000-7000-8000-000000000003',
    kind: 'correction',
    from: { kind: 'holding', id: 'h-1' },
    to: { kind: 'drying-place', id: 'd-1' },
    stage: 'drying',
    actorId: '0190a000-0000-7000-8000-000000000004',
    occurredAtMs: 1_700_000_000_000,
    recordedAtMs: 1_700_000_000_123,
    refs: { zeta: 'q"uote', stage: 'drying', '10': 'ten', '9': 'nine' },
    corrects: { seq: 1, reason: 'wrong-place' },
    prevHash: '0'.repeat(64),
  };
  const form =
    '["wrackline-custody",1,"0190a000-0000-7000-8000-000000000001","0190a000-0000-7000-8000-000000000002",2,' +
    '"0190a000-0000-7000-8000-000000000003","correction",["holding","h-1"],["drying-place","d-1"],"drying",' +
    '"0190a000-0000-7000-8000-000000000004",1700000000000,1700000000123,' +
    '[["10","ten"],["9","nine"],["stage","drying"],["zeta","q\\"uote"]],[1,"wrong-place"],' +
    `"${'0'.repeat(64)}"]`;

  test('the form is frozen: chains written today must verify for ever', () => {
    expect(canonicalForm(event)).toBe(form);
  });

  test("the hash is the SHA-256 of the form, by Node's own implementation", () => {
    expect(hashEvent(event)).toBe(createHash('sha256').update(form, 'utf8').digest('hex'));
  });

  test('an intake writes null for nobody and for no correction', () => {
    const written = canonicalForm({ ...event, from: null, corrects: null });
    expect(written).toContain('"correction",null,["drying-place","d-1"]');
    expect(written).toContain(`],null,"${'0'.repeat(64)}"]`);
  });

  test.each([
    ['a broken time', { occurredAtMs: Number.NaN }],
    ['a fractional seq', { seq: 1.5 }],
    ['a fractional corrected seq', { corrects: { seq: 0.5, reason: 'x' } }],
  ])('%s has no form', (_name, part) => {
    expect(() => canonicalForm({ ...event, ...part })).toThrow(RangeError);
  });
});
