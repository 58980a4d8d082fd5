import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { refuseClosed } from '../custody/open-incident.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';

export interface ChangeItemWordsInput {
  itemId: string;
  expectedVersion: number;
  description?: string | undefined;
  familyWords?: string | undefined;
  photographRef?: string | undefined;
  photographedOn?: string | null | undefined;
}

/** Changes what people wrote about an item, if nobody changed the item since it was read. */
export async function changeItemWords(stores: Stores, call: UseCaseCall, input: ChangeItemWordsInput): Promise<ItemRecord> {
  const { itemId, expectedVersion, ...words } = input;
  const found = await stores.items.find(itemId);
  if (!found) throw notFound('item');
  await refuseClosed(stores, found);
  const changed = Object.fromEntries(Object.entries(words).filter(([, value]) => value !== undefined));
  const version = await stores.items.saveWords(itemId, expectedVersion, changed, call.env.nowMs);
  const item = await stores.items.find(itemId);
  if (!item) throw notFound('item');
  if (version === null) throw new Problem('version_stale', 'The item was changed since you read it. Read it again and repeat your change.', { members: { currentEtag: `"${item.version}"` } });
  return item;
}
