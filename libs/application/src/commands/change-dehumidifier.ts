import type { ChangeDehumidifier } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { ConfigStores } from '../ports/config-work.js';
import type { DehumidifierRecord } from '../ports/layout-store.js';
import { findUnchanged, saveUnchanged, type VersionedTarget } from './change-versioned.js';

/** Says that a dehumidifier runs, has tripped or is off; the room's drying forecast follows at the next plan. */
export async function changeDehumidifier(stores: ConfigStores, _call: UseCaseCall, input: ChangeDehumidifier & VersionedTarget): Promise<DehumidifierRecord> {
  const found = await findUnchanged(stores.layout, 'dehumidifier', input);
  return saveUnchanged(stores.layout, 'dehumidifier', input, found, { state: input.state });
}
