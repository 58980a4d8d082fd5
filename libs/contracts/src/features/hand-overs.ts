import { z } from 'zod';
import { instant, optionalText, PageQuery, text, uuid } from '../primitives.js';
import { KeeperRef } from './custody.js';

const id = '0198b7a0-0000-7000-8000-000000000001';
const MOST_THINGS = 200;
const state = z.enum(['open', 'accepted', 'declined', 'withdrawn', 'expired']);
const exception = z.enum(['not-received', 'damaged', 'wrong-thing', 'no-room', 'other']);

export const HandOverParams = z.strictObject({ handOverId: uuid });

export const OfferHandOver = z
  .strictObject({
    /** Who must hold all of it now; what the record of the first thing says when left out. */
    from: KeeperRef.nullable().default(null),
    /** Who is to receive it. */
    to: KeeperRef,
    itemIds: z.array(uuid).max(MOST_THINGS).default([]),
    containerIds: z.array(uuid).max(MOST_THINGS).default([]),
    tags: z.array(text(40)).max(MOST_THINGS).default([]),
    /** The giver. */
    personId: uuid,
    expiresAt: instant.nullable().default(null),
    reason: optionalText(500),
  })
  .refine((body) => body.itemIds.length + body.containerIds.length + body.tags.length >= 1, { message: 'name at least one thing', path: ['itemIds'] })
  .refine((body) => body.itemIds.length + body.containerIds.length + body.tags.length <= MOST_THINGS, { message: `name at most ${MOST_THINGS} things`, path: ['itemIds'] })
  .meta({ id: 'OfferHandOver', examples: [{ to: { kind: 'courier', id }, tags: ['BBBC-BBB-47'], personId: id, reason: 'To the dry store' }] });

export const AcceptHandOver = z
  .strictObject({
    /** The receiver. */
    personId: uuid,
    /** Tags of what was taken; everything that is not named as an exception when left out. */
    accepted: z.array(text(40)).max(MOST_THINGS).nullable().default(null),
    exceptions: z.array(z.strictObject({ tag: text(40), kind: exception, note: optionalText(500) })).max(MOST_THINGS).default([]),
  })
  .meta({ id: 'AcceptHandOver', examples: [{ personId: id, exceptions: [{ tag: 'BBBC-BBB-47', kind: 'not-received', note: 'Not in the van' }] }] });

export const EndHandOver = z.strictObject({ personId: uuid, reason: text(500) }).meta({ id: 'EndHandOver', examples: [{ personId: id, reason: 'The van is full' }] });

const head = {
  id: z.string(), incidentId: z.string(), from: KeeperRef, to: KeeperRef,
  giverId: z.string(), reason: z.string(), state, offeredAt: z.string(), expiresAt: z.string(),
  endedAt: z.string().nullable(),
  /** Null while it is open, and when nobody answered in time. */
  endedBy: z.string().nullable(),
  endedNote: z.string(), things: z.int(), version: z.int(),
};
const headExample = {
  id, incidentId: id, from: { kind: 'holding' as const, id }, to: { kind: 'courier' as const, id }, giverId: id, reason: 'To the dry store', state: 'open' as const, offeredAt: '2026-05-09T09:00:00.000Z', expiresAt: '2026-05-10T09:00:00.000Z',
  endedAt: null, endedBy: null, endedNote: '', things: 1, version: 1,
};

export const HandOverHeadBody = z.strictObject(head).meta({ id: 'HandOverHead', description: 'A hand-over without its lines.', examples: [headExample] });

export const HandOverBody = z
  .strictObject({
    ...head,
    lines: z.array(z.strictObject({
      thing: z.enum(['item', 'container']), id: z.string(), tag: z.string(),
      /** Items in the container when it was offered; null for an item. */
      itemsInside: z.int().nullable(),
      state: z.enum(['offered', 'accepted', 'excepted', 'declined', 'withdrawn', 'expired']), exception: exception.nullable(), note: z.string(),
    })),
  })
  .meta({
    id: 'HandOver',
    description: 'Things that one side offers and the other accepts. Until then the giver keeps them; what is named as an exception stays with the giver.',
    examples: [{ ...headExample, lines: [{ thing: 'item', id, tag: 'BBBC-BBB-47', itemsInside: null, state: 'offered', exception: null, note: '' }] }],
  });

export const HandOverListQuery = PageQuery.extend({ state: state.optional() });
