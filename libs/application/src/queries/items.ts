import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { tellAll, type ToldEvent } from '../custody/own-words.js';
import type { ItemFilter, ItemRecord } from '../ports/item-store.js';
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

export async function listCustodyEvents(stores: Stores, _call: UseCaseCall, input: { itemId: string; afterSeq: number; limit: number }): Promise<ToldEvent[]> {
  if (!(await stores.items.find(input.itemId))) throw notFound('item');
  return tellAll(stores, await stores.custody.chain(input.itemId, input.afterSeq, input.limit));
}
