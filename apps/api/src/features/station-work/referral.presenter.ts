import type { z } from 'zod';
import type { ReferralView } from '#application';
import type { ReferralBody } from '#contracts';
import { presentItem } from '../../presenters/item.presenter.js';
import { iso, isoOrNull } from '../../presenters/time.js';

export function presentReferral({ referral, item }: ReferralView): z.output<typeof ReferralBody> {
  return {
    id: referral.id, itemId: referral.itemId, specialistId: referral.specialistId, consentId: referral.consentId, decidedBy: referral.decidedBy, payer: referral.payer, reason: referral.reason, quoteId: referral.quoteId,
    sentAt: iso(referral.sentAtMs), returnedAt: isoOrNull(referral.returnedAtMs), item: presentItem(item),
  };
}
