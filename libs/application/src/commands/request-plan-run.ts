import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { requestPlan } from '../planning/request-plan.js';
import type { PlanRunRecord } from '../ports/plan-store.js';
import type { Stores } from '../ports/work.js';

/** Asks for a new plan of an incident; while one waits already, that one is answered. */
export async function requestPlanRun(stores: Stores, call: UseCaseCall, input: { incidentId: string; reason: string }): Promise<PlanRunRecord> {
  const incident = await stores.places.incident(input.incidentId);
  if (!incident) throw notFound('incident');
  if (incident.state === 'closed') throw new Problem('incident_closed', 'The incident is closed, so nothing is planned in it any more. Open it again first if work goes on.');
  return requestPlan(stores, call, input.incidentId, input.reason, 'asked');
}
