import type { UseCaseCall } from '../call.js';
import { notFound } from '#contracts';
import type { AlarmFilter, AlarmView } from '../ports/alarm-store.js';
import type { Stores } from '../ports/work.js';

/** Alarms of an incident, the newest first. */
export async function listAlarms(stores: Stores, _call: UseCaseCall, input: { incidentId: string; filter: AlarmFilter; limit: number; after: string | null }): Promise<AlarmView[]> {
  if (!(await stores.places.incident(input.incidentId))) throw notFound('incident');
  return stores.alarms.page(input.incidentId, input.filter, input.limit, input.after);
}
