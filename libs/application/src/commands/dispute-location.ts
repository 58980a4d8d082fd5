import { isTagFault, parseTagCode, type Keeper } from '#custody';
import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { momentOf, personOf } from '../care/claims.js';
import { refuseClosed } from '../custody/open-incident.js';
import { recordCustody } from '../custody/record-custody.js';
import type { ItemAndEvent } from '../custody/true-place.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';
import { keeperOf, unknownTag } from '../scans/resolve.js';

export interface DisputeLocationInput {
  itemId: string;
  /** Where it is said to be: one of the two. */
  place: Keeper | null;
  placeTag: string | null;
  personId: string | null;
  seenAtMs: number | null;
  note: string;
}

/** Keeps a claim that a thing is elsewhere than on record. It moves nothing, and nothing else moves the thing, until a person has looked. */
export async function disputeLocation(stores: Stores, call: UseCaseCall, input: DisputeLocationInput): Promise<ItemAndEvent> {
  const item = await stores.items.lock(input.itemId);
  if (!item) throw notFound('item');
  await refuseClosed(stores, item);
  const { personId, note } = input;
  if (personId !== null) await personOf(stores, item.incidentId, personId);
  const seenAtMs = momentOf(call, input.seenAtMs, '#/seenAt');
  const claimed = await claimedPlace(stores, item, input);
  // What was said stays beside the chain: the words of a person can be erased, a hash cannot.
  await stores.scans.sight({ id: call.env.newId(), incidentId: item.incidentId, thing: { itemId: item.id }, place: claimed, seenAtMs, recordedAtMs: call.env.nowMs, personId, actorId: call.context.principalId, verdict: 'claims-elsewhere', atSeq: item.seq, note });
  const refs = { claimedKind: claimed.kind, claimedId: claimed.id, ...(personId === null ? {} : { personId }) };
  return recordCustody(stores, call, item, { kind: 'location-disputed', from: item.keeper, to: item.keeper, refs, occurredAtMs: seenAtMs });
}

async function claimedPlace(stores: Stores, item: ItemRecord, { place, placeTag }: DisputeLocationInput): Promise<Keeper> {
  if (placeTag !== null) return placeOfTag(stores, item.incidentId, placeTag);
  if (place !== null && (await stores.places.find(item.incidentId, place))) return place;
  throw new Problem('reference_unknown', `There is no ${place?.kind ?? 'place'} with this id in the incident. Take the id from the layout of the incident, or scan the tag of the place.`, { errors: [{ detail: 'names nothing of this incident', code: 'reference_unknown', pointer: '#/place/id' }] });
}

async function placeOfTag(stores: Stores, incidentId: string, typed: string): Promise<Keeper> {
  const parsed = parseTagCode(typed);
  const [tag] = isTagFault(parsed) ? [] : await stores.tags.known([parsed.code], incidentId);
  const place = tag ? keeperOf(tag) : null;
  if (place === null) throw await unknownTag(stores, incidentId, typed, 'place', '#/placeTag');
  return place;
}
