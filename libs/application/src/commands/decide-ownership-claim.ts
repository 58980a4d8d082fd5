import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { personOf } from '../care/claims.js';
import { grantClaim } from '../claims/grant.js';
import { faultOfDecider, outcomeOf } from '../claims/judge-claim.js';
import { claimView, refuseActor, type ClaimView } from '../claims/views.js';
import type { ClaimDecisionRecord, DeclineReason, FoundItemRecord, OwnershipClaimRecord } from '../ports/ownership-store.js';
import type { Stores } from '../ports/work.js';
import { lockedHousehold } from '../privacy/erase-household.js';

export interface DecideOwnershipClaimInput {
  ownershipClaimId: string;
  personId: string;
  accepts: boolean;
  /** Why not; null with a yes. */
  reason: DeclineReason | null;
}

/**
 * One of two people says whether a claim is accepted. The second yes gives the thing to the household, and ends every other claim on it, in this
 * transaction; one no ends the claim. Whoever comes second waits for the first, and sees what was decided.
 */
export async function decideOwnershipClaim(stores: Stores, call: UseCaseCall, input: DecideOwnershipClaimInput): Promise<ClaimView> {
  const { claim, found } = await lockOpenClaim(stores, input.ownershipClaimId);
  const person = await personOf(stores, claim.incidentId, input.personId);
  const actor = { personId: person.id, principalId: call.context.principalId };
  const before = await stores.ownership.decisions(claim.id);
  refuseActor(faultOfDecider(actor, claim, before, await stores.ownership.looks(found.id)), '#/personId');
  const decision: ClaimDecisionRecord = { id: call.env.newId(), incidentId: claim.incidentId, claimId: claim.id, ...actor, accepts: input.accepts, reason: input.accepts ? null : input.reason, decidedAtMs: call.env.nowMs };
  const decisions = [...before, decision];
  const outcome = outcomeOf(decisions);
  if (outcome === 'granted') await refuseWithoutLead(stores, decisions);
  await stores.ownership.insertDecision(decision);
  if (outcome === 'open') return claimView(stores, claim, found.itemId);
  const ended: OwnershipClaimRecord = { ...claim, state: outcome, reason: decision.reason, endedAtMs: call.env.nowMs, version: claim.version + 1 };
  await stores.ownership.endClaim(ended);
  if (outcome === 'granted') await grantClaim(stores, call, found, ended);
  return claimView(stores, ended, found.itemId);
}

/** The claim was made in error, or the family takes it back. It counts as a try all the same. */
export async function withdrawOwnershipClaim(stores: Stores, call: UseCaseCall, input: { ownershipClaimId: string }): Promise<ClaimView> {
  const { claim, found } = await lockOpenClaim(stores, input.ownershipClaimId);
  const ended: OwnershipClaimRecord = { ...claim, state: 'withdrawn', reason: 'taken-back', endedAtMs: call.env.nowMs, version: claim.version + 1 };
  await stores.ownership.endClaim(ended);
  return claimView(stores, ended, found.itemId);
}

/** Household first, then the found thing, and with it all claims on it: in this order everywhere, so that nobody blocks another. @throws Problem not_found, claim_closed, household_erased */
async function lockOpenClaim(stores: Stores, claimId: string): Promise<{ claim: OwnershipClaimRecord; found: FoundItemRecord }> {
  const named = await stores.ownership.findClaim(claimId);
  if (!named) throw notFound('claim');
  await lockedHousehold(stores, named.householdId);
  const found = await stores.ownership.lockFound(named.foundItemId);
  const claim = (await stores.ownership.claims(named.foundItemId)).find(({ id }) => id === claimId);
  if (!found || !claim) throw new Error('a claim without its thing');
  if (claim.state !== 'open') throw new Problem('claim_closed', 'This claim is not open any more; how it ended stands.', { members: { state: claim.state } });
  return { claim, found };
}

/** Of the two at least one answers for the incident. @throws Problem command_refused */
async function refuseWithoutLead(stores: Stores, decisions: readonly ClaimDecisionRecord[]): Promise<void> {
  for (const { personId } of decisions) if ((await stores.places.person(personId))?.skills.includes('lead')) return;
  throw new Problem('command_refused', 'One of the two who accept must have the skill `lead`. Let a lead of the incident look and decide.', { errors: [{ detail: 'does not have the skill lead', code: 'not_a_lead', pointer: '#/personId' }] });
}
