/**
 * An owner's word that comes after the thing went to a partner network. What the owner allows passed over with the thing (answer-partner.ts);
 * a later yes or no follows it in the transaction in which it is recorded here, so that nobody there works by a word that no longer stands.
 * Only what is allowed is told: no name, no words of the family, and never anything about letting it go.
 */
import { say, type Message } from '#care';
import { TERMINAL_STAGES } from '#custody';
import type { UseCaseCall } from '../call.js';
import { openMatter } from '../families/matters.js';
import type { AidAgreementRecord, AidOfferRecord } from '../ports/aid-store.js';
import type { ConsentRecord, ConsentScope } from '../ports/consent-store.js';
import type { HouseholdRecord } from '../ports/household-store.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';
import { acrossOf } from './agreement.js';

/** What passes over with a thing, and follows it. Letting it go is asked by those who know the family. */
export const CARRIED_SCOPES = ['treat', 'freeze', 'refer'] as const satisfies readonly ConsentScope[];
/** How the record says where such a word came from. */
export const TOLD_BY_PARTNER = { manner: 'written', note: 'as the partner network told it' } as const;

const ABOUT: Readonly<Record<(typeof CARRIED_SCOPES)[number], Message>> = { treat: say('to its treatment'), freeze: say('to its being frozen'), refer: say('to its being sent to a specialist') };
const nowNo = (about: Message): Message => say('As its own network tells us, the owner of this thing now says no {about}. It is kept as safely as it is until a trained lead has looked at it and at what may still be done. If it has gone on to a specialist or to another network, tell them today.', { about });
const nowYes = (about: Message): Message => say('As its own network tells us, the owner of this thing now says yes {about}. A trained lead looks at what is planned for it. If it has gone on to a specialist or to another network, tell them.', { about });
const NOT_TOLD = say('The thing is with a partner network that cannot be told by itself any more, because the agreement with it has ended. Call its coordinator today and say what the owner wants from now on.');

/** Stores a word on the other side with all that follows there. */
type PutThere = (there: Stores, call: UseCaseCall, household: HouseholdRecord, word: ConsentRecord) => Promise<void>;

/** Tells the partner that holds the locked item what its owner now says. Changes nothing where the word is not the one that counts for it. */
export async function carryWord(stores: Stores, call: UseCaseCall, item: ItemRecord, word: ConsentRecord, putThere: PutThere): Promise<void> {
  const scope = CARRIED_SCOPES.find((carried) => carried === word.scope);
  if (item.keeper.kind !== 'partner-network' || scope === undefined) return;
  // The item's own word stands before the household's.
  const { ids } = await stores.consents.inForce(item.householdId, item.id);
  if (ids[scope] !== word.id) return;
  const offer = await stores.aid.lastAccepted(item.id);
  if (offer?.direction !== 'out' || offer.kind !== 'hand-over') return;
  await stores.aid.takeTurn(offer.agreementId);
  const agreement = await stores.aid.lockAgreement(offer.agreementId);
  const told = agreement?.state === 'agreed' && agreement.partnerNetworkId !== null && (await tellThere(stores, call, agreement, offer, { scope, given: word.given }, putThere));
  if (!told) await openMatter(stores, call, { incidentId: item.incidentId, householdId: item.householdId, kind: 'partner-not-told', itemId: item.id, consentId: word.id, advice: NOT_TOLD });
}

/** False when the partner's own record says that it takes no part any more; then nothing is written there. */
async function tellThere(stores: Stores, call: UseCaseCall, agreement: AidAgreementRecord, offer: AidOfferRecord, { scope, given }: { scope: (typeof CARRIED_SCOPES)[number]; given: boolean }, putThere: PutThere): Promise<boolean> {
  return stores.aid.across(acrossOf(agreement), async (there) => {
    const theirs = await there.aid.lockAgreement(agreement.id);
    if (theirs?.state !== 'agreed' || theirs.partnerNetworkId !== agreement.networkId || (await there.aid.networkName()) === null) return false;
    const came = await there.aid.findOffer(offer.id);
    const item = came?.itemId == null ? null : await there.items.find(came.itemId);
    const household = theirs.householdId === null ? null : await there.households.find(theirs.householdId);
    if (!item || !household) return false;
    // Ended there already: the partner's own record says how, and its lead has nothing left to decide.
    if (TERMINAL_STAGES.includes(item.stage)) return true;
    // Vouched for by the agreement: no id of this network goes there.
    const on: UseCaseCall = { ...call, context: { ...call.context, networkId: item.networkId, principalId: agreement.id } };
    const word: ConsentRecord = { id: call.env.newId(), incidentId: item.incidentId, householdId: household.id, itemId: item.id, scope, given, ...TOLD_BY_PARTNER, recordedBy: agreement.id, recordedAtMs: call.env.nowMs };
    await putThere(there, on, household, word);
    await openMatter(there, on, { incidentId: item.incidentId, householdId: household.id, kind: 'partner-word', itemId: item.id, consentId: word.id, advice: (given ? nowYes : nowNo)(ABOUT[scope]) });
    await there.aid.note('recordConsent', { kind: 'aid-offers', id: offer.id });
    return true;
  });
}
