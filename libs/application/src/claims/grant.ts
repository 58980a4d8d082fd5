import { TERMINAL_STAGES } from '#custody';
import type { UseCaseCall } from '../call.js';
import { refuseClosed } from '../custody/open-incident.js';
import { recordCustody } from '../custody/record-custody.js';
import { retriageItem, stopSafely } from '../families/put-word.js';
import { ownerReason } from '../planning/plan-reasons.js';
import { requestPlan } from '../planning/request-plan.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { FoundItemRecord, OwnershipClaimRecord } from '../ports/ownership-store.js';
import type { Stores } from '../ports/work.js';
import { endUnclaimedPath } from './unclaimed.js';

/** Why the first event of a found thing is put right: it named the record of unknown owners. A code; nobody's words. */
export const OWNER_FOUND = 'owner-found';

/**
 * Gives a found thing, and what was taken out of it, to the household of an accepted claim. Where it is does not change: the custody record says by a
 * correction of its first event whose it is, everything said of it is sealed anew for the household, the household's word counts for it from now on,
 * and other claims on it end. All in the transaction of the decision.
 */
export async function grantClaim(stores: Stores, call: UseCaseCall, found: FoundItemRecord, claim: OwnershipClaimRecord): Promise<void> {
  await refuseClosed(stores, found);
  const items = await stores.items.lockMany([found.itemId, ...(await stores.ownership.partsOf(found.itemId))]);
  let goesOtherwise = false;
  for (const item of items) {
    const given = await giveOne(stores, call, item, claim);
    if (given.disposition !== item.disposition || given.nextStep !== item.nextStep || given.waitingForOwner !== item.waitingForOwner) goesOtherwise = true;
  }
  await stores.ownership.saveGranted(found.id, claim.id);
  await endRivals(stores, call, claim);
  await endUnclaimedPath(stores, call, found.itemId);
  if (goesOtherwise) await requestPlan(stores, call, found.incidentId, ownerReason('treat'));
}

async function giveOne(stores: Stores, call: UseCaseCall, item: ItemRecord, claim: OwnershipClaimRecord): Promise<ItemRecord> {
  const refs = { householdId: claim.householdId, householdWas: item.householdId, claimId: claim.id };
  const { item: corrected } = await recordCustody(stores, call, item, { kind: 'correction', from: item.keeper, to: item.keeper, refs, corrects: { seq: 1, reason: OWNER_FOUND }, occurredAtMs: call.env.nowMs });
  const version = await stores.ownership.giveTo(item.id, claim.householdId, call.env.nowMs);
  const theirs: ItemRecord = { ...corrected, householdId: claim.householdId, version };
  if (TERMINAL_STAGES.includes(theirs.stage)) return theirs;
  // What the family said of all its things is said of this one, too: a no stops what is under way.
  for (const consent of (await stores.consents.ofHousehold(claim.householdId)).filter(({ itemId, given }) => itemId === null && !given)) await stopSafely(stores, call, theirs, consent);
  return retriageItem(stores, call, theirs);
}

async function endRivals(stores: Stores, call: UseCaseCall, granted: OwnershipClaimRecord): Promise<void> {
  const rivals = (await stores.ownership.claims(granted.foundItemId)).filter(({ id, state }) => id !== granted.id && state === 'open');
  for (const rival of rivals) await stores.ownership.endClaim({ ...rival, state: 'declined', reason: 'another-claim-accepted', endedAtMs: call.env.nowMs, version: rival.version + 1 });
}
