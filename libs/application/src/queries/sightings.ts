import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { SightingRecord } from '../ports/scan-store.js';
import type { Stores } from '../ports/work.js';

export interface SightingsInput {
  thing: { itemId: string } | { containerId: string };
  limit: number;
  afterId: string | null;
}

/** What was seen of a thing without moving it, in the order in which it was reported. */
export async function listSightings(stores: Stores, _call: UseCaseCall, { thing, limit, afterId }: SightingsInput): Promise<SightingRecord[]> {
  const found = 'itemId' in thing ? await stores.items.find(thing.itemId) : await stores.containers.find(thing.containerId);
  if (!found) throw notFound('itemId' in thing ? 'item' : 'container');
  return stores.scans.sightingsOf(thing, limit, afterId);
}
