import { z } from 'zod';
import { CustodyEventBody } from './custody.js';

const id = '0198b7a0-0000-7000-8000-000000000001';
const hash = 'a'.repeat(64);
const keyId = '0123456789abcdef';

const exampleRoot = {
  networkId: id, rootNo: 1, periodFrom: '2026-05-09T07:00:00.000Z', periodTo: '2026-05-09T08:00:00.000Z', eventCount: 412, merkleRoot: hash, prevRootHash: '0'.repeat(64), keyId, publicKey: hash, form: 1,
  statement: `["wrackline-custody-root",1,"${id}",1,1778310000000,1778313600000,412,"${hash}","${'0'.repeat(64)}","${keyId}"]`, hash, signature: 'b'.repeat(128),
};

export const CustodyRootBody = z
  .strictObject({
    networkId: z.string(),
    rootNo: z.int(),
    periodFrom: z.string(),
    periodTo: z.string(),
    eventCount: z.int(),
    merkleRoot: z.string(),
    prevRootHash: z.string(),
    keyId: z.string(),
    publicKey: z.string().nullable(),
    form: z.int(),
    statement: z.string(),
    hash: z.string(),
    signature: z.string(),
  })
  .meta({
    id: 'CustodyRoot',
    description:
      'A signed statement of what the custody record was. To check it without us: `signature` is Ed25519 (RFC 8032) by `publicKey` over the UTF-8 bytes of `statement`; `hash` is their SHA-256, and `prevRootHash` that of the root before; the numbers have no gaps. `merkleRoot` is the root of the hash tree of RFC 9162, section 2.1, over the leaves `itemId|seq|hash`, ordered by time of recording, item and number. All bytes are lower-case hex. Keep it where we cannot reach it, and know the key from somewhere else than this answer.',
    examples: [exampleRoot],
  });

export const CustodyKeyBody = z
  .strictObject({ keyId: z.string(), publicKey: z.string(), algorithm: z.literal('Ed25519'), firstUsedAt: z.string() })
  .meta({ id: 'CustodyKey', description: 'A key that has signed roots of your network. `keyId` is the first 16 hex digits of the SHA-256 of the 32 bytes of `publicKey`.', examples: [{ keyId, publicKey: hash, algorithm: 'Ed25519', firstUsedAt: '2026-05-09T08:01:00.000Z' }] });

export const CustodyKeysBody = z.strictObject({ items: z.array(CustodyKeyBody) }).meta({ id: 'CustodyKeys', examples: [{ items: [{ keyId, publicKey: hash, algorithm: 'Ed25519', firstUsedAt: '2026-05-09T08:01:00.000Z' }] }] });

const exampleEvent = {
  itemId: id, seq: 2, kind: 'work-started' as const, from: { kind: 'holding' as const, id }, to: { kind: 'station' as const, id }, stage: 'in-work' as const, actorId: id,
  occurredAt: '2026-05-09T08:00:00.000Z', recordedAt: '2026-05-09T08:00:02.000Z', refs: { personId: id }, corrects: null, hashedWords: null, commandId: id, prevHash: '0'.repeat(64), hash, form: 1,
};

export const CustodyProofBody = z
  .strictObject({
    event: CustodyEventBody,
    inclusion: z.strictObject({ rootNo: z.int(), leafIndex: z.int(), path: z.array(z.string()), root: CustodyRootBody.nullable() }).nullable(),
  })
  .meta({
    id: 'CustodyProof',
    description: 'An event with what proves that it is under a signed root: the index of its leaf and the hashes from the leaf up to `merkleRoot` (RFC 9162, section 2.1.3.2; the size of the tree is `eventCount`). `inclusion` is null while the event waits for its root, at most a little more than an hour.',
    examples: [{ event: exampleEvent, inclusion: { rootNo: 1, leafIndex: 7, path: [hash], root: exampleRoot } }, { event: exampleEvent, inclusion: null }],
  });

export const CUSTODY_FAULTS = [
  'gap', 'prev_hash', 'hash', 'keeper_break', 'head_mismatch', 'wrong_item', 'stage', 'not_under_root', 'root_missing', 'wrong_network', 'statement', 'prev_root', 'key_unknown', 'signature', 'outside_period',
] as const;

export const CustodyVerificationBody = z
  .strictObject({
    itemId: z.string(),
    sound: z.boolean(),
    events: z.int(),
    underRoots: z.int(),
    waiting: z.int(),
    faults: z.array(z.strictObject({ seq: z.int().nullable(), rootNo: z.int().nullable(), fault: z.enum(CUSTODY_FAULTS) })),
  })
  .meta({
    id: 'CustodyVerification',
    description:
      'What a check of the whole record of one item found. `gap`: an event is missing or twice; `hash`: its content is not what was hashed; `prev_hash`: it does not link to the one before; `keeper_break`: its giver did not hold the item; `stage`: it cannot follow; `head_mismatch`: the present state is not what the last event gives; `not_under_root`: the event is not the one that was put under its root; `outside_period`: it says it was recorded at another hour; the others are faults of the root itself. We check our own record here: hold the roots that you keep against it, too.',
    examples: [{ itemId: id, sound: true, events: 4, underRoots: 3, waiting: 1, faults: [] }, { itemId: id, sound: false, events: 4, underRoots: 4, waiting: 0, faults: [{ seq: 2, rootNo: null, fault: 'hash' }] }],
  });

export const CustodyRootParams = z.strictObject({ rootNo: z.coerce.number().int().min(1).max(2_147_483_647) });
