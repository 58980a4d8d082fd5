import type { Message } from '#care';
import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { PlanSummary } from '../planning/plan-summary.js';
import { planChangeInWords } from '../planning/wish-words.js';
import type { PlanChange, PlanChangeKind, PlanChanges, PlanRevisionRecord, RevisionView } from '../ports/plan-store.js';
import type { Stores } from '../ports/work.js';

/** All numbered plans of an incident, newest first. */
export async function listPlanRevisions(stores: Stores, _call: UseCaseCall, input: { incidentId: string; limit: number; before: number | null }): Promise<RevisionView[]> {
  if (!(await stores.places.incident(input.incidentId))) throw notFound('incident');
  return stores.plans.revisionPage(input.incidentId, input.limit, input.before);
}

export interface RevisionDetail {
  view: RevisionView;
  summary: PlanSummary;
}

/** One plan, published or not, with what it cannot do. */
export async function getPlanRevision(stores: Stores, _call: UseCaseCall, input: { planRevisionId: string }): Promise<RevisionDetail> {
  const view = await stores.plans.revisionView(input.planRevisionId);
  const revision = await stores.plans.revision(input.planRevisionId);
  if (!view || !revision) throw notFound('plan revision');
  return { view, summary: revision.summary as PlanSummary };
}

export interface PlanComparison extends Omit<PlanChanges, 'rows'> {
  now: RevisionView;
  /** Null for no plan before. */
  before: RevisionView | null;
  rows: (PlanChange & { inWords: Message })[];
}

/**
 * What a plan has otherwise than an earlier one, in words. Without `since` it is held against the one that work followed before it,
 * and the first plan against none.
 */
export async function listPlanChanges(
  stores: Stores, _call: UseCaseCall, input: { planRevisionId: string; since: string | null; kind: PlanChangeKind | null; limit: number; after: { weight: number; itemId: string } | null },
): Promise<PlanComparison> {
  const now = await stores.plans.revisionView(input.planRevisionId);
  if (!now) throw notFound('plan revision');
  const before = input.since === null ? await followedBefore(stores, now) : await earlier(stores, now, input.since);
  for (const view of [now, before]) if (view !== null) refuseWithoutDetail(view);
  const { rows, ...sums } = await stores.plans.changes({ beforeId: before?.id ?? null, nowId: now.id }, input.kind, input.limit, input.after);
  return { now, before, ...sums, rows: rows.map((row) => ({ ...row, inWords: planChangeInWords(row) })) };
}

/** The assignments of old plans are not kept; an empty answer would say that nothing was planned. @throws Problem not_found */
export function refuseWithoutDetail({ number, detailKept }: Pick<RevisionView, 'number' | 'detailKept'>): void {
  if (!detailKept) throw new Problem('not_found', `Of plan ${number} only the figures are kept. Assignments are kept of the newest few plans and of the one in force; the list of revisions says which.`);
}

/** The newest published plan before this one; where there is none, the plan before it. */
async function followedBefore(stores: Stores, { incidentId, number }: Pick<PlanRevisionRecord, 'incidentId' | 'number'>): Promise<RevisionView | null> {
  const published = await stores.plans.currentRevision(incidentId);
  if (published !== null && published.number < number) return stores.plans.revisionView(published.id);
  const older = await stores.plans.revisionPage(incidentId, 50, number);
  return older.find(({ publishedAtMs }) => publishedAtMs !== null) ?? older[0] ?? null;
}

async function earlier(stores: Stores, now: RevisionView, since: string): Promise<RevisionView> {
  const before = await stores.plans.revisionView(since);
  if (!before || before.incidentId !== now.incidentId) throw notFound('plan revision');
  if (before.number < now.number) return before;
  throw new Problem('validation_failed', `Plan ${before.number} is not earlier than plan ${now.number}. Swap the two.`, { errors: [{ detail: 'must be an earlier plan', code: 'custom', parameter: 'since' }] });
}
