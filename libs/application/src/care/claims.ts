import { FUTURE_TOLERANCE_MS, type Keeper } from '#custody';
import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { PlaceRecord } from '../ports/place-store.js';
import type { Stores } from '../ports/work.js';

/** A body names something that the incident does not have. */
export function unknownReference(what: string, pointer: string): Problem {
  return new Problem('reference_unknown', `There is no ${what} with this id in the incident. Take the id from the layout of the incident.`, { errors: [{ detail: 'names nothing of this incident', code: 'reference_unknown', pointer }] });
}

/** A person of the incident with the skills on record. @throws Problem reference_unknown */
export async function personOf(stores: Stores, incidentId: string, personId: string, pointer = '#/personId'): Promise<{ id: string; skills: string[] }> {
  const person = await stores.places.person(personId);
  if (!person || person.incidentId !== incidentId) throw unknownReference('person', pointer);
  return person;
}

/** Somebody who answers for a decision. */
export interface Decider {
  /** Null for a decision of the whole network: then a lead of any of its incidents. */
  incidentId: string | null;
  personId: string;
  /** What only a lead may do, and what to do about it: the end of the sentence. */
  may: string;
  pointer?: string;
}

/** Only a lead decides. @throws Problem reference_unknown or command_refused */
export async function refuseNoLead(stores: Pick<Stores, 'places'>, { incidentId, personId, may, pointer = '#/personId' }: Decider): Promise<void> {
  const person = await stores.places.person(personId);
  if (!person || (incidentId !== null && person.incidentId !== incidentId)) throw unknownReference('person', pointer);
  if (person.skills.includes('lead')) return;
  throw new Problem('command_refused', `Only a person with the skill \`lead\` may ${may}`, { errors: [{ detail: 'does not have the skill lead', code: 'not_a_lead', pointer }] });
}

/** A station of the incident. @throws Problem reference_unknown */
export async function stationOf(stores: Stores, incidentId: string, stationId: string, pointer = '#/stationId'): Promise<PlaceRecord> {
  const station = await stores.places.find(incidentId, { kind: 'station', id: stationId });
  if (!station) throw unknownReference('station', pointer);
  return station;
}

/** The station whose crew has the item now; null when no station has it. */
export async function stationHolding(stores: Stores, incidentId: string, keeper: Keeper): Promise<PlaceRecord | null> {
  return keeper.kind === 'station' ? stores.places.find(incidentId, keeper) : null;
}

/** When it happened: as told, or now. A tablet's clock may run a little ahead, not more. @throws Problem command_refused */
export function momentOf(call: UseCaseCall, toldMs: number | null, pointer: string): number {
  if (toldMs === null) return call.env.nowMs;
  if (toldMs - call.env.nowMs <= FUTURE_TOLERANCE_MS) return toldMs;
  const detail = `lies after the present time, ${new Date(call.env.nowMs).toISOString()}`;
  throw new Problem('command_refused', "The time lies in the future. Set the device's clock, or leave the time out for now.", { errors: [{ detail, code: 'time_ahead', pointer }] });
}
