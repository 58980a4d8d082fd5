import type { MaterialClass, Significance, WaterKind } from '#care';
import type { StandardItemKind } from '#climate';
import type { Keeper } from '#custody';
import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { takeInOne } from '../intake/take-in.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';

export interface TakeInItemInput {
  incidentId: string;
  householdId: string;
  siteId: string;
  tag: string;
  count: number;
  lot: boolean;
  description: string;
  familyWords: string;
  photographRef: string;
  materialClass: MaterialClass;
  sizeClass: StandardItemKind;
  significance: Significance;
  arrivedAtMs: number | null;
  wettedAtMs: number | null;
  water: WaterKind | null;
  to: Keeper | null;
}

/** Takes in one item or lot at the doorway. */
export async function takeInItem(stores: Stores, call: UseCaseCall, input: TakeInItemInput): Promise<ItemRecord> {
  const incident = await stores.places.incident(input.incidentId);
  if (!incident) throw notFound('incident');
  if (incident.state === 'closed') throw new Problem('incident_closed', 'The incident takes in nothing more. Open it again, or use the incident that runs.');
  const household = await stores.households.find(input.householdId);
  if (!household || household.incidentId !== incident.id) throw unknown('household', '#/householdId');
  const site = await stores.places.site(input.siteId);
  if (!site || site.incidentId !== incident.id) throw unknown('site', '#/siteId');
  if (input.to && !(await stores.places.find(incident.id, input.to))) throw unknown('place', '#/to/id');
  if (input.wettedAtMs !== null && input.wettedAtMs > call.env.nowMs) throw refusedTime('#/wettedAt', 'The time of wetting lies ahead. Leave it out when nobody knows it.');
  const { consents } = await stores.consents.inForce(household.id, household.id);
  return takeInOne(stores, call, {
    ...input, incident, household, consents,
    arrivedAtMs: input.arrivedAtMs ?? call.env.nowMs,
    water: input.water ?? (incident.defaultWater as WaterKind),
  });
}

function unknown(what: string, pointer: string): Problem {
  return new Problem('reference_unknown', `There is no ${what} with this id in the incident.`, { errors: [{ detail: 'names nothing of this incident', code: 'reference_unknown', pointer }] });
}

function refusedTime(pointer: string, text: string): Problem {
  return new Problem('command_refused', text, { errors: [{ detail: text, code: 'time_ahead', pointer }] });
}
