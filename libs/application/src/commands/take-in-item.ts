import { contradictionsIn, say, type Consents, type WaterKind } from '#care';
import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { AT_THE_TOP, contradictionErrors, faultOf, refuseContradictions, type Fault } from '../care/contradicted.js';
import { claimRoom } from '../custody/capacity.js';
import { holdCompany, refuseCompany } from '../custody/company.js';
import { incidentForIntake } from '../custody/open-incident.js';
import { firstAssessment } from '../intake/first-assessment.js';
import { extentOf } from '../intake/size.js';
import { takeInOne, type Arrival, type Told } from '../intake/take-in.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';
import { refuseErased } from '../privacy/erase-household.js';

export interface TakeInItemInput extends Told {
  incidentId: string;
  householdId: string;
  /** Null for now. */
  arrivedAtMs: number | null;
  /** Null for what the incident assumes. */
  water: WaterKind | null;
  /** What the owner said of this very thing, beside what was said of all; recorded by the caller. */
  said?: Partial<Consents>;
  /** Further references for its first event. */
  refs?: Record<string, string>;
  /** It was found, and belongs to the record of unknown owners. */
  found?: boolean;
}

/** Takes in one item or lot at the doorway. */
export async function takeInItem(stores: Stores, call: UseCaseCall, input: TakeInItemInput): Promise<ItemRecord> {
  const incident = await incidentForIntake(stores, input.incidentId);
  const household = await stores.households.find(input.householdId);
  if (!household || household.incidentId !== incident.id) throw unknown('household', '#/householdId');
  await refuseErased(stores, household.id);
  const site = await stores.places.site(input.siteId);
  if (!site || site.incidentId !== incident.id) throw unknown('site', '#/siteId');
  if (input.to) await holdCompany(stores, { incidentId: incident.id, nextStep: null }, input.to);
  const place = input.to ? await claimRoom(stores, { incidentId: incident.id, keeper: null, ...extentOf(input.sizeClass, input.count) }, input.to) : null;
  const { consents } = await stores.consents.inForce(household.id, household.id);
  const arrival: Arrival = { ...input, incident, household, consents: { ...consents, ...input.said }, arrivedAtMs: input.arrivedAtMs ?? call.env.nowMs, water: input.water ?? (incident.defaultWater as WaterKind) };
  const moment = { nowMs: call.env.nowMs, floodAtMs: incident.floodAtMs, airTempC: incident.outdoorAirTempC };
  refuseContradictions([...contradictionErrors(contradictionsIn(firstAssessment(arrival), moment), AT_THE_TOP), ...arrivedDry(input)]);
  const item = await takeInOne(stores, call, arrival);
  // Only now it has its triage; a refusal takes all of it back.
  if (input.to) await refuseCompany(stores, item, input.to, place);
  return item;
}

/** What came before it got wet: one of the two times is wrong. */
function arrivedDry({ arrivedAtMs, wettedAtMs }: TakeInItemInput): Fault[] {
  if (wettedAtMs === null || arrivedAtMs === null || wettedAtMs <= arrivedAtMs) return [];
  return [faultOf(say('It arrived before it got wet. One of the two times is wrong.'), 'arrived_before_wetted', '#/arrivedAt')];
}

function unknown(what: string, pointer: string): Problem {
  return new Problem('reference_unknown', `There is no ${what} with this id in the incident.`, { errors: [{ detail: 'names nothing of this incident', code: 'reference_unknown', pointer }] });
}
