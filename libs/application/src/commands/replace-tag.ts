import { formatTagCode } from '#custody';
import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { recordContainer } from '../custody/containers.js';
import { openIncidentOf } from '../custody/open-incident.js';
import { recordCustody } from '../custody/record-custody.js';
import type { Stores } from '../ports/work.js';
import { checkedTag, deedOf, foundTag, isFree, reservedTag, tagReplaced } from '../tags/checked-tag.js';
import { lookedUp, type TagLookUp } from '../tags/look-up.js';

export const REPLACEMENT_REASONS = ['lost', 'illegible', 'damaged'] as const;

export interface ReplaceTagInput {
  /** The old tag, from what is on record where it is lost. */
  typed: string;
  newTag: string;
  reason: (typeof REPLACEMENT_REASONS)[number];
}

/**
 * Puts a fresh tag in the place of one that is lost or cannot be read. The old code leads to its thing for ever and is never used again;
 * for an item, and for a container that has a custody record, the change is an event of that record.
 */
export async function replaceTag(stores: Stores, call: UseCaseCall, input: ReplaceTagInput): Promise<TagLookUp> {
  const found = await foundTag(stores, input.typed);
  await openIncidentOf(stores, found.incidentId);
  // The thing first, as every command on it does; then both tags.
  const item = found.itemId === null ? null : await stores.items.lock(found.itemId);
  const container = found.containerId === null ? undefined : (await stores.containers.lockMany([found.containerId], 'update'))[0];
  const old = await reservedTag(stores, found.code, found.incidentId);
  if (isFree(old)) throw nothingToReplace(old.code);
  if (old.replaced !== null) throw tagReplaced(old);
  const code = await checkedTag(stores, input.newTag, old.incidentId, old.kind, '#/newTag');
  const retagged = { kind: 'retagged', occurredAtMs: call.env.nowMs, refs: { tagWas: old.code, tagIs: code, reason: input.reason } } as const;
  if (item !== null) await recordCustody(stores, call, item, { ...retagged, from: item.keeper, to: item.keeper });
  if (container && container.keeper !== null) await recordContainer(stores, call, container, { ...retagged, from: container.keeper, to: container.keeper });
  if (!(await stores.tags.replace(old.code, code, input.reason, deedOf(call)))) throw new Error('a tag changed although it was locked');
  return lookedUp(stores, code);
}

function nothingToReplace(code: string): Problem {
  return new Problem('command_refused', `Nobody tied the tag ${formatTagCode(code)} to anything, so nothing can take its place. Tie the fresh tag as usual, and keep or throw away this one.`);
}
