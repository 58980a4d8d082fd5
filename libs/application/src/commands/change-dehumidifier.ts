import type { ChangeDehumidifier } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { machineReason } from '../planning/plan-reasons.js';
import { requestPlan } from '../planning/request-plan.js';
import type { ConfigStores } from '../ports/config-work.js';
import type { DehumidifierRecord } from '../ports/layout-store.js';
import { findUnchanged, saveUnchanged, type VersionedTarget } from './change-versioned.js';

/** Says that a dehumidifier runs, has tripped or is off; the room's drying forecast follows with the plan that this asks for. */
export async function changeDehumidifier(stores: ConfigStores, call: UseCaseCall, input: ChangeDehumidifier & VersionedTarget): Promise<DehumidifierRecord> {
  const found = await findUnchanged(stores.layout, 'dehumidifier', input);
  const machine = await saveUnchanged(stores.layout, 'dehumidifier', input, found, { state: input.state });
  if (machine.state === found.state) return machine;
  await stores.layout.recordMachineState({ id: call.env.newId(), incidentId: input.incidentId, dehumidifierId: machine.id, state: machine.state, fromMs: call.env.nowMs });
  await stores.outbox.append({ id: call.env.newId(), incidentId: input.incidentId, kind: 'climate.readings', subjectId: machine.dryingRoomId, traceparent: call.context.traceparent });
  await requestPlan(stores, call, input.incidentId, machineReason(machine.code, machine.state));
  return machine;
}
