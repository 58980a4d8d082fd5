import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { UnseenItem } from '../ports/where-store.js';
import type { Stores } from '../ports/work.js';
import { unseenBefore } from '../where/unseen.js';

/** Things that nobody has met for longer than their stage allows, the longest unseen first. @throws Problem not_found */
export async function listUnseenItems(stores: Stores, call: UseCaseCall, input: { incidentId: string; limit: number; after: { lastSeenAtMs: number; itemId: string } | null }): Promise<{ thing: UnseenItem; unseenForMs: number }[]> {
  if (!(await stores.places.incident(input.incidentId))) throw notFound('incident');
  const things = await stores.where.unseen(input.incidentId, await unseenBefore(stores, call.env.nowMs), input.limit, input.after);
  return things.map((thing) => ({ thing, unseenForMs: call.env.nowMs - thing.lastSeenAtMs }));
}
