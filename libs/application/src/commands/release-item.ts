import type { Keeper } from '#custody';
import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { momentOf, personOf } from '../care/claims.js';
import { refuseOwnerUnknown } from '../claims/unknown-owner.js';
import { doneStepsOf } from '../care/done-steps.js';
import { lockOpenItem } from '../care/standing.js';
import { wrongStage } from '../care/step-order.js';
import { recordCustody } from '../custody/record-custody.js';
import { noteNews } from '../families/news.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';

export interface ReleaseItemInput {
  itemId: string;
  /** `disposed`, or `household` when the family takes it and lets it go itself. */
  to: 'disposed' | 'household';
  personId: string;
  releasedAtMs: number | null;
}

/** Lets an item go: only with the owner's recorded agreement, and with its photograph kept. */
export async function releaseItem(stores: Stores, call: UseCaseCall, input: ReleaseItemInput): Promise<ItemRecord> {
  const item = await lockOpenItem(stores, input.itemId);
  await personOf(stores, item.incidentId, input.personId);
  await refuseOwnerUnknown(stores, item);
  const releasedAtMs = momentOf(call, input.releasedAtMs, '#/releasedAt');
  const consentId = await agreement(stores, item);
  await refuseUnphotographed(stores, item);
  await stores.steps.insert({
    id: call.env.newId(), incidentId: item.incidentId, itemId: item.id, step: 'release', outcome: 'done', undoes: [], stationId: null, personId: input.personId, note: '', startedAtMs: null, finishedAtMs: releasedAtMs, recordedAtMs: call.env.nowMs,
  });
  // Nobody holds what is disposed of; the agreement stands in the holder's place.
  const to: Keeper = input.to === 'disposed' ? { kind: 'disposed', id: consentId } : { kind: 'household', id: item.householdId };
  const released = await recordCustody(stores, call, item, { kind: 'released', from: item.keeper, to, refs: { consentId, personId: input.personId }, occurredAtMs: releasedAtMs });
  const changed = { disposition: 'release', nextStep: null, routePosition: 0, waitingForOwner: false } as const;
  await noteNews(stores, call, { incidentId: item.incidentId, householdId: item.householdId, kind: 'let-go', subjectId: item.id });
  return { ...released.item, ...changed, version: await stores.items.saveWork(item.id, changed, call.env.nowMs) };
}

/** The consent that lets this very item go; what cannot be undone is agreed item by item. @throws Problem consent_missing */
async function agreement(stores: Stores, item: ItemRecord): Promise<string> {
  const { consents, ids } = await stores.consents.inForce(item.householdId, item.id);
  if (consents.release === true && ids.release !== undefined) return ids.release;
  const why = consents.release === false ? 'The owner has said that it is to be kept.' : 'The owner has not agreed to let this item go; what a household says of all its things counts for none of them here.';
  throw new Problem('consent_missing', `${why} Letting go is agreed item by item: ask about this one, and record the answer with POST /v1/households/{householdId}/consents, the scope \`release\` and the item's id as \`itemId\`. A true total loss is rare.`, { members: { scope: 'release' } });
}

/** Rule `consent.release` (own calibration): let go item by item, with the photograph kept. An owner may refuse the photograph. */
async function refuseUnphotographed(stores: Stores, item: ItemRecord): Promise<void> {
  if (item.photographRef !== '' || (await doneStepsOf(stores, item.id)).has('photograph')) return;
  const consents = await stores.consents.ofHousehold(item.householdId);
  const word = consents.findLast((consent) => consent.scope === 'photograph' && (consent.itemId === item.id || consent.itemId === null));
  if (word?.given === false) return;
  throw wrongStage({ item }, 'Photograph it before it goes: the photograph is what the family keeps. Record the photograph reference with PATCH /v1/items/{itemId}, or the step `photograph`.');
}
