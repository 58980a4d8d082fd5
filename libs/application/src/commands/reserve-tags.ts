import { makeTagCode, TAG_SERIAL_COUNT, type TagKind } from '#custody';
import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { openIncidentOf } from '../custody/open-incident.js';
import type { Stores } from '../ports/work.js';

export interface ReserveTagsInput {
  incidentId: string;
  kind: TagKind;
  count: number;
  reservedFor: string;
}

export interface TagBlock {
  id: string;
  kind: TagKind;
  reservedFor: string;
  createdAtMs: number;
  codes: string[];
}

/** Reserves a block of tags for a team, so that tagging never waits for the network. */
export async function reserveTags(stores: Stores, call: UseCaseCall, input: ReserveTagsInput): Promise<TagBlock> {
  await openIncidentOf(stores, input.incidentId);
  const first = await stores.tags.reserveSerials(input.kind, input.count);
  if (first + input.count > TAG_SERIAL_COUNT) throw new Problem('command_refused', 'The network has used up its tags of this kind.');
  const codes = Array.from({ length: input.count }, (_, index) => makeTagCode(first + index, input.kind));
  const id = call.env.newId();
  await stores.tags.insertBlock(
    { id, incidentId: input.incidentId, kind: input.kind, firstSerial: first, lastSerial: first + input.count - 1, reservedFor: input.reservedFor, createdAtMs: call.env.nowMs },
    codes,
  );
  return { id, kind: input.kind, reservedFor: input.reservedFor, createdAtMs: call.env.nowMs, codes };
}
