/** Two networks agree to help each other: one invites, the other joins with the invitation, either ends it. */
import { notFound, Problem } from '#contracts';
import { acrossOf } from '../aid/agreement.js';
import type { UseCaseCall } from '../call.js';
import { incidentForIntake, openIncidentOf } from '../custody/open-incident.js';
import type { AidAgreementRecord } from '../ports/aid-store.js';
import type { Stores } from '../ports/work.js';

export interface InviteToAidInput {
  incidentId: string;
  /** What we call the partner until it has joined. */
  partnerName: string;
  validToMs: number;
}

/** Made at the edge, where chance is; the text goes to the partner's coordinator once. */
export interface MadeInvitation {
  agreementId: string;
  sha256: string;
}

/** An agreement lasts at most this long, so that none is forgotten: days, our own calibration. */
const LONGEST_DAYS = 180;

/** Invites another network to take things in for us. Its first step: nothing passes before it has joined. */
export async function inviteToAid(stores: Stores, call: UseCaseCall, input: InviteToAidInput, made: MadeInvitation): Promise<AidAgreementRecord> {
  await openIncidentOf(stores, input.incidentId);
  refuseOddEnd(call, input.validToMs);
  const agreement: AidAgreementRecord = {
    id: made.agreementId, networkId: call.context.networkId, incidentId: input.incidentId, role: 'giver', state: 'invited', partnerNetworkId: null, partnerIncidentId: null, partnerName: input.partnerName,
    invitationSha256: made.sha256, householdId: null, validToMs: input.validToMs, createdAtMs: call.env.nowMs, agreedAtMs: null, revokedAtMs: null,
  };
  await stores.aid.insertAgreement(agreement);
  return agreement;
}

function refuseOddEnd(call: UseCaseCall, validToMs: number): void {
  const days = (validToMs - call.env.nowMs) / 86_400_000;
  if (days > 0 && days <= LONGEST_DAYS) return;
  throw new Problem('command_refused', `An agreement ends within ${LONGEST_DAYS} days from now, and not before now. Choose another end; it can be made anew later.`, { errors: [{ detail: 'lies before now or too far ahead', code: 'time_out_of_range', pointer: '#/validTo' }] });
}

export interface JoinAidInput {
  incidentId: string;
  /** As read from the text; null when the text was never an invitation. */
  invitation: { networkId: string; agreementId: string; sha256: string } | null;
}

/** Joins with an invitation of another network: from now on its things may be handed over to our incident. */
export async function joinAid(stores: Stores, call: UseCaseCall, input: JoinAidInput): Promise<AidAgreementRecord> {
  const incident = await incidentForIntake(stores, input.incidentId);
  const ourName = (await stores.aid.networkName()) ?? '';
  const { invitation } = input;
  if (invitation === null || invitation.networkId === call.context.networkId) throw unknownInvitation();
  await stores.aid.takeTurn(invitation.agreementId);
  const { giver, name } = await stores.aid.across({ networkId: invitation.networkId, incidentId: null, agreementId: invitation.agreementId }, async (there) => {
    const found = await there.aid.lockAgreement(invitation.agreementId);
    const theirName = await there.aid.networkName();
    // One answer for all that is wrong with it: nobody learns which agreements or networks there are.
    if (!found || theirName === null || found.state !== 'invited' || found.invitationSha256 !== invitation.sha256 || call.env.nowMs >= found.validToMs) throw unknownInvitation();
    await there.aid.saveAgreement(found.id, { state: 'agreed', partnerNetworkId: call.context.networkId, partnerIncidentId: incident.id, partnerName: ourName, agreedAtMs: call.env.nowMs });
    await there.aid.note('joinAid', { kind: 'aid-agreements', id: found.id });
    return { giver: found, name: theirName };
  });
  const householdId = await partnersHousehold(stores, call, incident.id, giver.id, name);
  const agreement: AidAgreementRecord = {
    ...giver, networkId: call.context.networkId, incidentId: incident.id, role: 'receiver', state: 'agreed', partnerNetworkId: giver.networkId, partnerIncidentId: giver.incidentId, partnerName: name,
    invitationSha256: null, householdId, createdAtMs: call.env.nowMs, agreedAtMs: call.env.nowMs, revokedAtMs: null,
  };
  await stores.aid.insertAgreement(agreement);
  return agreement;
}

function unknownInvitation(): Problem {
  return new Problem('command_refused', 'This invitation is not known, was used already, or has ended. Ask the network that sent it for a new one.', { errors: [{ detail: 'is no open invitation', code: 'invitation_unknown', pointer: '#/invitation' }] });
}

/** Their things need somebody to whom they belong here: the partner network itself. Its families stay with it. */
async function partnersHousehold(stores: Stores, call: UseCaseCall, incidentId: string, agreementId: string, name: string): Promise<string> {
  const id = call.env.newId();
  const code = `AID-${agreementId.slice(-12).toUpperCase()}`;
  await stores.households.insert({ networkId: call.context.networkId, incidentId, id, code, language: 'en', unknownOwner: false, version: 1, createdAtMs: call.env.nowMs, updatedAtMs: call.env.nowMs }, { name, phone: '', email: '', address: '' });
  return id;
}

/** Ends an agreement on both sides at once. What is with the partner stays there on record and can be given back no more by this agreement. */
export async function revokeAid(stores: Stores, call: UseCaseCall, input: { agreementId: string }): Promise<AidAgreementRecord> {
  await stores.aid.takeTurn(input.agreementId);
  const agreement = await stores.aid.lockAgreement(input.agreementId);
  if (!agreement) throw notFound('agreement');
  if (agreement.state === 'revoked') throw new Problem('command_refused', 'The agreement was revoked before. Nothing needs to be sent.', { members: { state: 'revoked' } });
  const revokedAtMs = call.env.nowMs;
  const ended = { state: 'revoked', revokedAtMs } as const;
  await stores.aid.saveAgreement(agreement.id, ended);
  if (agreement.partnerNetworkId !== null) {
    await stores.aid.across(acrossOf(agreement), async (there) => {
      await there.aid.saveAgreement(agreement.id, ended);
      await there.aid.note('revokeAid', { kind: 'aid-agreements', id: agreement.id });
    });
  }
  return { ...agreement, ...ended };
}
