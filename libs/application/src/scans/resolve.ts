import { isTagFault, parseTagCode, type Keeper } from '#custody';
import { Problem } from '#contracts';
import type { Scanned } from '../ports/scan-store.js';
import type { TagRecord } from '../ports/tag-store.js';
import type { Stores } from '../ports/work.js';
import { KIND_PHRASE, nearestReserved, tagInvalid } from '../tags/checked-tag.js';

/** What a scan names. */
type Named = Pick<Scanned, 'itemTag' | 'containerTag' | 'placeTag' | 'place'>;

/** The tags that a batch of scans names, looked up at once; a tag of another incident is not known here. */
export async function tagsOf(stores: Stores, incidentId: string, scans: readonly Named[]): Promise<ReadonlyMap<string, TagRecord>> {
  const typed = scans.flatMap(({ itemTag, containerTag, placeTag }) => [itemTag, containerTag, placeTag]);
  const codes = new Set<string>();
  for (const tag of typed) {
    const parsed = tag === null ? null : parseTagCode(tag);
    if (parsed !== null && !isTagFault(parsed)) codes.add(parsed.code);
  }
  const known = codes.size === 0 ? [] : await stores.tags.known([...codes], incidentId);
  return new Map(known.map((tag) => [tag.code, tag]));
}

/** What a scan names, as far as its tags are known; nothing is refused here. */
export function namedBy(tags: ReadonlyMap<string, TagRecord>, scan: Named): { itemId: string | null; containerId: string | null; place: Keeper | null } {
  const found = (typed: string | null) => {
    const parsed = typed === null ? null : parseTagCode(typed);
    return parsed === null || isTagFault(parsed) ? undefined : tags.get(parsed.code);
  };
  const place = found(scan.placeTag);
  return { itemId: found(scan.itemTag)?.itemId ?? null, containerId: found(scan.containerTag)?.containerId ?? null, place: scan.place ?? (place ? keeperOf(place) : null) };
}

/** The place or container that a tag is tied to. */
export function keeperOf(tag: TagRecord): Keeper | null {
  if (tag.place !== null) return { kind: tag.place.kind, id: tag.place.id };
  return tag.containerId === null ? null : { kind: 'container', id: tag.containerId };
}

/** Names the thing and the place of a scan, or says what is wrong with it. @throws Problem command_refused, tag_invalid, tag_unknown, reference_unknown */
export async function refuseUnnamed(stores: Stores, incidentId: string, scan: Named, named: ReturnType<typeof namedBy>, pointer: string): Promise<Keeper> {
  if ((scan.itemTag === null) === (scan.containerTag === null)) throw wrongCount('`itemTag` or `containerTag`', `${pointer}/itemTag`);
  if ((scan.placeTag === null) === (scan.place === null)) throw wrongCount('`placeTag` or `place`', `${pointer}/placeTag`);
  if (scan.itemTag !== null && named.itemId === null) throw await unknownTag(stores, incidentId, scan.itemTag, 'item', `${pointer}/itemTag`);
  if (scan.containerTag !== null && named.containerId === null) throw await unknownTag(stores, incidentId, scan.containerTag, 'container', `${pointer}/containerTag`);
  if (named.place === null) throw await unknownTag(stores, incidentId, scan.placeTag ?? '', 'place', `${pointer}/placeTag`);
  return named.place;
}

function wrongCount(members: string, pointer: string): Problem {
  return new Problem('command_refused', `A scan names one thing and one place: send ${members}, and only one of the two.`, { errors: [{ detail: 'is needed, and nothing beside it', code: 'one_of_two', pointer }] });
}

/** Why a typed tag leads to nothing. @throws nothing; answers the problem */
export async function unknownTag(stores: Stores, incidentId: string, typed: string, wanted: 'item' | 'container' | 'place', pointer: string): Promise<Problem> {
  const parsed = parseTagCode(typed);
  if (isTagFault(parsed)) return tagInvalid(stores, typed, parsed.text, incidentId, pointer);
  if (parsed.kind !== wanted && !(wanted === 'place' && parsed.kind === 'container')) {
    return new Problem('tag_invalid', `This is a tag for ${KIND_PHRASE[parsed.kind]}, not for ${KIND_PHRASE[wanted]}. Scan the thing first, then the place where it is.`, { errors: [{ detail: `is not a tag for ${KIND_PHRASE[wanted]}`, code: 'tag_invalid', pointer }] });
  }
  return new Problem('tag_unknown', 'Nothing of this incident carries this tag. Look at it again; if it is on a thing, take the thing in or look for its other tag.', {
    errors: [{ detail: 'is tied to nothing of the incident', code: 'tag_unknown', pointer }], members: { nearest: await nearestReserved(stores, typed, incidentId) },
  });
}
