import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { undoneByDoing } from '../care/done-steps.js';
import { PLAN_REASONS } from '../planning/plan-reasons.js';
import { requestPlan } from '../planning/request-plan.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { ReferralRecord } from '../ports/step-store.js';
import type { Stores } from '../ports/work.js';

/** The consent that lets it leave the hall. @throws Problem consent_missing */
export async function agreementToRefer(stores: Stores, item: ItemRecord): Promise<string> {
  const { consents, ids } = await stores.consents.inForce(item.householdId, item.id);
  if (consents.refer === true && ids.refer !== undefined) return ids.refer;
  const why = consents.refer === false ? 'The owner has refused a referral.' : 'The owner has not been asked, or has not answered yet.';
  throw new Problem('consent_missing', `${why} It leaves the hall only with the owner's recorded yes: record it with the household first.`, { members: { scope: 'refer' } });
}

export interface Sending {
  specialistId: string;
  /** What lets it leave: the owner's consent, or the lead who answers where nobody knows the owner. */
  consentId: string | null;
  decidedBy?: string | null;
  payer?: string | null;
  reason: string;
  personId: string | null;
  sentAtMs: number;
  /** The approved offer by which it goes out, if it goes by one. */
  quoteId?: string | null;
}

/** Opens the stay with a specialist and ends the round of work here; the custody event is the caller's, and names the referral. */
export async function openReferral(stores: Stores, call: UseCaseCall, item: ItemRecord, sending: Sending): Promise<ReferralRecord> {
  const { specialistId, consentId, reason, personId, sentAtMs, quoteId = null, decidedBy = null, payer = null } = sending;
  const referral: ReferralRecord = { id: call.env.newId(), incidentId: item.incidentId, itemId: item.id, specialistId, consentId, decidedBy, payer, reason, sentAtMs, returnedAtMs: null, quoteId };
  await stores.steps.insertReferral(referral);
  await stores.steps.insert({
    id: call.env.newId(), incidentId: item.incidentId, itemId: item.id, step: 'refer', outcome: 'done', undoes: undoneByDoing('refer'), stationId: null, personId, note: '', startedAtMs: null, finishedAtMs: sentAtMs, recordedAtMs: call.env.nowMs,
  });
  return referral;
}

/** A thing that was sent otherwise than planned lies where the plan in force has others. Call it last, as `requestPlan`. */
export async function planAfterSending(stores: Stores, call: UseCaseCall, { id, incidentId }: Pick<ItemRecord, 'id' | 'incidentId'>, specialistId: string): Promise<void> {
  if (await stores.plans.isUnplannedReferral(id, specialistId)) await requestPlan(stores, call, incidentId, PLAN_REASONS.sentOtherwise);
}

/** The work state of a thing that is with a specialist. */
export async function saveReferred(stores: Stores, call: UseCaseCall, sent: ItemRecord, sentAtMs: number): Promise<ItemRecord> {
  const changed = { disposition: 'refer', nextStep: null, routePosition: 0, waitingForOwner: false, stabilisedAtMs: sent.stabilisedAtMs ?? sentAtMs } as const;
  return { ...sent, ...changed, version: await stores.items.saveWork(sent.id, changed, call.env.nowMs) };
}
