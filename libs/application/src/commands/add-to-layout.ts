import { type AddDryingPlace, type AddFreezer, type AddPerson, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { LAYOUT_REASONS } from '../planning/plan-reasons.js';
import { requestPlan } from '../planning/request-plan.js';
import type { ConfigStores } from '../ports/config-work.js';
import type { DryingPlaceRecord, FreezerRecord, PersonRecord, ShiftRecord } from '../ports/layout-store.js';
import { openIncident } from './change-versioned.js';
import { squareDecimetres } from './register-incident.layout.js';

type OfIncident<T> = T & { incidentId: string };

/** Adds a freezer to a site, for instance the trailer that a partner offers. */
export async function addFreezer(stores: ConfigStores, call: UseCaseCall, input: OfIncident<AddFreezer>): Promise<FreezerRecord> {
  await openIncident(stores.layout, input.incidentId);
  if (!(await stores.layout.site(input.incidentId, input.siteId))) throw unknownReference('site', 'siteId');
  const { availableFrom, ...own } = input;
  const freezer = { id: call.env.newId(), ...own, availableFromMs: Date.parse(availableFrom), version: 1 };
  if (!(await stores.layout.insertFreezer(freezer))) throw codeTaken('freezer of this site', input.code);
  await requestPlan(stores, call, input.incidentId, LAYOUT_REASONS.freezerAdded(freezer.code));
  return freezer;
}

/** Adds a rack, line, screen or table to a drying room. */
export async function addDryingPlace(stores: ConfigStores, call: UseCaseCall, input: OfIncident<AddDryingPlace>): Promise<DryingPlaceRecord> {
  await openIncident(stores.layout, input.incidentId);
  if (!(await stores.layout.dryingRoom(input.incidentId, input.dryingRoomId))) throw unknownReference('drying room', 'dryingRoomId');
  const { areaM2, ...own } = input;
  const place = { id: call.env.newId(), ...own, areaDm2: squareDecimetres(areaM2), version: 1 };
  if (!(await stores.layout.insertDryingPlace(place))) throw codeTaken('drying place of this room', input.code);
  await requestPlan(stores, call, input.incidentId, LAYOUT_REASONS.placeAdded(place.code));
  return place;
}

export interface PersonView {
  person: PersonRecord;
  shifts: ShiftRecord[];
}

/** Adds somebody who works at a site, with the shifts that are known. */
export async function addPerson(stores: ConfigStores, call: UseCaseCall, input: OfIncident<AddPerson>): Promise<PersonView> {
  await openIncident(stores.layout, input.incidentId);
  if (!(await stores.layout.site(input.incidentId, input.siteId))) throw unknownReference('site', 'siteId');
  const { shifts: given, ...own } = input;
  const person = { id: call.env.newId(), ...own, version: 1 };
  const shifts = given.map((shift) => ({ id: call.env.newId(), incidentId: input.incidentId, personId: person.id, startsAtMs: Date.parse(shift.startsAt), endsAtMs: Date.parse(shift.endsAt), version: 1 }));
  if (!(await stores.layout.insertPerson(person, shifts))) throw codeTaken('person of this incident', input.code);
  if (shifts.length > 0) await requestPlan(stores, call, input.incidentId, LAYOUT_REASONS.personAdded(person.code));
  return { person, shifts };
}

/** The refusal of a reference to nothing of the layout. */
export function unknownReference(what: string, member: string): Problem {
  return new Problem('reference_unknown', `No ${what} with this id belongs to the incident. Take the id from the layout.`, {
    errors: [{ detail: `names no ${what} of this incident`, code: 'reference_unknown', pointer: `#/${member}` }],
  });
}

/** The refusal of a code that another has. */
export function codeTaken(what: string, code: string): Problem {
  return new Problem('already_exists', `Another ${what} has the code "${code}". Choose another code, or change the one that is there.`, {
    errors: [{ detail: 'is taken', code: 'already_exists', pointer: '#/code' }],
  });
}
