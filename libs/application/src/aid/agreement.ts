import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { AidAgreementRecord, Across } from '../ports/aid-store.js';
import type { Stores } from '../ports/work.js';

/** An agreement under which things may pass now: agreed, not revoked, not ended. Locked. @throws Problem not_found, command_refused */
export async function agreementInForce(stores: Stores, call: UseCaseCall, agreementId: string): Promise<AidAgreementRecord & { across: Across }> {
  await stores.aid.takeTurn(agreementId);
  const agreement = await stores.aid.lockAgreement(agreementId);
  if (!agreement) throw notFound('agreement');
  const { partnerNetworkId, partnerIncidentId } = agreement;
  if (agreement.state !== 'agreed' || partnerNetworkId === null || partnerIncidentId === null) {
    throw new Problem('command_refused', agreement.state === 'invited' ? 'The partner has not joined yet. Send the invitation to its coordinator, who joins with it.' : 'The agreement was revoked. Make a new one with the partner before anything more passes.', { members: { state: agreement.state } });
  }
  if (call.env.nowMs >= agreement.validToMs) throw new Problem('command_refused', 'The agreement has ended. Make a new one with the partner before anything more passes.', { members: { state: 'ended' } });
  return { ...agreement, across: acrossOf(agreement) };
}

/** The way to the partner's side of an agreement that was joined. */
export function acrossOf(agreement: AidAgreementRecord): Across {
  if (agreement.partnerNetworkId === null) throw new Error('nobody has joined the agreement');
  return { networkId: agreement.partnerNetworkId, incidentId: agreement.partnerIncidentId, agreementId: agreement.id };
}

/** The partner's own record must say the same, and its network must be at work; else nothing passes. Runs on the partner's stores. */
export async function refuseOneSided(there: Stores, agreement: AidAgreementRecord): Promise<void> {
  const theirs = await there.aid.lockAgreement(agreement.id);
  if (theirs?.state === 'agreed' && theirs.partnerNetworkId === agreement.networkId && (await there.aid.networkName()) !== null) return;
  throw new Problem('command_refused', 'The partner does not take part any more. Speak with its coordinator, and keep the thing meanwhile.', { members: { state: 'revoked' } });
}
