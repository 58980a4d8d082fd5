import { formatTagCode } from '#custody';
import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { openIncidentOf } from '../custody/open-incident.js';
import type { TaggedPlace, TagRecord } from '../ports/tag-store.js';
import type { Stores } from '../ports/work.js';
import { checkedTag, deedOf, foundTag } from '../tags/checked-tag.js';
import { lookedUp, type TagLookUp } from '../tags/look-up.js';

/** The place or the person; one of the two. */
export type TieTagInput = { typed: string } & ({ place: TaggedPlace } | { personId: string });

/** Ties a reserved tag to a place or person of its incident. Items and containers get theirs when they are taken in or registered. */
export async function tieTag(stores: Stores, call: UseCaseCall, input: TieTagInput): Promise<TagLookUp> {
  const tag = await foundTag(stores, input.typed);
  await openIncidentOf(stores, tag.incidentId);
  const code = await checkedTag(stores, tag.code, tag.incidentId, 'place' in input ? 'place' : 'person');
  const target = 'place' in input ? { place: input.place } : { personId: input.personId };
  await holdTarget(stores, tag.incidentId, target);
  const live = await stores.tags.liveOf(target);
  if (live) throw tiedAlready(live, 'place' in target);
  if (!(await stores.tags.tie(code, target, deedOf(call)))) throw new Error('the tag was tied although it was locked');
  return lookedUp(stores, code);
}

/** Locked, so that of two tags for one place the second sees the first. */
async function holdTarget(stores: Stores, incidentId: string, target: { place: TaggedPlace } | { personId: string }): Promise<void> {
  const keeper = 'place' in target ? target.place : ({ kind: 'courier', id: target.personId } as const);
  if (await stores.places.lock(incidentId, keeper)) return;
  const [what, pointer] = 'place' in target ? [target.place.kind, '#/place/id'] : ['person', '#/personId'];
  throw new Problem('reference_unknown', `There is no ${what} with this id in the incident of the tag. Take the id from the layout of the incident.`, { errors: [{ detail: 'names nothing of this incident', code: 'reference_unknown', pointer }] });
}

function tiedAlready(live: TagRecord, isPlace: boolean): Problem {
  const code = formatTagCode(live.code);
  return new Problem('tag_taken', `This ${isPlace ? 'place' : 'person'} has the tag ${code} already, and one tag is enough. Use that one; if it is lost or cannot be read, put this one in its place (POST /v1/tags/${code}/replacements).`, { members: { tagInUse: code } });
}
