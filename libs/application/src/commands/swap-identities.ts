import { sameKeeper } from '#custody';
import type { UseCaseCall } from '../call.js';
import { refuseNoLead } from '../care/claims.js';
import { refuseClosed } from '../custody/open-incident.js';
import { recordCustody } from '../custody/record-custody.js';
import { twoItems } from '../custody/two-items.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';
import { deedOf } from '../tags/checked-tag.js';

/** How the tags of two things were confused. */
export const SWAP_REASONS = ['confused-at-tagging', 'came-off-and-put-back-wrong', 'descriptions-confused'] as const;

export interface SwapIdentitiesInput {
  itemId: string;
  with: string;
  reason: (typeof SWAP_REASONS)[number];
  /** The lead who looked at both things. */
  personId: string;
}

/**
 * Puts right that each of two things carries the tag of the other: both records go on under the other tag and name each other. Whoever
 * scanned a tag since then put the other thing on record, so where they lie apart both locations are disputed until a person has looked.
 */
export async function swapIdentities(stores: Stores, call: UseCaseCall, input: SwapIdentitiesInput): Promise<[ItemRecord, ItemRecord]> {
  const [one, other] = await twoItems(stores, input.itemId, input.with, '#/with');
  await refuseClosed(stores, one);
  await refuseNoLead(stores, { incidentId: one.incidentId, personId: input.personId, may: 'swap the tags of two things. Ask a lead to look at both.' });
  for (const code of [one.tagCode, other.tagCode].sort()) await stores.tags.lock(code);
  const swapped: [ItemRecord, ItemRecord] = [await retag(stores, call, one, other, input), await retag(stores, call, other, one, input)];
  if (!(await stores.tags.swap(one.tagCode, other.tagCode, deedOf(call)))) throw new Error('a tag of an item was not its own although both were locked');
  if (sameKeeper(one.keeper, other.keeper)) return swapped;
  return [await doubt(stores, call, swapped[0], other, input), await doubt(stores, call, swapped[1], one, input)];
}

async function retag(stores: Stores, call: UseCaseCall, item: ItemRecord, other: ItemRecord, { reason, personId }: SwapIdentitiesInput): Promise<ItemRecord> {
  const refs = { tagWas: item.tagCode, tagIs: other.tagCode, swappedWith: other.id, reason, personId };
  const { item: retagged } = await recordCustody(stores, call, item, { kind: 'retagged', from: item.keeper, to: item.keeper, refs, occurredAtMs: call.env.nowMs });
  return { ...retagged, tagCode: other.tagCode };
}

/** The record of the other tag says where this thing was last seen. */
async function doubt(stores: Stores, call: UseCaseCall, item: ItemRecord, other: ItemRecord, { personId }: SwapIdentitiesInput): Promise<ItemRecord> {
  const refs = { claimedKind: other.keeper.kind, claimedId: other.keeper.id, swappedWith: other.id, personId };
  return (await recordCustody(stores, call, item, { kind: 'location-disputed', from: item.keeper, to: item.keeper, refs, occurredAtMs: call.env.nowMs })).item;
}
