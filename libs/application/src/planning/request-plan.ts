import type { UseCaseCall } from '../call.js';
import type { PlanRunRecord } from '../ports/plan-store.js';
import type { Stores } from '../ports/work.js';

/**
 * Asks for a new plan of the incident, in the transaction of what made it necessary. At most one run of an incident
 * waits at a time; asking again while one waits answers that one and rings no second bell. Call it last: until the
 * transaction ends, others who ask for the first plan wait for it.
 */
export async function requestPlan(stores: Stores, call: UseCaseCall, incidentId: string, reason: string): Promise<PlanRunRecord> {
  const { run, created } = await stores.plans.requestRun({
    id: call.env.newId(), incidentId, state: 'queued', reason, requestedAtMs: call.env.nowMs,
    startedAtMs: null, finishedAtMs: null, revisionId: null, failure: null,
  });
  if (created) await stores.outbox.append({ id: call.env.newId(), incidentId, kind: 'plan.requested', subjectId: run.id, traceparent: call.context.traceparent });
  return run;
}
