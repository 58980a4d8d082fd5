import type { Keeper } from '#custody';
import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { momentOf, personOf, unknownReference } from '../care/claims.js';
import { undoneByDoing } from '../care/done-steps.js';
import { lockOpenItem } from '../care/standing.js';
import { recordCustody } from '../custody/record-custody.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { ReferralRecord } from '../ports/step-store.js';
import type { Stores } from '../ports/work.js';

export interface ReferItemInput {
  itemId: string;
  specialistId: string;
  reason: string;
  /** Who gave it on, if it was noted. */
  personId: string | null;
  sentAtMs: number | null;
}

export interface ReferralView {
  referral: ReferralRecord;
  item: ItemRecord;
}

/** Sends an item to a specialist, with the owner's recorded agreement; the round of work here ends with it. */
export async function referItem(stores: Stores, call: UseCaseCall, input: ReferItemInput): Promise<ReferralView> {
  const item = await lockOpenItem(stores, input.itemId);
  const specialist: Keeper = { kind: 'specialist', id: input.specialistId };
  if (!(await stores.places.find(item.incidentId, specialist))) throw unknownReference('specialist', '#/specialistId');
  if (input.personId !== null) await personOf(stores, item.incidentId, input.personId);
  const sentAtMs = momentOf(call, input.sentAtMs, '#/sentAt');
  const consentId = await agreement(stores, item);
  const referral: ReferralRecord = { id: call.env.newId(), incidentId: item.incidentId, itemId: item.id, specialistId: input.specialistId, consentId, reason: input.reason, sentAtMs, returnedAtMs: null };
  await stores.steps.insertReferral(referral);
  await stores.steps.insert({
    id: call.env.newId(), incidentId: item.incidentId, itemId: item.id, step: 'refer', outcome: 'done', undoes: undoneByDoing('refer'), stationId: null, personId: input.personId, note: '', startedAtMs: null, finishedAtMs: sentAtMs, recordedAtMs: call.env.nowMs,
  });
  const refs = { consentId, referralId: referral.id, ...(input.personId === null ? {} : { personId: input.personId }) };
  const { item: sent } = await recordCustody(stores, call, item, { kind: 'referred-out', from: item.keeper, to: specialist, refs, occurredAtMs: sentAtMs });
  const changed = { disposition: 'refer', nextStep: null, routePosition: 0, waitingForOwner: false, stabilisedAtMs: item.stabilisedAtMs ?? sentAtMs } as const;
  return { referral, item: { ...sent, ...changed, version: await stores.items.saveWork(item.id, changed, call.env.nowMs) } };
}

/** The consent that lets it leave the hall. @throws Problem consent_missing */
async function agreement(stores: Stores, item: ItemRecord): Promise<string> {
  const { consents, ids } = await stores.consents.inForce(item.householdId, item.id);
  if (consents.refer === true && ids.refer !== undefined) return ids.refer;
  const why = consents.refer === false ? 'The owner has refused a referral.' : 'The owner has not been asked, or has not answered yet.';
  throw new Problem('consent_missing', `${why} It leaves the hall only with the owner's recorded yes: record it with the household first.`, { members: { scope: 'refer' } });
}
