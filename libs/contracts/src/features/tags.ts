import { TAG_KINDS, type TagKind } from '#custody';
import { z } from 'zod';
import { text, uuid } from '../primitives.js';
import { ItemBody } from './items.js';

const id = '0198b7a0-0000-7000-8000-000000000001';

export const TagParams = z.strictObject({ tag: z.string().min(1).max(40) });

export const TagBlockParams = z.strictObject({ blockId: uuid });

export const tagKind = z.enum(TAG_KINDS as [TagKind, ...TagKind[]]);

/** Kinds of keeper that are places with tags of their own. */
const placeKind = z.enum(['station', 'holding', 'drying-place', 'freezer', 'shelf', 'vehicle']);

export const ReserveTags = z
  .strictObject({ kind: tagKind, count: z.int().min(1).max(5_000), reservedFor: text(120) })
  .meta({ id: 'ReserveTags', examples: [{ kind: 'item', count: 200, reservedFor: 'Doorway team A' }] });

export const TagBlockBody = z
  .strictObject({ id: z.string(), kind: tagKind, reservedFor: z.string(), tags: z.array(z.string()) })
  .meta({ id: 'TagBlock', description: 'Tags that belong to one team; they can be printed and used without a network.', examples: [{ id, kind: 'item', reservedFor: 'Doorway team A', tags: ['BBBC-BBB-47'] }] });

export const TagBlockUseBody = z
  .strictObject({ id: z.string(), kind: tagKind, reservedFor: z.string(), reservedAt: z.string(), count: z.int(), used: z.int(), free: z.int() })
  .meta({ id: 'TagBlockUse', description: '`used` are tied to something, or were until they were replaced; `free` may still be tied.', examples: [{ id, kind: 'item', reservedFor: 'Doorway team A', reservedAt: '2026-05-09T06:30:00.000Z', count: 200, used: 57, free: 143 }] });

/** What a tag is tied to, by the name of its kind. */
const tiedTo = z.strictObject({ kind: z.enum(['item', 'container', 'person', ...placeKind.options]), id: z.string() });

export const TagLookUpBody = z
  .strictObject({
    tag: z.string(), kind: tagKind,
    state: z.enum(['unused', 'in-use', 'replaced']),
    tiedTo: tiedTo.nullable(), tiedAt: z.string().nullable(),
    /** The key that tied it; null for ties from before that was kept. */
    tiedBy: z.string().nullable(),
    item: ItemBody.nullable(), containerId: z.string().nullable(),
    place: z.strictObject({ kind: placeKind, id: z.string(), code: z.string(), name: z.string(), siteId: z.string().nullable() }).nullable(),
    personId: z.string().nullable(),
    replacedBy: z.string().nullable(), replacedAt: z.string().nullable(), replacedReason: z.string().nullable(),
    inUse: z.string().nullable(), replaces: z.string().nullable(),
  })
  .meta({
    id: 'TagLookUp',
    description: 'A tag and what it leads to. A replaced one (`replacedBy` took its place) leads to its thing for ever; `inUse` is the tag by which the thing goes now, `replaces` the one in whose place this was put.',
    examples: [{ tag: 'KRMJ-XTS-43', kind: 'item', state: 'unused', tiedTo: null, tiedAt: null, tiedBy: null, item: null, containerId: null, place: null, personId: null, replacedBy: null, replacedAt: null, replacedReason: null, inUse: null, replaces: null }],
  });

export const TieTag = z
  .union([z.strictObject({ place: z.strictObject({ kind: placeKind, id: uuid }) }), z.strictObject({ personId: uuid })])
  .meta({ id: 'TieTag', description: 'A place or a person of the incident for which the tag was reserved.', examples: [{ place: { kind: 'freezer', id } }, { personId: id }] });

export const ReplaceTag = z
  .strictObject({ newTag: text(40), reason: z.enum(['lost', 'illegible', 'damaged']) })
  .meta({ id: 'ReplaceTag', examples: [{ newTag: 'KGWS-VNJ-91', reason: 'illegible' }] });
