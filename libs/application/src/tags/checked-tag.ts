import { formatTagCode, isTagFault, nearestPlausible, parseTagCode, type TagKind } from '#custody';
import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { TagDeed, TagRecord } from '../ports/tag-store.js';
import type { Stores } from '../ports/work.js';

/** What a tag of each kind is for, in a sentence. */
export const KIND_PHRASE: Readonly<Record<TagKind, string>> = { item: 'an item', container: 'a container', place: 'a place', person: 'a person' };

/** Suggestions at most. */
const NEAREST = 5;

export function deedOf(call: UseCaseCall): TagDeed {
  return { actorId: call.context.principalId, nowMs: call.env.nowMs };
}

/**
 * The tag as a code, reserved for this incident, of the kind and free, and locked; else a problem that says what to do.
 * @throws Problem tag_invalid, tag_unknown, tag_taken
 */
export async function checkedTag(stores: Stores, typed: string, incidentId: string, kind: TagKind = 'item', pointer = '#/tag'): Promise<string> {
  const tag = await reservedTag(stores, typed, incidentId, pointer);
  if (tag.kind !== kind) throw new Problem('tag_invalid', `${formatTagCode(tag.code)} is a tag for ${KIND_PHRASE[tag.kind]}, not for ${KIND_PHRASE[kind]}.`, { errors: [{ detail: `is not a tag for ${KIND_PHRASE[kind]}`, code: 'tag_invalid', pointer }] });
  if (tag.replaced !== null) throw tagReplaced(tag);
  if (!isFree(tag)) throw tagTaken(tag.code);
  return tag.code;
}

/** A tag that was reserved for the incident, tied or not, and locked. @throws Problem tag_invalid, tag_unknown */
export async function reservedTag(stores: Stores, typed: string, incidentId: string, pointer = '#/tag'): Promise<TagRecord> {
  const parsed = parseTagCode(typed);
  if (isTagFault(parsed)) throw await tagInvalid(stores, typed, parsed.text, incidentId, pointer);
  const tag = await stores.tags.lock(parsed.code);
  if (tag?.incidentId === incidentId) return tag;
  throw new Problem('tag_unknown', 'No one reserved this tag for the incident. Reserve a block of tags first, or look at the tag again.', {
    errors: [{ detail: 'is no reserved tag of the incident', code: 'tag_unknown', pointer }], members: { nearest: await nearestReserved(stores, typed, incidentId) },
  });
}

/** The tag of an address. @throws Problem tag_invalid, not_found */
export async function foundTag(stores: Stores, typed: string): Promise<TagRecord> {
  const parsed = parseTagCode(typed);
  if (isTagFault(parsed)) throw await tagInvalid(stores, typed, parsed.text, null);
  const tag = await stores.tags.find(parsed.code);
  if (!tag) throw notFound('tag');
  return tag;
}

export async function tagInvalid(stores: Stores, typed: string, text: string, incidentId: string | null, pointer = '#/tag'): Promise<Problem> {
  return new Problem('tag_invalid', text, { errors: [{ detail: text, code: 'tag_invalid', pointer }], members: { nearest: await nearestReserved(stores, typed, incidentId) } });
}

/** Tied to nothing, now or ever. */
export function isFree({ itemId, containerId, place, personId }: TagRecord): boolean {
  return itemId === null && containerId === null && place === null && personId === null;
}

export function tagTaken(code: string): Problem {
  return new Problem('tag_taken', `The tag ${formatTagCode(code)} is tied to another thing already. Look it up to see to which one; use a fresh tag here.`);
}

/** A code that was replaced stays with its thing for ever: two things under one code would be a mix-up that nobody could undo. */
export function tagReplaced({ code, replaced }: TagRecord): Problem {
  const by = formatTagCode(replaced?.by ?? code);
  return new Problem('tag_taken', `The tag ${formatTagCode(code)} was replaced by ${by} and is never used again, even where it is found. Take it away, and use a fresh tag here.`, { members: { replacedBy: by } });
}

/**
 * Reserved tags that differ from what was typed by one slip. At most 5, most plausible first. Only those of the incident: a tag
 * of another one cannot be tied here. Null, where a request names no incident, for all of the network.
 */
export async function nearestReserved(stores: Stores, typed: string, incidentId: string | null): Promise<string[]> {
  const candidates = nearestPlausible(typed, null);
  if (candidates.length === 0) return [];
  const known = new Set((await stores.tags.known(candidates, incidentId)).map((tag) => tag.code));
  return candidates.filter((code) => known.has(code)).slice(0, NEAREST).map(formatTagCode);
}
