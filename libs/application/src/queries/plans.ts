import type { Message } from '#care';
import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { blockerInWords, type PlanSummary } from '../planning/plan-summary.js';
import type { AssignmentFilter, AssignmentRecord, PlanRevisionRecord, PlanRunRecord, UnplannedRecord } from '../ports/plan-store.js';
import type { Stores } from '../ports/work.js';

/** How a requested run stands. */
export async function getPlanRun(stores: Stores, _call: UseCaseCall, input: { planRunId: string }): Promise<PlanRunRecord> {
  const run = await stores.plans.findRun(input.planRunId);
  if (!run) throw notFound('plan run');
  return run;
}

export interface CurrentPlan {
  revision: PlanRevisionRecord;
  summary: PlanSummary;
  /** A run that waits or works now: its plan will replace this one. */
  openRun: PlanRunRecord | null;
}

/** The plan in force with what it cannot do. */
export async function getPlan(stores: Stores, _call: UseCaseCall, input: { incidentId: string }): Promise<CurrentPlan> {
  const revision = await revisionOf(stores, input.incidentId);
  return { revision, summary: revision.summary as PlanSummary, openRun: await stores.plans.openRun(input.incidentId) };
}

/** One page more than asked for tells whether there is a next page. */
export async function listPlanAssignments(
  stores: Stores, _call: UseCaseCall, input: { incidentId: string; revisionId: string | null; filter: AssignmentFilter; limit: number; after: { startsAtMs: number; itemId: string; position: number } | null },
): Promise<{ revisionId: string; rows: AssignmentRecord[] }> {
  // Later pages stay with the revision of the first, so that a new plan in between neither repeats nor skips a row.
  const revisionId = input.revisionId ?? (await revisionOf(stores, input.incidentId)).id;
  return { revisionId, rows: await stores.plans.assignments(revisionId, input.filter, input.limit, input.after) };
}

/** With what stands in its way, in words. */
export type UnplannedView = UnplannedRecord & { why: Message };

/** Items that the plan has no place for, the greatest weight first, each with what stands in its way. */
export async function listUnplannedItems(
  stores: Stores, call: UseCaseCall, input: { incidentId: string; revisionId: string | null; limit: number; after: { weight: number; itemId: string } | null },
): Promise<{ revisionId: string; atMs: number; rows: UnplannedView[] }> {
  const revisionId = input.revisionId ?? (await revisionOf(stores, input.incidentId)).id;
  const rows = await stores.plans.unplanned(revisionId, input.limit, input.after);
  return { revisionId, atMs: call.env.nowMs, rows: rows.map((row) => ({ ...row, why: blockerInWords({ ...row.blockedBy, what: row.resourceCode ?? row.blockedBy.what }) })) };
}

async function revisionOf(stores: Stores, incidentId: string): Promise<PlanRevisionRecord> {
  if (!(await stores.places.incident(incidentId))) throw notFound('incident');
  const revision = await stores.plans.currentRevision(incidentId);
  if (!revision) throw notFound('plan');
  return revision;
}
