import type { Keeper } from '#custody';
import type { UseCaseCall } from '../call.js';
import { momentOf, personOf, unknownReference } from '../care/claims.js';
import { lockOpenItem } from '../care/standing.js';
import { recordCustody } from '../custody/record-custody.js';
import { openReferral, planAfterSending, saveReferred } from '../custody/refer-out.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { ReferralRecord } from '../ports/step-store.js';
import type { Stores } from '../ports/work.js';
import { whatLetsItLeave, type UnknownOwnerReferral } from './refer-unowned.js';
import { approvedQuote } from './referral-quotes.js';

export interface ReferItemInput {
  itemId: string;
  specialistId: string;
  reason: string;
  /** Who gave it on, if it was noted. */
  personId: string | null;
  sentAtMs: number | null;
  /** The approved offer by which it goes out. */
  quoteId: string | null;
  /** For a found thing whose owner nobody knows: a lead answers for it. */
  ownerUnknown: UnknownOwnerReferral | null;
}

export interface ReferralView {
  referral: ReferralRecord;
  item: ItemRecord;
}

/** Sends an item to a specialist, with the owner's recorded agreement, or a lead's word where nobody knows the owner; the round of work here ends with it. */
export async function referItem(stores: Stores, call: UseCaseCall, input: ReferItemInput): Promise<ReferralView> {
  const item = await lockOpenItem(stores, input.itemId);
  const specialist: Keeper = { kind: 'specialist', id: input.specialistId };
  if (!(await stores.places.find(item.incidentId, specialist))) throw unknownReference('specialist', '#/specialistId');
  if (input.personId !== null) await personOf(stores, item.incidentId, input.personId);
  const sentAtMs = momentOf(call, input.sentAtMs, '#/sentAt');
  const allowed = await whatLetsItLeave(stores, item, input);
  const { specialistId, reason, personId } = input;
  const quoteId = await approvedQuote(stores, item, specialistId, input.quoteId);
  const referral = await openReferral(stores, call, item, { specialistId, ...allowed, reason, personId, sentAtMs, quoteId });
  const refs = { ...(allowed.consentId === null ? { decisionId: referral.id } : { consentId: allowed.consentId }), referralId: referral.id, ...(quoteId === null ? {} : { quoteId }), ...(personId === null ? {} : { personId }) };
  const { item: sent } = await recordCustody(stores, call, item, { kind: 'referred-out', from: item.keeper, to: specialist, refs, occurredAtMs: sentAtMs });
  const saved = await saveReferred(stores, call, sent, sentAtMs);
  await planAfterSending(stores, call, saved, specialistId);
  return { referral, item: saved };
}
