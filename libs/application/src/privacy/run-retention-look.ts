/** The worker's part of a schedule: in its hour it starts what a lead would start after the dry run of that moment, and writes the next look. */
import type { UseCaseCall } from '../call.js';
import type { RetentionValues } from '../calibration/retention-table.js';
import type { CallContext, Environment } from '../context.js';
import type { OutboxMessage } from '../ports/outbox-store.js';
import type { Stores, UnitOfWork } from '../ports/work.js';
import { retentionPolicy, totalsOf } from './retention-preview.js';
import { isScheduled, isScheduledHour, nextLookMs } from './retention-schedule.js';
import { queueRun } from './run-retention.js';

export type RetentionLookOutcome = 'started' | 'nothing-due' | 'not-its-hour' | 'off' | 'overtaken';

/** Until a look that failed for good is tried again; our own calibration. */
const AGAIN_MS = 3_600_000;

/**
 * Looks once. What it starts, the next look and that its row is done are one transaction: killed anywhere it has started nothing, or one run. Where the
 * dry run of the moment takes nothing no run is written, so that the list of runs shows what was done and not every night.
 */
export function runRetentionLook(unitOfWork: UnitOfWork, message: OutboxMessage, context: CallContext, env: Environment): Promise<RetentionLookOutcome> {
  return unitOfWork.write(context, async (stores) => {
    if (!(await stores.outbox.markDone(message.id))) return 'overtaken';
    const { policy, revision } = await retentionPolicy(stores);
    if (!isScheduled(policy)) return 'off';
    const timeZone = await stores.imports.timeZone();
    if (!isScheduledHour(policy, timeZone, env.nowMs)) {
      await lookAhead(stores, message, env, nextLookMs(policy, timeZone, env.nowMs) - env.nowMs);
      return 'not-its-hour';
    }
    await lookAhead(stores, message, env, nextLookMs(policy, timeZone, env.nowMs, policy.scheduleEveryDays) - env.nowMs);
    return (await startDue(stores, { context, env }, message.incidentId, policy, revision)) ? 'started' : 'nothing-due';
  });
}

/** When the tries of a look are used up: the next one comes all the same. */
export async function giveUpRetentionLook(unitOfWork: UnitOfWork, message: OutboxMessage, context: CallContext, env: Environment): Promise<void> {
  await unitOfWork.write(context, async (stores) => {
    if (isScheduled((await retentionPolicy(stores)).policy)) await lookAhead(stores, message, env, AGAIN_MS);
  });
}

/** The schedule was set or changed: every incident, closed ones above all, has its next look at the next such hour. */
export async function scheduleLooks(stores: Stores, { context, env }: UseCaseCall): Promise<void> {
  const { policy } = await retentionPolicy(stores);
  if (!isScheduled(policy)) return;
  const aheadMs = nextLookMs(policy, await stores.imports.timeZone(), env.nowMs) - env.nowMs;
  for (const incidentId of await stores.retention.incidents()) await lookAhead(stores, { id: '', incidentId, kind: 'retention.look', subjectId: incidentId, traceparent: context.traceparent }, env, aheadMs);
}

/** True when there was something to take and no earlier run has it in hand. */
async function startDue(stores: Stores, call: UseCaseCall, incidentId: string, policy: RetentionValues, policyRevision: number): Promise<boolean> {
  const incident = await stores.retention.ofIncident(incidentId);
  const [newest] = await stores.retention.runs(incidentId, 1, null);
  if (incident === null || newest?.state === 'running') return false;
  const { going } = await totalsOf(stores, { incidentId, incident, policy, asOfMs: call.env.nowMs });
  if (Object.keys(going).length === 0) return false;
  await queueRun(stores, call, { incidentId, personId: null, policy, policyRevision });
  return true;
}

function lookAhead(stores: Stores, message: OutboxMessage, env: Environment, aheadMs: number): Promise<void> {
  return stores.outbox.appendRetentionLook({ ...message, id: env.newId(), kind: 'retention.look' }, aheadMs);
}
