import type { Message } from '#care';
import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { blockerInWords, type PlanSummary } from '../planning/plan-summary.js';
import type { AssignmentFilter, AssignmentRecord, PlanRevisionRecord, PlanRunRecord, UnplannedRecord } from '../ports/plan-store.js';
import type { Stores } from '../ports/work.js';
import { refuseWithoutDetail } from './plan-revisions.js';

/** How a requested run stands. */
export async function getPlanRun(stores: Stores, _call: UseCaseCall, input: { planRunId: string }): Promise<PlanRunRecord> {
  const run = await stores.plans.findRun(input.planRunId);
  if (!run) throw notFound('plan run');
  return run;
}

export interface CurrentPlan {
  revision: PlanRevisionRecord;
  summary: PlanSummary;
  /** A newer plan that nobody has published yet. */
  proposal: PlanRevisionRecord | null;
  /** A run that waits or works now: its plan will be newer than both. */
  openRun: PlanRunRecord | null;
}

/** The plan that work follows, with what it cannot do. */
export async function getPlan(stores: Stores, _call: UseCaseCall, input: { incidentId: string }): Promise<CurrentPlan> {
  const revision = await revisionInForce(stores, input.incidentId);
  const newest = await stores.plans.newestRevision(input.incidentId);
  return { revision, summary: revision.summary as PlanSummary, proposal: newest?.id === revision.id ? null : newest, openRun: await stores.plans.openRun(input.incidentId) };
}

/** One page more than asked for tells whether there is a next page. */
export async function listPlanAssignments(
  stores: Stores, _call: UseCaseCall, input: { incidentId: string; revisionId: string | null; revision: number | null; filter: AssignmentFilter; limit: number; after: { startsAtMs: number; itemId: string; position: number } | null },
): Promise<{ revisionId: string; rows: AssignmentRecord[] }> {
  // Later pages stay with the revision of the first, so that a new plan in between neither repeats nor skips a row.
  const revisionId = input.revisionId ?? (await chosenRevision(stores, input)).id;
  return { revisionId, rows: await stores.plans.assignments(revisionId, input.filter, input.limit, input.after) };
}

/** With what stands in its way, in words. */
export type UnplannedView = UnplannedRecord & { why: Message };

/** Items that the plan has no place for, the greatest weight first, each with what stands in its way. */
export async function listUnplannedItems(
  stores: Stores, call: UseCaseCall, input: { incidentId: string; revisionId: string | null; revision: number | null; limit: number; after: { weight: number; itemId: string } | null },
): Promise<{ revisionId: string; atMs: number; rows: UnplannedView[] }> {
  const revisionId = input.revisionId ?? (await chosenRevision(stores, input)).id;
  const rows = await stores.plans.unplanned(revisionId, input.limit, input.after);
  return { revisionId, atMs: call.env.nowMs, rows: rows.map((row) => ({ ...row, why: blockerInWords({ ...row.blockedBy, what: row.resourceCode ?? row.blockedBy.what }) })) };
}

/** The plan that work follows. @throws Problem not_found for the incident or its plan */
export async function revisionInForce(stores: Stores, incidentId: string): Promise<PlanRevisionRecord> {
  if (!(await stores.places.incident(incidentId))) throw notFound('incident');
  const revision = await stores.plans.currentRevision(incidentId);
  if (!revision) throw await noPlan(stores, incidentId);
  return revision;
}

async function noPlan(stores: Stores, incidentId: string): Promise<Problem> {
  const proposal = await stores.plans.newestRevision(incidentId);
  if (proposal === null) return notFound('plan');
  return new Problem('not_found', `No plan of the incident is published yet. Plan ${proposal.number} is a proposal: read it among the revisions, and publish it if it is good.`, { members: { proposalId: proposal.id } });
}

/** The plan in force, or the one that was asked for by its number. */
async function chosenRevision(stores: Stores, { incidentId, revision }: { incidentId: string; revision: number | null }): Promise<{ id: string }> {
  if (revision === null) return revisionInForce(stores, incidentId);
  if (!(await stores.places.incident(incidentId))) throw notFound('incident');
  const chosen = await stores.plans.revisionByNumber(incidentId, revision);
  const view = chosen && (await stores.plans.revisionView(chosen.id));
  if (!view) throw new Problem('not_found', `The incident has no plan ${revision}.`);
  refuseWithoutDetail(view);
  return view;
}
