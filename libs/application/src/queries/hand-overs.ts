import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { HandOverHead, HandOverRecord, HandOverState } from '../ports/hand-over-store.js';
import type { Stores } from '../ports/work.js';

export async function getHandOver(stores: Stores, _call: UseCaseCall, input: { handOverId: string }): Promise<HandOverRecord> {
  const handOver = await stores.handOvers.find(input.handOverId);
  if (!handOver) throw notFound('hand-over');
  return handOver;
}

/** Open ones first, the longest open first. */
export async function listHandOvers(stores: Stores, _call: UseCaseCall, input: { incidentId: string; state: HandOverState | null; limit: number; after: { open: boolean; id: string } | null }): Promise<HandOverHead[]> {
  if (!(await stores.places.incident(input.incidentId))) throw notFound('incident');
  return stores.handOvers.page(input.incidentId, input.state, input.limit, input.after);
}
