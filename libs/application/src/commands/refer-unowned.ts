import { Problem } from '#contracts';
import { refuseNoLead } from '../care/claims.js';
import { ownerIsUnknown } from '../claims/unknown-owner.js';
import { agreementToRefer } from '../custody/refer-out.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';

/** A lead answers for the referral of a found thing, in nobody's name. */
export interface UnknownOwnerReferral {
  decidedBy: string;
  /** Who pays, never the owner; null: nobody, so nothing that costs is done. */
  payer: string | null;
}

export interface Allowed {
  consentId: string | null;
  decidedBy: string | null;
  payer: string | null;
}

/**
 * What lets an item leave for a specialist: its owner's recorded yes. Nobody can give that for a found thing; so that it is not lost while its owner is
 * looked for a lead may send it to be stabilised, at no cost to any owner (our own rule). What is stable waits.
 * @throws Problem consent_missing, owner_known, command_refused, reference_unknown
 */
export async function whatLetsItLeave(stores: Stores, item: ItemRecord, { ownerUnknown, quoteId }: { ownerUnknown: UnknownOwnerReferral | null; quoteId: string | null }): Promise<Allowed> {
  if (ownerUnknown === null) return { consentId: await agreementToRefer(stores, item), decidedBy: null, payer: null };
  if (!(await ownerIsUnknown(stores, item.householdId))) throw new Problem('owner_known', 'Its owner is on record, so only the owner allows a referral. Ask them, and leave `ownerUnknown` out.', { errors: [{ detail: 'is for found things whose owner nobody knows', code: 'owner_known', pointer: '#/ownerUnknown' }] });
  await refuseNoLead(stores, { incidentId: item.incidentId, personId: ownerUnknown.decidedBy, may: 'send a thing away whose owner nobody knows. Ask a lead of the incident.', pointer: '#/ownerUnknown/decidedBy' });
  if (item.stabilisedAtMs !== null) throw new Problem('command_refused', 'It is stable already (drying, frozen or kept wet), so it waits for its owner. Without an owner a thing is sent away only to be stabilised.', { errors: [{ detail: 'is not urgent any more', code: 'stabilised', pointer: '#/ownerUnknown' }] });
  if (quoteId !== null) throw new Problem('command_refused', 'An offer is approved by an owner. Leave `quoteId` out, and say who pays as `payer`.', { errors: [{ detail: 'needs an owner', code: 'owner_unknown', pointer: '#/quoteId' }] });
  return { consentId: null, ...ownerUnknown };
}
