/**
 * Who may take the answers of a claim, who may decide it, and what follows. Pure: over the records as they were loaded. All rules are our own; they
 * follow the common practice that who asks, who knows the answers and who decides are not the same person.
 */
import type { ClaimDecisionRecord, MarkLookRecord, OwnerMarkRecord, OwnershipClaimRecord } from '../ports/ownership-store.js';

/** A person of the incident, and the key with which they work. */
export interface Actor {
  personId: string;
  principalId: string;
}

/** Why somebody else must do it. */
export type ActorFault = 'knows-the-answers' | 'took-the-answers' | 'decided-before' | 'key-decided-before' | 'has-not-looked';

/** How many different people, with different keys, must accept. */
export const ACCEPTANCES = 2;

/** Who has seen the recorded answers, or wrote them down, asks nobody for theirs: a nod would be enough to help. */
export function faultOfTaker(actor: Actor, marks: readonly Pick<OwnerMarkRecord, 'recordedBy' | 'recordedWith'>[], looks: readonly Pick<MarkLookRecord, 'personId' | 'principalId'>[]): ActorFault | null {
  const knows = marks.some((mark) => mark.recordedBy === actor.personId || mark.recordedWith === actor.principalId) || looks.some((look) => look.personId === actor.personId || look.principalId === actor.principalId);
  return knows ? 'knows-the-answers' : null;
}

/** Who took the answers down compares them with nothing. The key counts as well as the name: names are said, keys are held. */
export function faultOfLooker(actor: Actor, claim: Pick<OwnershipClaimRecord, 'takenBy' | 'takenWith'>): ActorFault | null {
  return claim.takenBy === actor.personId || claim.takenWith === actor.principalId ? 'took-the-answers' : null;
}

/** Who decides did not take the answers, has seen both sides under this name, and decides once. */
export function faultOfDecider(actor: Actor, claim: Pick<OwnershipClaimRecord, 'id' | 'takenBy' | 'takenWith'>, decisions: readonly Pick<ClaimDecisionRecord, 'personId' | 'principalId'>[], looks: readonly Pick<MarkLookRecord, 'claimId' | 'personId'>[]): ActorFault | null {
  if (decisions.some(({ personId }) => personId === actor.personId)) return 'decided-before';
  if (decisions.some(({ principalId }) => principalId === actor.principalId)) return 'key-decided-before';
  const taker = faultOfLooker(actor, claim);
  if (taker !== null) return taker;
  return looks.some((look) => look.claimId === claim.id && look.personId === actor.personId) ? null : 'has-not-looked';
}

/** One doubt is enough to give nothing away: the thing stays safe with us, and the family may claim again. */
export function outcomeOf(decisions: readonly Pick<ClaimDecisionRecord, 'accepts'>[]): 'open' | 'granted' | 'declined' {
  if (decisions.some(({ accepts }) => !accepts)) return 'declined';
  return decisions.length >= ACCEPTANCES ? 'granted' : 'open';
}
