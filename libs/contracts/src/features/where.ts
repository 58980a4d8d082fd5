import { KEEPER_KINDS, STAGES } from '#custody';
import { z } from 'zod';
import { PageQuery, text, uuid } from '../primitives.js';
import { KeeperRef } from './custody.js';

const id = '0198b7a0-0000-7000-8000-000000000001';
const handOver = z.strictObject({ id: z.string(), to: KeeperRef }).nullable();
const matters = { openHandOver: handOver, locationDisputed: z.boolean(), missing: z.boolean() };
const NO_MATTERS = { openHandOver: null, locationDisputed: false, missing: false };

export const ItemSearchQuery = z.strictObject({
  q: text(200).describe('A tag, also a mistyped one; the code of a household; words of the description or of what the family tells; a day such as 2026-05-08 or 8.5.2026 on which it was photographed. All words must fit.'),
  limit: z.coerce.number().int().min(1).max(50).default(20),
});

export const ItemHitBody = z
  .strictObject({
    foundBy: z.enum(['tag', 'nearest-tag', 'household', 'words']),
    itemId: z.string(),
    tag: z.string(),
    description: z.string(),
    householdId: z.string(),
    householdCode: z.string(),
    photographRef: z.string(),
    photographedOn: z.string().nullable(),
    stage: z.enum(STAGES),
    where: z.string().describe('Where it is, in words: from the box that it is in to the place where the box stands.'),
    way: z.array(z.strictObject({ keeper: KeeperRef, code: z.string(), name: z.string(), site: z.string().nullable() })).describe('The same by ids: who keeps it, then who keeps that, and so on.'),
    warnings: z.array(z.string()).describe('What must be known before anybody relies on it.'),
    since: z.string(),
    lastSeenAt: z.string(),
    ...matters,
    version: z.int(),
  })
  .meta({
    id: 'ItemHit', description: 'A thing with where it is now.',
    examples: [{
      foundBy: 'words', itemId: id, tag: 'BBBC-BBB-47', description: 'Wedding quilt, red and white', householdId: id, householdCode: 'HH-12', photographRef: '', photographedOn: '2026-05-08', stage: 'waiting', where: 'On the shelf Bay A, Upper hall.',
      way: [{ keeper: { kind: 'shelf', id }, code: 'A-3', name: 'Bay A', site: 'Upper hall' }], warnings: [], since: '2026-05-09T09:12:00.000Z', lastSeenAt: '2026-05-09T11:40:00.000Z', ...NO_MATTERS, version: 4,
    }],
  });

export const ItemSearchBody = z
  .strictObject({ hits: z.array(ItemHitBody), more: z.boolean().describe('There may be more: name one word more.') })
  .meta({ id: 'ItemSearch', description: 'Everything that a question may mean: a tag first, then tags one slip away, a household\'s things, and words; the newest first.', examples: [{ hits: [], more: false }] });

export const ContentsQuery = PageQuery.extend({
  placeTag: text(40).optional().describe('The tag of a place or container; or give `placeKind` and `placeId`.'),
  placeKind: z.enum(KEEPER_KINDS).optional(),
  placeId: uuid.optional(),
}).refine((query) => (query.placeTag === undefined) !== (query.placeId === undefined) && (query.placeId === undefined) === (query.placeKind === undefined), { message: 'give `placeTag`, or `placeKind` and `placeId`', path: ['placeTag'] });

export const LyingThingBody = z
  .strictObject({
    thing: z.enum(['item', 'container']), id: z.string(), tag: z.string(), description: z.string(), keeper: KeeperRef,
    depth: z.int().describe('1 at the place itself, 2 in a container there, and so on.'),
    stage: z.enum(STAGES).nullable().describe('Null for a container.'),
    ...matters, lastSeenAt: z.string(),
  })
  .meta({ id: 'LyingThing', description: 'One thing at a place, or in a container there.', examples: [{ thing: 'item', id, tag: 'BBBC-BBB-47', description: 'Wedding quilt', keeper: { kind: 'shelf', id }, depth: 1, stage: 'waiting', ...NO_MATTERS, lastSeenAt: '2026-05-09T11:40:00.000Z' }] });

export const UnseenItemBody = z
  .strictObject({
    itemId: z.string(), tag: z.string(), description: z.string(), householdId: z.string(), stage: z.enum(STAGES), keeper: KeeperRef, ...matters, lastSeenAt: z.string(),
    unseenForH: z.number().describe('Hours since anybody or any scan met it.'),
  })
  .meta({ id: 'UnseenItem', description: 'A thing that was not met for longer than its stage allows (calibration `sight`, our own numbers).', examples: [{ itemId: id, tag: 'BBBC-BBB-47', description: 'Wedding quilt', householdId: id, stage: 'waiting', keeper: { kind: 'shelf', id }, ...NO_MATTERS, lastSeenAt: '2026-05-08T20:00:00.000Z', unseenForH: 15.5 }] });
