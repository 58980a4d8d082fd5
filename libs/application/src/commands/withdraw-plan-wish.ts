import { formatTagCode } from '#custody';
import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { refuseNoLead } from '../care/claims.js';
import { openIncidentOf } from '../custody/open-incident.js';
import { withdrawnReason } from '../planning/plan-reasons.js';
import { requestPlan } from '../planning/request-plan.js';
import type { PlanWishView } from '../ports/plan-wish-store.js';
import type { Stores } from '../ports/work.js';

/** A lead takes a wish back. It stays on record with who, when and why. */
export async function withdrawPlanWish(stores: Stores, call: UseCaseCall, input: { planWishId: string; personId: string; reason: string }): Promise<PlanWishView> {
  const wish = await stores.planWishes.find(input.planWishId);
  if (!wish) throw notFound('plan wish');
  await openIncidentOf(stores, wish.incidentId);
  await refuseNoLead(stores, { incidentId: wish.incidentId, personId: input.personId, may: 'withdraw what the plan heeds. Ask a lead to decide.' });
  if (!(await stores.planWishes.withdraw(wish.id, { atMs: call.env.nowMs, by: input.personId, reason: input.reason }))) throw ended(wish);
  await requestPlan(stores, call, wish.incidentId, withdrawnReason(formatTagCode(wish.tagCode)));
  const withdrawn = await stores.planWishes.find(wish.id);
  if (!withdrawn) throw new Error('a wish went while it was withdrawn');
  return withdrawn;
}

function ended({ withdrawn, lapsed }: PlanWishView): Problem {
  const members = { withdrawnAt: withdrawn && new Date(withdrawn.atMs).toISOString(), lapsedAt: lapsed && new Date(lapsed.atMs).toISOString(), ...(lapsed && { lapsedBecause: lapsed.why }) };
  return new Problem('already_exists', 'This wish has ended already, so there is nothing to withdraw. Record a new one if something else is wanted.', { members });
}
