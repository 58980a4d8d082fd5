import type { Keeper } from '#custody';
import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { momentOf, personOf } from '../care/claims.js';
import { ownerIsUnknown } from '../claims/unknown-owner.js';
import { lockOpenItem } from '../care/standing.js';
import { letGo, refuseUnphotographed, type ReleaseItemInput } from '../custody/let-go.js';
import { noteNews } from '../families/news.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';
import { releaseUnclaimed } from './release-unclaimed.js';

export type { ReleaseItemInput } from '../custody/let-go.js';

/** Lets an item go: only with the owner's recorded agreement, or where nobody knows the owner with the decision of two; and with its photograph kept. */
export async function releaseItem(stores: Stores, call: UseCaseCall, input: ReleaseItemInput): Promise<ItemRecord> {
  const named = await stores.items.find(input.itemId);
  if (named && (await ownerIsUnknown(stores, named.householdId))) return releaseUnclaimed(stores, call, input, named.householdId);
  const item = await lockOpenItem(stores, input.itemId);
  await personOf(stores, item.incidentId, input.personId);
  if (input.to === 'authority') throw new Problem('command_refused', 'Its owner is on record, so it goes to no authority. Hand it back, or ask the owner.', { errors: [{ detail: 'is for found things that nobody claimed', code: 'owner_known', pointer: '#/to' }] });
  const releasedAtMs = momentOf(call, input.releasedAtMs, '#/releasedAt');
  const consentId = await agreement(stores, item);
  await refuseUnphotographed(stores, item);
  // Nobody holds what is disposed of; the agreement stands in the holder's place.
  const to: Keeper = input.to === 'disposed' ? { kind: 'disposed', id: consentId } : { kind: 'household', id: item.householdId };
  const released = await letGo(stores, call, item, { to, refs: { consentId, personId: input.personId }, personId: input.personId, releasedAtMs });
  await noteNews(stores, call, { incidentId: item.incidentId, householdId: item.householdId, kind: 'let-go', subjectId: item.id });
  return released;
}

/** The consent that lets this very item go; what cannot be undone is agreed item by item. @throws Problem consent_missing */
async function agreement(stores: Stores, item: ItemRecord): Promise<string> {
  const { consents, ids } = await stores.consents.inForce(item.householdId, item.id);
  if (consents.release === true && ids.release !== undefined) return ids.release;
  const why = consents.release === false ? 'The owner has said that it is to be kept.' : 'The owner has not agreed to let this item go; what a household says of all its things counts for none of them here.';
  throw new Problem('consent_missing', `${why} Letting go is agreed item by item: ask about this one, and record the answer with POST /v1/households/{householdId}/consents, the scope \`release\` and the item's id as \`itemId\`. A true total loss is rare.`, { members: { scope: 'release' } });
}
