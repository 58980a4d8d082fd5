import { z } from 'zod';
import { instant, optionalText, PageQuery, text, uuid } from '../primitives.js';
import { CustodyEventBody, KeeperRef } from './custody.js';
import { ItemBody } from './items.js';

const id = '0198b7a0-0000-7000-8000-000000000001';
const otherId = '0198b7a0-0000-7000-8000-000000000002';

const item = {
  id, incidentId: id, householdId: id, siteId: id, tag: 'BBBC-BBB-47', kind: 'item' as const, count: 1, splitFromId: null, description: 'Wedding quilt', familyWords: '', photographRef: '', photographedOn: null,
  materialClass: 'textile-quilt-padded' as const, sizeClass: 'double-quilt', dryingAreaM2: 5.5, freezerVolumeL: 32, dryMassKg: 2.1, significance: 'irreplaceable' as const, arrivedAt: '2026-05-09T07:10:00.000Z', wettedAt: null,
  keeper: { kind: 'holding' as const, id }, stage: 'waiting' as const, custodySeq: 2, openHandOver: null, locationDisputed: true, missing: false, lastSeenAt: '2026-05-09T09:12:00.000Z', urgency: 'within-a-day' as const, startBy: '2026-05-10T06:00:00.000Z', disposition: 'treat' as const, nextStep: 'colour-test' as const, waitingForOwner: false, stabilisedAt: null, version: 3,
};
const event = {
  itemId: id, seq: 2, kind: 'location-disputed' as const, from: { kind: 'holding' as const, id }, to: { kind: 'holding' as const, id }, stage: 'waiting' as const, actorId: id,
  occurredAt: '2026-05-09T09:12:00.000Z', recordedAt: '2026-05-09T09:12:02.000Z', refs: { claimedKind: 'shelf', claimedId: otherId, personId: id }, corrects: null, hashedWords: null, commandId: id, prevHash: '0'.repeat(64), hash: 'a'.repeat(64), form: 1,
};

export const DisputeLocation = z
  .strictObject({
    /** Where it is said to be; or its tag in `placeTag`. */
    place: KeeperRef.nullable().default(null),
    placeTag: text(40).nullable().default(null),
    /** Who saw it there. */
    personId: uuid.nullable().default(null),
    seenAt: instant.nullable().default(null),
    note: optionalText(1_000),
  })
  .refine(({ place, placeTag }) => (place === null) !== (placeTag === null), { message: 'name the place once: by `place` or by `placeTag`', path: ['placeTag'] })
  .meta({ id: 'DisputeLocation', examples: [{ place: { kind: 'shelf', id: otherId }, personId: id, seenAt: '2026-05-09T09:12:00Z', note: 'Lies on top of the sewing machine.' }] });
export type DisputeLocation = z.output<typeof DisputeLocation>;

/** What can be done with a thing where somebody has it in front of them; how a thing leaves is recorded by commands of their own. */
const HERE = ['waiting', 'in-work', 'drying', 'held-wet', 'held-frozen'] as const;

const truePlace = {
  /** Where it is. */
  at: KeeperRef,
  /** Who has it in front of them. */
  personId: uuid,
  /** What is being done with it there; left out, that is as on record. */
  stage: z.enum(HERE).nullable().default(null),
  seenAt: instant.nullable().default(null),
};

export const SettleLocation = z.strictObject(truePlace).meta({ id: 'SettleLocation', examples: [{ at: { kind: 'shelf', id: otherId }, personId: id }] });
export type SettleLocation = z.output<typeof SettleLocation>;

export const RecordFinding = z.strictObject(truePlace).meta({ id: 'RecordFinding', examples: [{ at: { kind: 'holding', id }, personId: id, stage: 'waiting' }] });
export type RecordFinding = z.output<typeof RecordFinding>;

export const ReportMissing = z
  .strictObject({
    /** Who looked for it. */
    personId: uuid.nullable().default(null),
    lookedAt: instant.nullable().default(null),
  })
  .meta({ id: 'ReportMissing', examples: [{ personId: id }] });
export type ReportMissing = z.output<typeof ReportMissing>;

export const MergeItems = z
  .strictObject({
    /** The record that goes on. */
    into: uuid,
    reason: z.enum(['tagged-twice', 'taken-in-twice', 'tag-lost-and-taken-in-again']),
    /** The lead who looked at both tags. */
    personId: uuid,
  })
  .meta({ id: 'MergeItems', examples: [{ into: otherId, reason: 'tagged-twice', personId: id }] });
export type MergeItems = z.output<typeof MergeItems>;

export const SwapIdentities = z
  .strictObject({
    /** The other item. */
    with: uuid,
    reason: z.enum(['confused-at-tagging', 'came-off-and-put-back-wrong', 'descriptions-confused']),
    /** The lead who looked at both things. */
    personId: uuid,
  })
  .meta({ id: 'SwapIdentities', examples: [{ with: otherId, reason: 'confused-at-tagging', personId: id }] });
export type SwapIdentities = z.output<typeof SwapIdentities>;

export const ItemAndEventBody = z
  .strictObject({ item: ItemBody, event: CustodyEventBody })
  .meta({ id: 'ItemAndEvent', description: 'The item as it is now, and the custody event that says why.', examples: [{ item, event }] });

export const MergedItemsBody = z
  .strictObject({
    /** The record that goes on. */
    item: ItemBody,
    /** The record that ended; its tag leads to the other from now on. */
    merged: ItemBody,
  })
  .meta({ id: 'MergedItems', description: 'Two records that were joined.', examples: [{ item: { ...item, locationDisputed: false }, merged: { ...item, id: otherId, tag: 'BBBD-BBB-17', keeper: { kind: 'same-thing', id }, stage: 'merged', locationDisputed: false } }] });

export const SwappedItemsBody = z
  .strictObject({ items: z.array(ItemBody).length(2) })
  .meta({ id: 'SwappedItems', description: 'Both items under the tags that they truly carry, the one of the address first.', examples: [{ items: [item, { ...item, id: otherId, tag: 'BBBD-BBB-17' }] }] });

export const OpenMattersQuery = PageQuery.extend({ matter: z.enum(['hand-over', 'disputed', 'missing']).optional() });

export const OpenMatterBody = z
  .strictObject({
    item: ItemBody,
    /** For a disputed location, the latest claim against the record. */
    latestClaim: z.strictObject({ place: KeeperRef, seenAt: z.string(), personId: z.string().nullable(), note: z.string() }).nullable(),
  })
  .meta({
    id: 'OpenMatter',
    description: 'An item about which something waits for an answer: `openHandOver`, `locationDisputed` and `missing` of the item say what.',
    examples: [{ item, latestClaim: { place: { kind: 'shelf', id: otherId }, seenAt: '2026-05-09T09:12:00.000Z', personId: id, note: 'Lies on top of the sewing machine.' } }],
  });
