import { type ChangeIncident, notFound, outdoorAirFaults, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { PLAN_REASONS } from '../planning/plan-reasons.js';
import { requestPlan } from '../planning/request-plan.js';
import type { ConfigStores } from '../ports/config-work.js';
import type { IncidentRecord } from '../ports/layout-store.js';
import { definedMembers, staleVersion } from './change-versioned.js';

export type ChangeIncidentInput = ChangeIncident & { incidentId: string; expectedVersion: number };

/**
 * Merges a patch into the incident (RFC 7396: members given replace, null removes) and checks the result, not the patch.
 * It closes only when nothing is held any more: a thing of a closed incident is looked for by nobody.
 */
export async function changeIncident(stores: ConfigStores, call: UseCaseCall, input: ChangeIncidentInput): Promise<IncidentRecord> {
  const { incidentId, expectedVersion, ...patch } = input;
  const before = await stores.layout.incident(incidentId);
  if (!before) throw notFound('incident');
  if (before.version !== expectedVersion) throw staleVersion('incident', before.version);
  const changed = definedMembers(patch);
  if (Object.keys(changed).length === 0) return before;
  refuseHalfAir({ ...before, ...changed });
  if (changed.state === 'closed' && before.state === 'open') await refuseHeld(stores, incidentId);
  const saved = await stores.layout.saveIncident(incidentId, expectedVersion, changed, call.env.nowMs);
  if (saved) {
    if (saved.state === 'open' && hasOtherWeather(before, saved)) await requestPlan(stores, call, incidentId, PLAN_REASONS.weather);
    // A proposal that nobody published must not stand beside a plan that comes into force by itself.
    if (saved.state === 'open' && before.planPublishing === 'by-hand' && saved.planPublishing === 'automatic') await requestPlan(stores, call, incidentId, PLAN_REASONS.publishing);
    return saved;
  }
  const present = await stores.layout.incident(incidentId);
  throw staleVersion('incident', present?.version ?? expectedVersion + 1);
}

/** Held is what has neither gone home nor been let go; what is with a specialist or on the road is ours to bring back. */
async function refuseHeld(stores: ConfigStores, incidentId: string): Promise<void> {
  const stages = await stores.layout.heldItems(incidentId);
  const held = stages.reduce((sum, { items }) => sum + items, 0);
  if (held === 0) return;
  const where = stages.map(({ stage, items }) => `${items} ${stage}`).join(', ');
  throw new Problem('items_held', `${held === 1 ? '1 thing of the incident is' : `${held} things of the incident are`} still held (${where}). Hand them back, or let them go with their owners' agreement, then close the incident. The list of items by stage says which they are.`, {
    members: { held, byStage: Object.fromEntries(stages.map(({ stage, items }) => [stage, items])) },
  });
}

function refuseHalfAir(result: IncidentRecord): void {
  const faults = outdoorAirFaults(result);
  if (faults.length === 0) return;
  throw new Problem('validation_failed', 'The incident would be left with half of its outdoor air; see errors. Nothing was changed.', {
    errors: faults.map((fault) => ({ detail: fault.message, code: 'custom', pointer: `#/${fault.path.join('/')}` })),
  });
}

function hasOtherWeather(before: IncidentRecord, after: IncidentRecord): boolean {
  return before.outdoorAirTempC !== after.outdoorAirTempC || before.outdoorRelativeHumidityPct !== after.outdoorRelativeHumidityPct;
}
