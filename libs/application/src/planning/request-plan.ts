import type { Message } from '#care';
import type { Keeper } from '#custody';
import type { UseCaseCall } from '../call.js';
import type { OutboxStore } from '../ports/outbox-store.js';
import type { PlanRunRecord, PlanStore } from '../ports/plan-store.js';

/** What asking for a plan needs of the stores, on either writer. */
export interface PlanRequests {
  plans: Pick<PlanStore, 'requestRun'>;
  outbox: Pick<OutboxStore, 'append' | 'hasten'>;
}

/**
 * How long a request waits for others before its run begins, in milliseconds of real time. Own calibration: a plan of
 * thousands of things is seconds of work, and changes come in company.
 */
export const PLAN_GATHERS_MS = {
  /** Somebody asks for a plan and waits for it. */
  asked: 0,
  /** Something was found or changed that makes the plan in force wrong. */
  changed: 5_000,
  /** Something became free or possible; the plan in force is still right. */
  eased: 60_000,
} as const;

/**
 * Asks for a new plan of the incident, in the transaction of what made it necessary. At most one run of an incident
 * waits at a time; asking again while one waits answers that one and rings no second bell, but may make it begin
 * sooner. Call it last: until the transaction ends, others who ask for the first plan wait for it. A reason that is text is what somebody
 * wrote; ours are messages (`plan-reasons.ts`).
 */
export async function requestPlan(stores: PlanRequests, call: UseCaseCall, incidentId: string, reason: Message | string, why: keyof typeof PLAN_GATHERS_MS = 'changed'): Promise<PlanRunRecord> {
  const { run, created } = await stores.plans.requestRun({
    id: call.env.newId(), incidentId, state: 'queued', reason: typeof reason === 'string' ? { text: reason } : reason, requestedAtMs: call.env.nowMs,
    startedAtMs: null, finishedAtMs: null, revisionId: null, failure: null, epoch: null, rounds: null,
  });
  const delayMs = PLAN_GATHERS_MS[why];
  if (created) await stores.outbox.append({ id: call.env.newId(), incidentId, kind: 'plan.requested', subjectId: run.id, traceparent: call.context.traceparent }, delayMs);
  else await stores.outbox.hasten(run.id, delayMs);
  return run;
}

/** True when a thing has left the drying place where it lay, so that another may come there. */
export function freesDryingSpace(before: Keeper, after: Keeper): boolean {
  return before.kind === 'drying-place' && (after.kind !== 'drying-place' || after.id !== before.id);
}
