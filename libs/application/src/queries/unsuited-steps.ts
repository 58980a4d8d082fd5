import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { UnsuitedStepView } from '../ports/step-store.js';
import type { Stores } from '../ports/work.js';

/** Steps of an incident that were done by people who should not do them, in the order in which they were recorded. */
export async function listUnsuitedSteps(stores: Stores, _call: UseCaseCall, input: { incidentId: string; limit: number; after: string | null }): Promise<UnsuitedStepView[]> {
  if (!(await stores.places.incident(input.incidentId))) throw notFound('incident');
  return stores.steps.unsuitedPage(input.incidentId, input.limit, input.after);
}
