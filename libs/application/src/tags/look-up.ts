import { notFound } from '#contracts';
import type { ItemRecord } from '../ports/item-store.js';
import type { PlaceRecord } from '../ports/place-store.js';
import type { TagRecord } from '../ports/tag-store.js';
import type { Stores } from '../ports/work.js';

/** A tag with what it leads to. */
export interface TagLookUp {
  tag: TagRecord;
  item: ItemRecord | null;
  place: PlaceRecord | null;
  /** The tag by which the thing goes now: this one, or what took its place; null when nobody tied it. */
  inUse: string | null;
  /** The tag in whose place this one was put. */
  replaces: string | null;
}

/** A tag that is known to exist, as it is now. */
export async function lookedUp(stores: Stores, code: string): Promise<TagLookUp> {
  const tag = await stores.tags.find(code);
  if (!tag) throw notFound('tag');
  const item = tag.itemId === null ? null : await stores.items.find(tag.itemId);
  const place = tag.place === null ? null : await stores.places.find(tag.incidentId, tag.place);
  return { tag, item, place, inUse: await inUse(stores, tag, item), replaces: await stores.tags.predecessor(code) };
}

async function inUse(stores: Stores, tag: TagRecord, item: ItemRecord | null): Promise<string | null> {
  if (tag.replaced === null) return tag.tiedAtMs === null ? null : tag.code;
  if (item) return item.tagCode;
  if (tag.containerId !== null) return (await stores.containers.find(tag.containerId))?.tagCode ?? null;
  if (tag.place !== null) return (await stores.tags.liveOf({ place: tag.place }))?.code ?? null;
  return tag.personId === null ? null : ((await stores.tags.liveOf({ personId: tag.personId }))?.code ?? null);
}
