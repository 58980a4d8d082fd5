import type { Consents } from '#care';
import type { Keeper } from '#custody';
import { Problem } from '#contracts';
import { refuseOneSided } from '../aid/agreement.js';
import { CARRIED_SCOPES, TOLD_BY_PARTNER } from '../aid/carry-word.js';
import { firstHash, offerToAnswer, partnerKeeper, type OpenOffer, wordToLeave } from '../aid/offers.js';
import type { UseCaseCall } from '../call.js';
import { unknownReference } from '../care/claims.js';
import { claimRoom } from '../custody/capacity.js';
import { holdCompany, refuseCompany } from '../custody/company.js';
import { incidentForIntake } from '../custody/open-incident.js';
import { recordCustody } from '../custody/record-custody.js';
import { saveReferred } from '../custody/refer-out.js';
import { extentOf } from '../intake/size.js';
import { takeInOne } from '../intake/take-in.js';
import type { AidOfferRecord } from '../ports/aid-store.js';
import type { ConsentRecord } from '../ports/consent-store.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';
import { lookAgain } from './return-from-referral.js';

export interface AcceptFromPartnerInput {
  offerId: string;
  siteId: string;
  /** A fresh tag of ours; the partner's stays on the thing. */
  tag: string;
  /** Where it is put down; null for the dirty waiting area of the site. */
  to: Keeper | null;
}

export interface AcceptedFromPartner {
  offer: AidOfferRecord;
  item: ItemRecord;
}

/**
 * Takes over a thing that the partner offered: it gets a record of its own here, whose first event names the head of the partner's, and
 * the partner's record says that we hold it and how ours begins. Both or neither.
 */
export async function acceptFromPartner(stores: Stores, call: UseCaseCall, input: AcceptFromPartnerInput): Promise<AcceptedFromPartner> {
  const open = await offerToAnswer(stores, call, input.offerId, 'hand-over');
  const theirs = await stores.aid.across(open.agreement.across, async (there) => {
    await refuseOneSided(there, open.agreement);
    const item = await theirItem(there, open.offer.id);
    return { head: item.headHash, consents: await wordOfTheOwner(there, item) };
  });
  const item = await takeInTheirs(stores, call, open, input, theirs);
  const partnerFirstHash = await firstHash(stores, item.id);
  const done = { state: 'accepted', answeredAtMs: call.env.nowMs } as const;
  await stores.aid.saveOffer(open.offer.id, { ...done, itemId: item.id });
  await stores.aid.across(open.agreement.across, async (there) => {
    const given = await theirItem(there, open.offer.id);
    await giveAway(there, call, given, open, { partnerFirstHash });
    await there.aid.saveOffer(open.offer.id, done);
    await there.aid.note('acceptFromPartner', { kind: 'aid-offers', id: open.offer.id });
  });
  return { offer: { ...open.offer, ...done, itemId: item.id }, item };
}

/** The thing on the other side, locked. */
async function theirItem(there: Stores, offerId: string): Promise<ItemRecord> {
  const offer = await there.aid.findOffer(offerId);
  const item = offer?.itemId == null ? null : await there.items.lock(offer.itemId);
  if (!item) throw new Problem('hand_over_not_open', 'The partner does not hold the thing any more. Speak with its coordinator.', { members: { state: 'gone' } });
  return item;
}

/** What the owner allows goes with the thing; letting it go for good does not: that is asked by those who know the family. */
async function wordOfTheOwner(there: Stores, item: ItemRecord): Promise<Pick<ConsentRecord, 'scope' | 'given'>[]> {
  const { consents } = await there.consents.inForce(item.householdId, item.id);
  return CARRIED_SCOPES.flatMap((scope) => {
    const given = consents[scope];
    return typeof given === 'boolean' ? [{ scope, given }] : [];
  });
}

async function takeInTheirs(stores: Stores, call: UseCaseCall, { offer, agreement }: OpenOffer, input: AcceptFromPartnerInput, theirs: { head: string; consents: Pick<ConsentRecord, 'scope' | 'given'>[] }): Promise<ItemRecord> {
  const incident = await incidentForIntake(stores, agreement.incidentId);
  const household = agreement.householdId === null ? null : await stores.households.find(agreement.householdId);
  if (!household) throw new Error('an agreement without its household record');
  const site = await stores.places.site(input.siteId);
  if (!site || site.incidentId !== incident.id) throw unknownReference('site', '#/siteId');
  const { facts } = offer;
  if (input.to) await holdCompany(stores, { incidentId: incident.id, nextStep: null }, input.to);
  const place = input.to ? await claimRoom(stores, { incidentId: incident.id, keeper: null, ...extentOf(facts.sizeClass, facts.count) }, input.to) : null;
  const known: Consents = { treat: null, freeze: null, refer: null, release: null, ...Object.fromEntries(theirs.consents.map(({ scope, given }) => [scope, given])) };
  const item = await takeInOne(stores, call, {
    siteId: site.id, tag: input.tag, count: facts.count, lot: facts.lot, description: facts.description, familyWords: '', photographRef: '', materialClass: facts.materialClass, sizeClass: facts.sizeClass,
    significance: facts.significance, wettedAtMs: facts.wettedAtMs, to: input.to, incident, household, arrivedAtMs: call.env.nowMs, water: facts.water, consents: known, refs: { aidOfferId: offer.id, originHead: theirs.head },
  });
  if (input.to) await refuseCompany(stores, item, input.to, place);
  await stores.consents.insert(theirs.consents.map(({ scope, given }) => ({
    id: call.env.newId(), incidentId: incident.id, householdId: household.id, itemId: item.id, scope, given, ...TOLD_BY_PARTNER, recordedBy: call.context.principalId, recordedAtMs: call.env.nowMs,
  })));
  return item;
}

/** The giver's side of an acceptance: from here on its record says that the partner holds the thing. */
async function giveAway(giver: Stores, call: UseCaseCall, item: ItemRecord, { offer, agreement }: OpenOffer, refs: Record<string, string>): Promise<void> {
  const consentId = await wordToLeave(giver, item, offer.kind);
  // The event is vouched for by the agreement, not by a key of the other network.
  const there: UseCaseCall = { ...call, context: { ...call.context, networkId: item.networkId, principalId: agreement.id } };
  const { item: given } = await recordCustody(giver, there, item, { kind: 'hand-over-accepted', from: item.keeper, to: partnerKeeper(agreement), refs: { ...refs, handOverId: offer.id, consentId }, occurredAtMs: call.env.nowMs });
  await saveReferred(giver, call, given, call.env.nowMs);
}

export interface AcceptReturnInput {
  offerId: string;
  to: Keeper;
}

/** Takes a thing of ours back from the partner; a new round of work begins with a look at it. */
export async function acceptReturn(stores: Stores, call: UseCaseCall, input: AcceptReturnInput): Promise<AcceptedFromPartner> {
  const open = await offerToAnswer(stores, call, input.offerId, 'return');
  const away = open.offer.itemId === null ? null : await stores.items.lock(open.offer.itemId);
  if (!away) throw new Error('a return without its item');
  await incidentForIntake(stores, away.incidentId);
  await holdCompany(stores, away, input.to);
  const place = await claimRoom(stores, away, input.to);
  const partnerHead = await stores.aid.across(open.agreement.across, async (there) => {
    await refuseOneSided(there, open.agreement);
    const theirs = await theirItem(there, open.offer.id);
    await giveAway(there, call, theirs, open, { partnerHead: away.headHash });
    await there.aid.saveOffer(open.offer.id, { state: 'accepted', answeredAtMs: call.env.nowMs });
    await there.aid.note('acceptReturn', { kind: 'aid-offers', id: open.offer.id });
    return theirs.headHash;
  });
  const { item: back } = await recordCustody(stores, call, away, { kind: 'referral-returned', from: away.keeper, to: input.to, refs: { aidOfferId: open.offer.id, partnerHead }, occurredAtMs: call.env.nowMs });
  const item = await lookAgain(stores, call, back, call.env.nowMs);
  await refuseCompany(stores, item, input.to, place);
  const done = { state: 'accepted', answeredAtMs: call.env.nowMs } as const;
  await stores.aid.saveOffer(open.offer.id, done);
  return { offer: { ...open.offer, ...done }, item };
}

/** Says no to an offer; the thing stays where it is. */
export async function declineFromPartner(stores: Stores, call: UseCaseCall, input: { offerId: string }): Promise<AidOfferRecord> {
  const open = await offerToAnswer(stores, call, input.offerId, null);
  const done = { state: 'declined', answeredAtMs: call.env.nowMs } as const;
  await stores.aid.saveOffer(open.offer.id, done);
  await stores.aid.across(open.agreement.across, async (there) => {
    const item = await theirItem(there, open.offer.id);
    const on: UseCaseCall = { ...call, context: { ...call.context, networkId: item.networkId, principalId: open.agreement.id } };
    await recordCustody(there, on, item, { kind: 'hand-over-ended', from: item.keeper, to: item.keeper, refs: { handOverId: open.offer.id, outcome: 'declined' }, occurredAtMs: call.env.nowMs });
    await there.aid.saveOffer(open.offer.id, done);
    await there.aid.note('declineFromPartner', { kind: 'aid-offers', id: open.offer.id });
  });
  return { ...open.offer, ...done };
}
