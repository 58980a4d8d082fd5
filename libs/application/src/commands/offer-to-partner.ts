import { notFound, Problem } from '#contracts';
import { agreementInForce, refuseOneSided } from '../aid/agreement.js';
import { factsOf, openOffer, partnerKeeper, wordToLeave, writeOffer } from '../aid/offers.js';
import type { UseCaseCall } from '../call.js';
import { personOf } from '../care/claims.js';
import { lockOpenItem } from '../care/standing.js';
import { recordCustody } from '../custody/record-custody.js';
import { agreementToRefer } from '../custody/refer-out.js';
import type { AidOfferRecord } from '../ports/aid-store.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';

/** An offer stands at most this long, so that a thing never waits for a partner for ever: hours, our own calibration. */
const LONGEST_HOURS = 72;

export interface OfferToPartnerInput {
  agreementId: string;
  itemId: string;
  personId: string | null;
  /** Null for one day from now. */
  expiresAtMs: number | null;
}

/** Offers a thing to the partner network. We stay its keeper until the partner accepts. */
export async function offerToPartner(stores: Stores, call: UseCaseCall, input: OfferToPartnerInput): Promise<AidOfferRecord> {
  const agreement = await agreementInForce(stores, call, input.agreementId);
  if (agreement.role !== 'giver') throw new Problem('command_refused', 'By this agreement things come to you and go back. To give a thing of yours to the partner, invite it by an agreement of your own.', { members: { role: 'receiver' } });
  const item = await lockOpenItem(stores, input.itemId);
  if (item.incidentId !== agreement.incidentId) throw new Problem('reference_unknown', 'The item is not one of the incident of the agreement.', { errors: [{ detail: 'names nothing of this incident', code: 'reference_unknown', pointer: '#/itemId' }] });
  const consentId = await agreementToRefer(stores, item);
  return offer(stores, call, { agreement, item, kind: 'hand-over', consentId, personId: input.personId, expiresAtMs: input.expiresAtMs, partnersItemId: null });
}

export interface ReturnToPartnerInput {
  /** The offer by which it came. */
  offerId: string;
  personId: string | null;
  expiresAtMs: number | null;
}

/** Offers a thing back to the network that it came from. We stay its keeper until that network accepts. */
export async function returnToPartner(stores: Stores, call: UseCaseCall, input: ReturnToPartnerInput): Promise<AidOfferRecord> {
  const came = await stores.aid.findOffer(input.offerId);
  if (!came) throw notFound('offer');
  if (came.itemId === null || came.direction !== 'in' || came.kind !== 'hand-over' || came.state !== 'accepted') {
    throw new Problem('command_refused', 'Name the offer by which the thing came to you and that you accepted.', { errors: [{ detail: 'is no offer that you accepted', code: 'not_accepted', pointer: '#/offerId' }] });
  }
  const agreement = await agreementInForce(stores, call, came.agreementId);
  const item = await lockOpenItem(stores, came.itemId);
  const partnersItemId = await stores.aid.across(agreement.across, async (there) => (await there.aid.findOffer(came.id))?.itemId ?? null);
  const consentId = await wordToLeave(stores, item, 'return');
  return offer(stores, call, { agreement, item, kind: 'return', consentId, personId: input.personId, expiresAtMs: input.expiresAtMs, partnersItemId });
}

interface Offering {
  agreement: Awaited<ReturnType<typeof agreementInForce>>;
  item: ItemRecord;
  kind: AidOfferRecord['kind'];
  consentId: string;
  personId: string | null;
  expiresAtMs: number | null;
  partnersItemId: string | null;
}

async function offer(stores: Stores, call: UseCaseCall, { agreement, item, kind, consentId, personId, expiresAtMs, partnersItemId }: Offering): Promise<AidOfferRecord> {
  if (personId !== null) await personOf(stores, item.incidentId, personId);
  await stores.aid.across(agreement.across, (there) => refuseOneSided(there, agreement));
  const made: AidOfferRecord = {
    id: call.env.newId(), networkId: item.networkId, incidentId: item.incidentId, agreementId: agreement.id, direction: 'out', kind, state: 'open', itemId: item.id, facts: await factsOf(stores, item),
    offeredAtMs: call.env.nowMs, expiresAtMs: endOf(call, expiresAtMs), answeredAtMs: null,
  };
  const to = partnerKeeper(agreement);
  const refs = { handOverId: made.id, offeredKind: to.kind, offeredId: to.id, consentId, ...(personId === null ? {} : { personId }) };
  await recordCustody(stores, call, item, { kind: 'hand-over-offered', from: item.keeper, to: item.keeper, refs, occurredAtMs: call.env.nowMs });
  await writeOffer(stores, agreement, made, partnersItemId);
  return made;
}

function endOf(call: UseCaseCall, toldMs: number | null): number {
  const atMs = toldMs ?? call.env.nowMs + 24 * 3_600_000;
  const hours = (atMs - call.env.nowMs) / 3_600_000;
  if (hours > 0 && hours <= LONGEST_HOURS) return atMs;
  throw new Problem('command_refused', `An offer stands for at most ${LONGEST_HOURS} hours from now, and not before now. Choose another end.`, { errors: [{ detail: 'lies before now or too far ahead', code: 'time_out_of_range', pointer: '#/expiresAt' }] });
}

/** Takes an offer of ours back; also one that has expired, or whose agreement has ended. */
export async function withdrawFromPartner(stores: Stores, call: UseCaseCall, input: { offerId: string }): Promise<AidOfferRecord> {
  const { offer: open, agreement } = await openOffer(stores, call, input.offerId, true);
  if (open.direction !== 'out' || open.itemId === null) throw new Problem('command_refused', 'This offer is the partner’s. Accept it or decline it.', { members: { direction: open.direction } });
  const item = await stores.items.lock(open.itemId);
  if (!item) throw new Error('an offered item that is not there');
  await recordCustody(stores, call, item, { kind: 'hand-over-ended', from: item.keeper, to: item.keeper, refs: { handOverId: open.id, outcome: 'withdrawn' }, occurredAtMs: call.env.nowMs });
  const ended = { state: 'withdrawn', answeredAtMs: call.env.nowMs } as const;
  await stores.aid.saveOffer(open.id, ended);
  await stores.aid.across(agreement.across, async (there) => {
    await there.aid.saveOffer(open.id, ended);
    await there.aid.note('withdrawFromPartner', { kind: 'aid-offers', id: open.id });
  });
  return { ...open, ...ended };
}
