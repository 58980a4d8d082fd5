import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { ItemWithMatters, MatterKind } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';

/** Things of an incident about which something is open, in the order of ids. */
export async function listOpenMatters(stores: Stores, _call: UseCaseCall, input: { incidentId: string; kind: MatterKind | null; limit: number; after: string | null }): Promise<ItemWithMatters[]> {
  if (!(await stores.places.incident(input.incidentId))) throw notFound('incident');
  return stores.items.withMatters(input.incidentId, input.kind, input.limit, input.after);
}
