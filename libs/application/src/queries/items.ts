import { isTagFault, parseTagCode, type CustodyEvent } from '#custody';
import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { tagInvalid } from '../intake/take-in.js';
import type { ItemFilter, ItemRecord } from '../ports/item-store.js';
import type { TagRecord } from '../ports/tag-store.js';
import type { Stores } from '../ports/work.js';

export async function getItem(stores: Stores, _call: UseCaseCall, input: { itemId: string }): Promise<ItemRecord> {
  const item = await stores.items.find(input.itemId);
  if (!item) throw notFound('item');
  return item;
}

/** One page more than asked for tells whether there is a next page. */
export async function listItems(stores: Stores, _call: UseCaseCall, input: { incidentId: string; filter: ItemFilter; limit: number; after: string | null }): Promise<ItemRecord[]> {
  if (!(await stores.places.incident(input.incidentId))) throw notFound('incident');
  return stores.items.page(input.incidentId, input.filter, input.limit, input.after);
}

export async function listCustodyEvents(stores: Stores, _call: UseCaseCall, input: { itemId: string; afterSeq: number; limit: number }): Promise<CustodyEvent[]> {
  if (!(await stores.items.find(input.itemId))) throw notFound('item');
  return stores.custody.chain(input.itemId, input.afterSeq, input.limit);
}

/** What a scanned or typed tag belongs to; a mistyped one is answered with the nearest plausible tags. */
export async function lookUpTag(stores: Stores, _call: UseCaseCall, input: { typed: string }): Promise<{ tag: TagRecord; item: ItemRecord | null }> {
  const parsed = parseTagCode(input.typed);
  if (isTagFault(parsed)) throw await tagInvalid(stores, input.typed, parsed.text, null);
  const tag = await stores.tags.find(parsed.code);
  if (!tag) throw notFound('tag');
  return { tag, item: tag.itemId === null ? null : await stores.items.find(tag.itemId) };
}
