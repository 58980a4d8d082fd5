import type { Keeper } from '#custody';
import type { UseCaseCall } from '../call.js';
import { momentOf } from '../care/claims.js';
import { retriage } from '../care/retriage.js';
import { chosenBy, lockOpenItem, standingOf } from '../care/standing.js';
import { wrongStage } from '../care/step-order.js';
import { claimRoom } from '../custody/capacity.js';
import { holdCompany, refuseCompany } from '../custody/company.js';
import { recordCustody } from '../custody/record-custody.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { ReferralRecord } from '../ports/step-store.js';
import type { Stores } from '../ports/work.js';
import type { ReferralView } from './refer-item.js';

export interface ReturnFromReferralInput {
  itemId: string;
  to: Keeper;
  returnedAtMs: number | null;
}

/**
 * Takes an item back from a specialist. A new round of work begins: what was done before does not count, nobody knows how
 * wet it is, and a look at it comes first.
 */
export async function returnFromReferral(stores: Stores, call: UseCaseCall, input: ReturnFromReferralInput): Promise<ReferralView> {
  const away = await lockOpenItem(stores, input.itemId);
  const open = await stores.steps.openReferral(away.id);
  if (!open || away.stage !== 'referred-out') throw wrongStage({ item: away }, 'It is not with a specialist on record, so it cannot come back from one. Read the item for where it is.');
  const returnedAtMs = momentOf(call, input.returnedAtMs, '#/returnedAt');
  await holdCompany(stores, away, input.to);
  const place = await claimRoom(stores, away, input.to);
  const { item: back } = await recordCustody(stores, call, away, { kind: 'referral-returned', from: away.keeper, to: input.to, refs: { referralId: open.id }, occurredAtMs: returnedAtMs });
  const item = await beginNewRound(stores, call, back, open, returnedAtMs);
  await refuseCompany(stores, item, input.to, place);
  return { referral: { ...open, returnedAtMs }, item };
}

/** Ends the stay with the specialist: the thing is back, and a look at it comes first. */
export async function beginNewRound(stores: Stores, call: UseCaseCall, back: ItemRecord, open: ReferralRecord, returnedAtMs: number): Promise<ItemRecord> {
  await stores.steps.closeReferral(open.id, returnedAtMs);
  return lookAgain(stores, call, back, returnedAtMs);
}

/** Nobody here knows how wet it is now, nor what was done to it elsewhere: a new round of work begins with a look. */
export async function lookAgain(stores: Stores, call: UseCaseCall, back: ItemRecord, returnedAtMs: number): Promise<ItemRecord> {
  const standing = await standingOf(stores, back);
  const triaged = await retriage(stores, call, back, { ...standing.assessment.observed, wetState: 'unknown' }, {
    origin: 'step-result', assessedAtMs: returnedAtMs, ownerAsked: standing.ownerAsked || standing.stop !== null, chosen: chosenBy(standing),
  });
  const changed = { nextStep: 'assess', routePosition: 0, stabilisedAtMs: null } as const;
  return { ...triaged, ...changed, version: await stores.items.saveWork(back.id, changed, call.env.nowMs) };
}
