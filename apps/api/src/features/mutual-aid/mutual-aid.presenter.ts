import type { z } from 'zod';
import type { AcceptedFromPartner, AidAgreementRecord, AidOfferRecord } from '#application';
import type { AcceptedFromPartnerBody, AidAgreementBody, AidOfferBody, NewAidAgreementBody } from '#contracts';
import { presentItem } from '../../presenters/item.presenter.js';
import { iso, isoOrNull } from '../../presenters/time.js';

/** Neither the partner's network nor its incident is named: nobody can do anything with their ids. */
export function presentAgreement(agreement: AidAgreementRecord): z.output<typeof AidAgreementBody> {
  const { id, incidentId, role, state, partnerName, householdId } = agreement;
  return { id, incidentId, role, state, partnerName, householdId, validTo: iso(agreement.validToMs), createdAt: iso(agreement.createdAtMs), agreedAt: isoOrNull(agreement.agreedAtMs), revokedAt: isoOrNull(agreement.revokedAtMs) };
}

/** The answer that is stored for repeats: without the invitation. */
export function presentNewAgreement(agreement: AidAgreementRecord): z.output<typeof NewAidAgreementBody> {
  return { ...presentAgreement(agreement), invitation: null };
}

export function presentOffer(offer: AidOfferRecord): z.output<typeof AidOfferBody> {
  const { id, incidentId, agreementId, direction, kind, state, itemId, facts } = offer;
  const { wettedAtMs, startByMs, ...rest } = facts;
  return {
    id, incidentId, agreementId, direction, kind, state, itemId, facts: { ...rest, wettedAt: isoOrNull(wettedAtMs), startBy: isoOrNull(startByMs) },
    offeredAt: iso(offer.offeredAtMs), expiresAt: iso(offer.expiresAtMs), answeredAt: isoOrNull(offer.answeredAtMs),
  };
}

export function presentAccepted({ offer, item }: AcceptedFromPartner): z.output<typeof AcceptedFromPartnerBody> {
  return { offer: presentOffer(offer), item: presentItem(item) };
}
