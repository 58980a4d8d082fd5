import type { ChangeDehumidifier } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { requestPlan } from '../planning/request-plan.js';
import type { ConfigStores } from '../ports/config-work.js';
import type { DehumidifierRecord } from '../ports/layout-store.js';
import { findUnchanged, saveUnchanged, type VersionedTarget } from './change-versioned.js';

/** Says that a dehumidifier runs, has tripped or is off; the room's drying forecast follows with the plan that this asks for. */
export async function changeDehumidifier(stores: ConfigStores, call: UseCaseCall, input: ChangeDehumidifier & VersionedTarget): Promise<DehumidifierRecord> {
  const found = await findUnchanged(stores.layout, 'dehumidifier', input);
  const machine = await saveUnchanged(stores.layout, 'dehumidifier', input, found, { state: input.state });
  if (machine.state !== found.state) await requestPlan(stores, call, input.incidentId, `dehumidifier ${machine.code}: ${machine.state}`);
  return machine;
}
