import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { PlanWishView, WishFilter } from '../ports/plan-wish-store.js';
import type { Stores } from '../ports/work.js';

/** What people want of the plan of an incident, newest first. */
export async function listPlanWishes(stores: Stores, _call: UseCaseCall, input: { incidentId: string; filter: WishFilter; limit: number; before: string | null }): Promise<PlanWishView[]> {
  if (!(await stores.places.incident(input.incidentId))) throw notFound('incident');
  return stores.planWishes.page(input.incidentId, input.filter, input.limit, input.before);
}
