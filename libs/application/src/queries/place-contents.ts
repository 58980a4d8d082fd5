import type { Keeper } from '#custody';
import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { PlaceRecord } from '../ports/place-store.js';
import type { LyingThing } from '../ports/where-store.js';
import type { Stores } from '../ports/work.js';
import { keeperOf, tagsOf, unknownTag } from '../scans/resolve.js';
import { isTagFault, parseTagCode } from '#custody';

export interface PlaceContentsInput {
  incidentId: string;
  /** The tag of a place or container, or the place itself. */
  at: { tag: string } | { place: Keeper };
  limit: number;
  after: string | null;
}

/** Everything at a place, with what is in the containers there. @throws Problem not_found, tag_invalid, tag_unknown, reference_unknown */
export async function placeContents(stores: Stores, _call: UseCaseCall, input: PlaceContentsInput): Promise<{ place: PlaceRecord; things: LyingThing[] }> {
  const { incidentId, at } = input;
  if (!(await stores.places.incident(incidentId))) throw notFound('incident');
  const keeper = 'tag' in at ? await taggedPlace(stores, incidentId, at.tag) : at.place;
  const place = await stores.places.find(incidentId, keeper);
  if (!place) throw new Problem('reference_unknown', `There is no ${keeper.kind} with this id in the incident. Take the id from the layout of the incident.`, { errors: [{ detail: 'names nothing of this incident', code: 'reference_unknown', parameter: 'placeId' }] });
  return { place, things: await stores.where.contents(keeper, input.limit, input.after) };
}

async function taggedPlace(stores: Stores, incidentId: string, typed: string): Promise<Keeper> {
  const parsed = parseTagCode(typed);
  const tags = await tagsOf(stores, incidentId, [{ itemTag: null, containerTag: null, placeTag: typed, place: null }]);
  const tag = isTagFault(parsed) ? undefined : tags.get(parsed.code);
  const keeper = tag ? keeperOf(tag) : null;
  if (keeper === null) throw await unknownTag(stores, incidentId, typed, 'place', '#/placeTag');
  return keeper;
}
