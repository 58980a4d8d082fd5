import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { dueOf, type PathDue } from '../hand-back/uncollected-path.js';
import type { SlotRecord } from '../ports/booking-store.js';
import type { UncollectedRecord } from '../ports/uncollected-store.js';
import type { Stores } from '../ports/work.js';

/** Slots of a site that are not over, in the order of their beginnings. */
export async function listHandBackSlots(stores: Stores, call: UseCaseCall, input: { siteId: string; fromMs: number | null; limit: number; after: { startsAtMs: number; id: string } | null }): Promise<SlotRecord[]> {
  if (!(await stores.places.site(input.siteId))) throw notFound('site');
  return stores.bookings.slots(input.siteId, input.fromMs ?? call.env.nowMs, input.limit, input.after);
}

/** A path with what is due now. */
export type UncollectedView = UncollectedRecord & { due: PathDue | null };

export const withDue = (path: UncollectedRecord, nowMs: number): UncollectedView => ({ ...path, due: dueOf(path, nowMs) });

/** What nobody has fetched, open ones first. */
export async function listUncollected(stores: Stores, call: UseCaseCall, input: { incidentId: string; limit: number; after: { ended: boolean; id: string } | null }): Promise<UncollectedView[]> {
  if (!(await stores.places.incident(input.incidentId))) throw notFound('incident');
  return (await stores.uncollected.page(input.incidentId, input.limit, input.after)).map((path) => withDue(path, call.env.nowMs));
}
