import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { refuseNoLead } from '../care/claims.js';
import { openIncidentOf } from '../custody/open-incident.js';
import type { PlanRevisionRecord, RevisionView } from '../ports/plan-store.js';
import type { Stores } from '../ports/work.js';

/**
 * A coordinator puts a proposal into force; work lists follow it from now on. Only the newest plan: an older one was made from what
 * is not so any more.
 */
export async function publishPlanRevision(stores: Stores, call: UseCaseCall, input: { planRevisionId: string; personId: string }): Promise<RevisionView> {
  const revision = await stores.plans.revision(input.planRevisionId);
  if (!revision) throw notFound('plan revision');
  await openIncidentOf(stores, revision.incidentId);
  await refuseNoLead(stores, { incidentId: revision.incidentId, personId: input.personId, may: 'publish a plan. Ask a lead to decide.' });
  if (!(await stores.plans.publish(revision, input.personId, call.env.nowMs))) throw await notToPublish(stores, revision);
  const published = await stores.plans.revisionView(revision.id);
  if (!published) throw new Error('a revision went while it was published');
  return published;
}

async function notToPublish(stores: Stores, { id, incidentId, number }: PlanRevisionRecord): Promise<Problem> {
  const now = await stores.plans.revision(id);
  if (now?.publishedAtMs != null) return new Problem('already_exists', `Plan ${number} was published already.`, { members: { publishedAt: new Date(now.publishedAtMs).toISOString(), publishedBy: now.publishedBy } });
  const newest = await stores.plans.newestRevision(incidentId);
  return new Problem('command_refused', `Plan ${number} has been overtaken by plan ${newest?.number ?? number}, which knows more. Look at that one and publish it.`, { members: { newestRevisionId: newest?.id ?? null, newestNumber: newest?.number ?? null } });
}
