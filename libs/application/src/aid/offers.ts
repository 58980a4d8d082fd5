import type { WaterKind } from '#care';
import { formatTagCode, type Keeper } from '#custody';
import { notFound, Problem } from '#contracts';
import type { StandardItemKind } from '#climate';
import type { UseCaseCall } from '../call.js';
import { standingOf } from '../care/standing.js';
import { agreementToRefer } from '../custody/refer-out.js';
import type { AidFacts, AidOfferRecord } from '../ports/aid-store.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';
import { agreementInForce } from './agreement.js';

/** The partner as a keeper: by the agreement, which both networks know under the same id. */
export function partnerKeeper(agreement: { id: string }): Keeper {
  return { kind: 'partner-network', id: agreement.id };
}

/** What may be said of a thing across the border: what a conservator needs, and nothing about its family. */
export async function factsOf(stores: Stores, item: ItemRecord): Promise<AidFacts> {
  const { assessment } = await standingOf(stores, item);
  return {
    tag: formatTagCode(item.tagCode), lot: item.kind === 'lot', count: item.count, description: item.description, materialClass: item.materialClass, sizeClass: item.sizeClass as StandardItemKind, significance: item.significance,
    water: (assessment.observed.water ?? 'unknown') as WaterKind, urgency: item.urgency, wettedAtMs: item.wettedAtMs, startByMs: item.startByMs,
  };
}

/** Writes an offer on both sides. */
export async function writeOffer(stores: Stores, agreement: Awaited<ReturnType<typeof agreementInForce>>, offer: AidOfferRecord, partnersItemId: string | null): Promise<void> {
  await stores.aid.insertOffer(offer);
  await stores.aid.across(agreement.across, async (there) => {
    await there.aid.insertOffer({ ...offer, networkId: agreement.across.networkId, incidentId: agreement.across.incidentId ?? offer.incidentId, direction: 'in', itemId: partnersItemId });
  });
}

/** What is needed to answer an offer. */
export interface OpenOffer {
  offer: AidOfferRecord;
  agreement: Awaited<ReturnType<typeof agreementInForce>>;
}

/** An offer of the other side that waits for our answer. @throws Problem not_found, command_refused, hand_over_not_open */
export async function offerToAnswer(stores: Stores, call: UseCaseCall, offerId: string, kind: AidOfferRecord['kind'] | null): Promise<OpenOffer> {
  const found = await openOffer(stores, call, offerId);
  if (found.offer.direction !== 'in') throw new Problem('command_refused', 'This offer is your own. The partner answers it; you may withdraw it.', { members: { direction: 'out' } });
  if (kind !== null && found.offer.kind !== kind) throw new Problem('command_refused', kind === 'return' ? 'This offer brings a new thing. Accept it with a tag of yours.' : 'This offer brings back a thing of yours. Accept the return; it keeps its tag.', { members: { kind: found.offer.kind } });
  return found;
}

/** An offer that is open, read again after its turn came. @throws Problem not_found, hand_over_not_open */
export async function openOffer(stores: Stores, call: UseCaseCall, offerId: string, however = false): Promise<OpenOffer> {
  const seen = await stores.aid.findOffer(offerId);
  if (!seen) throw notFound('offer');
  const agreement = however ? await anyAgreement(stores, seen.agreementId) : await agreementInForce(stores, call, seen.agreementId);
  const offer = (await stores.aid.findOffer(offerId)) ?? seen;
  if (offer.state !== 'open') throw new Problem('hand_over_not_open', `This offer was ${offer.state}. Read the item to see who holds it; to pass it on, offer it anew.`, { members: { state: offer.state } });
  if (!however && call.env.nowMs >= offer.expiresAtMs) throw new Problem('hand_over_not_open', 'This offer has expired. Ask the partner to offer it anew.', { members: { state: 'expired' } });
  return { offer, agreement };
}

/** Also of an agreement that has ended: what is open under it can still be taken back. */
async function anyAgreement(stores: Stores, agreementId: string): Promise<OpenOffer['agreement']> {
  await stores.aid.takeTurn(agreementId);
  const agreement = await stores.aid.lockAgreement(agreementId);
  if (!agreement || agreement.partnerNetworkId === null) throw notFound('agreement');
  return { ...agreement, across: { networkId: agreement.partnerNetworkId, incidentId: agreement.partnerIncidentId, agreementId } };
}

/**
 * The owner's word by which a thing leaves for a partner. On the way home any word will do: that an owner now refuses that it is sent away
 * is no reason to keep it away. @throws Problem consent_missing
 */
export async function wordToLeave(stores: Stores, item: ItemRecord, kind: AidOfferRecord['kind']): Promise<string> {
  const { ids } = await stores.consents.inForce(item.householdId, item.id);
  return kind === 'return' && ids.refer !== undefined ? ids.refer : agreementToRefer(stores, item);
}

/** The first hash of a record, by which the other side names it. */
export async function firstHash(stores: Stores, itemId: string): Promise<string> {
  const [first] = await stores.custody.chain(itemId, 0, 1);
  if (!first) throw new Error('an item without a first custody event');
  return first.hash;
}
