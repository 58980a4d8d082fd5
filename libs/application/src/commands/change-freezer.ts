import type { ChangeFreezer } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { LAYOUT_REASONS } from '../planning/plan-reasons.js';
import { requestPlan } from '../planning/request-plan.js';
import type { ConfigStores } from '../ports/config-work.js';
import type { FreezerRecord } from '../ports/layout-store.js';
import { findUnchanged, saveUnchanged, type VersionedTarget } from './change-versioned.js';

/**
 * Changes a freezer's volume or the moment from which it can be used. A volume below what stands in it is taken too:
 * a broken freezer is a fact, and what it holds is planned anew.
 */
export async function changeFreezer(stores: ConfigStores, call: UseCaseCall, input: ChangeFreezer & VersionedTarget): Promise<FreezerRecord> {
  const found = await findUnchanged(stores.layout, 'freezer', input);
  const availableFromMs = input.availableFrom === undefined ? undefined : Date.parse(input.availableFrom);
  const freezer = await saveUnchanged(stores.layout, 'freezer', input, found, { volumeL: input.volumeL, availableFromMs });
  if (freezer.volumeL !== found.volumeL || freezer.availableFromMs !== found.availableFromMs) await requestPlan(stores, call, input.incidentId, LAYOUT_REASONS.freezerChanged(freezer.code));
  return freezer;
}
