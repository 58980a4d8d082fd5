import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { momentOf, personOf } from '../care/claims.js';
import { lockOpenItem } from '../care/standing.js';
import { standingDecision } from '../claims/judge-unclaimed.js';
import { lockFoundRoot, refuseSpokenFor } from '../claims/unclaimed.js';
import { ownerUnknown } from '../claims/unknown-owner.js';
import { letGo, refuseUnphotographed, type ReleaseItemInput } from '../custody/let-go.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { UncollectedRecord } from '../ports/uncollected-store.js';
import type { Stores } from '../ports/work.js';

const DECIDED = { 'hand-to-authority': 'authority', dispose: 'disposed' } as const;

/**
 * Lets go what was found and nobody claimed, by the standing decision of two people in the owner's place. A part goes by the decision about the lot it
 * came from. Whoever claims it meanwhile, or a legal hold, still keeps it here.
 */
export async function releaseUnclaimed(stores: Stores, call: UseCaseCall, input: ReleaseItemInput, unknownOwnerId: string): Promise<ItemRecord> {
  // Whoever places a legal hold on all found things locks this record as well.
  await stores.erasures.lockHousehold(unknownOwnerId);
  const found = await lockFoundRoot(stores, input.itemId);
  const item = await lockOpenItem(stores, input.itemId);
  await personOf(stores, item.incidentId, input.personId);
  const path = found === null ? null : standingDecision(await stores.uncollected.ofFound(found.itemId));
  if (found === null || path === null || found.grantedClaimId !== null) throw ownerUnknown();
  refuseOtherWay(path, input.to);
  await refuseSpokenFor(stores, found);
  const releasedAtMs = momentOf(call, input.releasedAtMs, '#/releasedAt');
  await refuseUnphotographed(stores, item);
  return letGo(stores, call, item, { to: { kind: 'disposed', id: path.id }, refs: { decisionId: path.id, personId: input.personId }, personId: input.personId, releasedAtMs });
}

/** @throws Problem command_refused, owner_unknown */
function refuseOtherWay({ decision }: UncollectedRecord, to: ReleaseItemInput['to']): void {
  if (decision !== 'hand-to-authority' && decision !== 'dispose') throw ownerUnknown();
  if (DECIDED[decision] === to) return;
  throw new Problem('command_refused', `Two people have decided \`${decision}\` about it, and it goes that way or stays.`, { errors: [{ detail: `was decided to be \`${DECIDED[decision]}\``, code: 'decided_otherwise', pointer: '#/to' }], members: { decision } });
}
