import { notFound, Problem } from '#contracts';
import { unknownReference } from '../care/claims.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';

/**
 * Two items of one incident, locked in the order of their ids whichever was named first, so that two who say the same thing from both
 * ends never wait for each other. @throws Problem not_found, reference_unknown, command_refused when both are one
 */
export async function twoItems(stores: Stores, itemId: string, otherId: string, pointer: string): Promise<[ItemRecord, ItemRecord]> {
  const locked = new Map((await stores.items.lockMany([itemId, otherId])).map((item) => [item.id, item]));
  const item = locked.get(itemId);
  if (!item) throw notFound('item');
  if (itemId === otherId) throw otherItem('This is the same record twice. Name the record of the other tag.', 'same_item', pointer);
  const other = locked.get(otherId);
  if (other?.incidentId !== item.incidentId) throw unknownReference('item', pointer);
  return [item, other];
}

/** The other record does not do. */
export function otherItem(text: string, reason: string, pointer: string): Problem {
  return new Problem('command_refused', text, { errors: [{ detail: text, code: reason, pointer }], members: { reason } });
}
