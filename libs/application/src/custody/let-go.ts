import type { Keeper } from '#custody';
import type { UseCaseCall } from '../call.js';
import { doneStepsOf } from '../care/done-steps.js';
import { wrongStage } from '../care/step-order.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';
import { recordCustody } from './record-custody.js';

export interface ReleaseItemInput {
  itemId: string;
  /** `disposed`, `household` when the family takes it and lets it go itself, or `authority` for what was found and nobody claimed. */
  to: 'disposed' | 'household' | 'authority';
  personId: string;
  releasedAtMs: number | null;
}

export interface LettingGo {
  to: Keeper;
  /** What allows it, and who did it. */
  refs: Record<string, string>;
  personId: string;
  releasedAtMs: number;
}

/** The step, the custody event and the work state of a thing that is let go. */
export async function letGo(stores: Stores, call: UseCaseCall, item: ItemRecord, { to, refs, personId, releasedAtMs }: LettingGo): Promise<ItemRecord> {
  await stores.steps.insert({
    id: call.env.newId(), incidentId: item.incidentId, itemId: item.id, step: 'release', outcome: 'done', undoes: [], stationId: null, personId, note: '', startedAtMs: null, finishedAtMs: releasedAtMs, recordedAtMs: call.env.nowMs,
  });
  const released = await recordCustody(stores, call, item, { kind: 'released', from: item.keeper, to, refs, occurredAtMs: releasedAtMs });
  const changed = { disposition: 'release', nextStep: null, routePosition: 0, waitingForOwner: false } as const;
  return { ...released.item, ...changed, version: await stores.items.saveWork(item.id, changed, call.env.nowMs) };
}

/** Rule `consent.release` (own calibration): let go item by item, with the photograph kept. An owner may refuse the photograph. */
export async function refuseUnphotographed(stores: Stores, item: ItemRecord): Promise<void> {
  if (item.photographRef !== '' || (await doneStepsOf(stores, item.id)).has('photograph')) return;
  const consents = await stores.consents.ofHousehold(item.householdId);
  const word = consents.findLast((consent) => consent.scope === 'photograph' && (consent.itemId === item.id || consent.itemId === null));
  if (word?.given === false) return;
  throw wrongStage({ item }, 'Photograph it before it goes: the photograph is what the family keeps. Record the photograph reference with PATCH /v1/items/{itemId}, or the step `photograph`.');
}
