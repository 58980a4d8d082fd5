import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { refuseNoLead } from '../care/claims.js';
import type { CallContext, Environment } from '../context.js';
import { deleteFilesOf } from '../files/index.js';
import type { HouseholdRecord } from '../ports/household-store.js';
import type { OutboxMessage } from '../ports/outbox-store.js';
import type { HouseholdKind, RetentionIncidentFacts, RetentionRunRecord } from '../ports/retention-store.js';
import type { Stores, UnitOfWork } from '../ports/work.js';
import { erase } from './erase-household.js';
import { householdVerdict, incidentVerdict, sums, type Going } from './retention.js';
import { RETENTION_PAGE, retentionPolicy } from './retention-preview.js';

export interface StartRetentionInput {
  incidentId: string;
  personId: string;
  /** `policyRevision` of the dry run that the lead has read: what is done is what was shown. */
  policyRevision: number;
}

/** Lets the worker take what has had its time, as the dry run shows it. It cannot be undone. @throws Problem not_found, reference_unknown, command_refused */
export async function startRetention(stores: Stores, call: UseCaseCall, input: StartRetentionInput): Promise<RetentionRunRecord> {
  if (!(await stores.retention.ofIncident(input.incidentId))) throw notFound('incident');
  await refuseNoLead(stores, { incidentId: input.incidentId, personId: input.personId, may: 'let go what has had its time. Ask a lead of the incident.' });
  const { policy, revision } = await retentionPolicy(stores);
  if (revision !== input.policyRevision) {
    throw new Problem('command_refused', 'The numbers of the network were changed since that dry run. Read the dry run again, then start it. Nothing was changed.', {
      errors: [{ detail: `is not the newest, which is ${revision}`, code: 'policy_changed', pointer: '#/policyRevision' }], members: { policyRevision: revision },
    });
  }
  return queueRun(stores, call, { incidentId: input.incidentId, personId: input.personId, policy, policyRevision: revision });
}

/** Writes a run as of now, and the row by which the worker does it. */
export async function queueRun(stores: Stores, call: UseCaseCall, started: Pick<RetentionRunRecord, 'incidentId' | 'personId' | 'policy' | 'policyRevision'>): Promise<RetentionRunRecord> {
  const run: RetentionRunRecord = {
    id: call.env.newId(), ...started, state: 'running', principalId: call.context.principalId, asOfMs: call.env.nowMs, afterHouseholdId: null, lookedAt: 0, touched: 0, erased: 0, gone: {}, endedAtMs: null,
  };
  // Two at once do no harm: each looks at a household with it locked, and takes what is still there.
  await stores.retention.insertRun(run);
  await stores.outbox.append({ id: call.env.newId(), incidentId: run.incidentId, kind: 'retention.run', subjectId: run.id, traceparent: call.context.traceparent });
  return run;
}

export type RetentionOutcome = 'done' | 'overtaken';

/**
 * The worker's part: one household in one transaction, with the mark of how far it is. Killed anywhere it has neither done half of a household nor
 * counted one twice, and the next run of the row goes on behind the mark. What came under a hold or back to us meanwhile stays.
 */
export async function runRetention(unitOfWork: UnitOfWork, message: OutboxMessage, context: CallContext, env: Environment): Promise<RetentionOutcome> {
  for (;;) {
    const outcome = await unitOfWork.write(context, (stores) => step(stores, { context, env }, message));
    if (outcome !== 'going-on') return outcome;
  }
}

/** What was done stays done; a new run, or the row revived, goes on. */
export async function giveUpRetention(unitOfWork: UnitOfWork, message: OutboxMessage, context: CallContext, env: Environment): Promise<void> {
  await unitOfWork.write(context, async (stores) => {
    const run = await stores.retention.lockRun(message.subjectId);
    if (run?.state === 'running') await stores.retention.saveRun({ ...run, state: 'stopped', endedAtMs: env.nowMs });
  });
}

async function step(stores: Stores, call: UseCaseCall, message: OutboxMessage): Promise<RetentionOutcome | 'going-on'> {
  const run = await stores.retention.lockRun(message.subjectId);
  const incident = run && (await stores.retention.ofIncident(run.incidentId));
  if (run?.state !== 'running' || !incident) return over(stores, message);
  const chunk = await stores.retention.ofHouseholds(run.incidentId, RETENTION_PAGE, run.afterHouseholdId);
  const index = chunk.findIndex((facts) => householdVerdict(facts, incident, run.policy, run.asOfMs).goes.length > 0);
  const next = chunk[index];
  const passed = { ...run, lookedAt: run.lookedAt + (next ? index + 1 : chunk.length), afterHouseholdId: (next ?? chunk.at(-1))?.householdId ?? run.afterHouseholdId };
  if (next) {
    await stores.retention.saveRun(withGone(passed, await take(stores, call, run, incident, next.householdId)));
    return 'going-on';
  }
  if (chunk.length === RETENTION_PAGE) {
    await stores.retention.saveRun(passed);
    return 'going-on';
  }
  return finish(stores, call, message, passed, incident);
}

async function over(stores: Stores, message: OutboxMessage): Promise<'overtaken'> {
  await stores.outbox.markDone(message.id);
  return 'overtaken';
}

function withGone(run: RetentionRunRecord, goes: readonly Going[]): RetentionRunRecord {
  if (goes.length === 0) return run;
  return { ...run, touched: run.touched + 1, erased: run.erased + (goes.some(({ kind }) => kind === 'records') ? 1 : 0), gone: sums(run.gone, goes) };
}

/** Looks again with the household locked, then takes what has had its time: with the whole household its key, by the erasure that a lead has too. */
async function take(stores: Stores, call: UseCaseCall, run: RetentionRunRecord, incident: RetentionIncidentFacts, householdId: string): Promise<Going<HouseholdKind>[]> {
  if (!(await stores.erasures.lockHousehold(householdId))) return [];
  const household = await stores.households.find(householdId);
  const facts = await stores.retention.ofHousehold(householdId);
  if (!household || !facts) return [];
  const { goes } = householdVerdict(facts, incident, run.policy, run.asOfMs);
  const kinds = goes.map(({ kind }) => kind);
  if (kinds.includes('records')) await erase(stores, call, household, { reason: 'retention-ended', decidedBy: null });
  else await takeKinds(stores, call, household, kinds);
  return goes;
}

async function takeKinds(stores: Stores, call: UseCaseCall, household: HouseholdRecord, kinds: readonly HouseholdKind[]): Promise<void> {
  for (const kind of kinds) {
    if (kind === 'photographs') await deleteFilesOf(stores, call, household.id, 'photograph');
    else if (kind === 'voices') await deleteFilesOf(stores, call, household.id, 'voice');
    else if (kind !== 'records') {
      if (kind === 'words') await deleteFilesOf(stores, call, household.id, 'words');
      await stores.retention.blank(household.id, kind);
    }
  }
  if (kinds.length > 0) await stores.retention.blankAnswers(household.id);
}

async function finish(stores: Stores, call: UseCaseCall, message: OutboxMessage, run: RetentionRunRecord, incident: RetentionIncidentFacts): Promise<RetentionOutcome> {
  const { goes } = incidentVerdict(incident, run.policy, run.asOfMs);
  for (const { kind } of goes) await stores.retention.blankOfIncident(run.incidentId, kind);
  await stores.retention.saveRun({ ...run, gone: sums(run.gone, goes), state: 'done', endedAtMs: call.env.nowMs });
  await stores.outbox.markDone(message.id);
  return 'done';
}
