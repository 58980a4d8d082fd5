import { notFound, Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { unknownReference } from '../care/claims.js';
import { lockOpenItem } from '../care/standing.js';
import type { ConsentRecord } from '../ports/consent-store.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Money } from '../ports/owner-question-store.js';
import type { QuoteRecord } from '../ports/quote-store.js';
import type { Stores } from '../ports/work.js';

export interface RecordQuoteInput {
  itemId: string;
  specialistId: string;
  amount: Money;
  validUntilMs: number;
  work: string;
}

/** Records what a specialist offers to do with an item, for how much, until when. It binds nobody before it is approved. */
export async function recordReferralQuote(stores: Stores, call: UseCaseCall, input: RecordQuoteInput): Promise<QuoteRecord> {
  const item = await lockOpenItem(stores, input.itemId);
  if (!(await stores.places.find(item.incidentId, { kind: 'specialist', id: input.specialistId }))) throw unknownReference('specialist', '#/specialistId');
  if (input.validUntilMs <= call.env.nowMs) throw new Problem('command_refused', 'The offer is over already. Ask the specialist for another.', { errors: [{ detail: 'lies in the past', code: 'time_past', pointer: '#/validUntil' }] });
  const quote: QuoteRecord = {
    ...input, id: call.env.newId(), incidentId: item.incidentId, state: 'open', basis: null, consentId: null,
    recordedAtMs: call.env.nowMs, recordedBy: call.context.principalId, decidedAtMs: null, decidedBy: null, version: 1,
  };
  await stores.quotes.insert(quote);
  return quote;
}

/**
 * Approves or declines an offer. A yes rests on the owner's word: on the limit that the owner named before, or on a yes to this very
 * item that was given after the offer came. Where neither covers it, the owner is asked; nobody else can say yes.
 */
export async function decideReferralQuote(stores: Stores, call: UseCaseCall, input: { quoteId: string; decision: 'approve' | 'decline' }): Promise<QuoteRecord> {
  const quote = await stores.quotes.lock(input.quoteId);
  if (!quote) throw notFound('quote');
  if (quote.state !== 'open') throw new Problem('already_exists', 'The offer is decided already; the decision stands.', { members: { state: quote.state } });
  const item = await lockOpenItem(stores, quote.itemId);
  const ground = input.decision === 'approve' ? await groundOf(stores, call, item, quote) : { basis: null, consentId: null };
  const decided: QuoteRecord = { ...quote, ...ground, state: input.decision === 'approve' ? 'approved' : 'declined', decidedAtMs: call.env.nowMs, decidedBy: call.context.principalId };
  await stores.quotes.save(decided);
  return { ...decided, version: quote.version + 1 };
}

/** On what a yes rests. @throws Problem consent_missing, command_refused */
async function groundOf(stores: Stores, call: UseCaseCall, item: ItemRecord, quote: QuoteRecord): Promise<Pick<QuoteRecord, 'basis' | 'consentId'>> {
  if (quote.validUntilMs < call.env.nowMs) throw new Problem('command_refused', 'The offer is over. Ask the specialist for another.', { members: { validUntil: new Date(quote.validUntilMs).toISOString() } });
  const { consents, ids, referLimit } = await stores.consents.inForce(item.householdId, item.id);
  const consentId = ids.refer;
  if (consents.refer !== true || consentId === undefined) throw askFirst(consents.refer === false ? 'The owner has refused a referral.' : 'The owner has not agreed to a referral.', quote, referLimit);
  const word = (await stores.consents.ofHousehold(item.householdId)).find(({ id }) => id === consentId);
  const asked = word !== undefined && isAnswerTo(word, item, quote);
  if (referLimit !== null && !covers(referLimit, quote.amount)) throw askFirst(referLimit.currency === quote.amount.currency ? 'The offer is higher than what the owner agreed to.' : "The owner's limit is in another currency.", quote, referLimit);
  if (referLimit === null && !asked) throw askFirst('The owner named no limit, and has not been asked about this offer.', quote, referLimit);
  return { basis: asked ? 'owner-asked' : 'consent-limit', consentId };
}

const covers = (limit: Money, amount: Money): boolean => limit.currency === amount.currency && amount.minor <= limit.minor;

/** Ids are made in the order of time, which is finer than the clock. */
const isAnswerTo = (word: ConsentRecord, item: ItemRecord, quote: QuoteRecord): boolean => word.itemId === item.id && word.id > quote.id;

function askFirst(why: string, { amount }: QuoteRecord, limit: Money | null): Problem {
  return new Problem('consent_missing', `${why} Ask the owner about this item with the amount of the offer, and approve it when the yes is recorded.`, { members: { scope: 'refer', amount, limit } });
}

/** The approved offer by which an item goes out. @throws Problem reference_unknown, command_refused */
export async function approvedQuote(stores: Stores, item: ItemRecord, specialistId: string, quoteId: string | null): Promise<string | null> {
  if (quoteId === null) return null;
  const quote = await stores.quotes.lock(quoteId);
  const refused = (detail: string, code: string, text: string): Problem => new Problem('command_refused', text, { errors: [{ detail, code, pointer: '#/quoteId' }] });
  if (quote?.itemId !== item.id || quote.specialistId !== specialistId) throw new Problem('reference_unknown', 'There is no such offer of this specialist for this item.', { errors: [{ detail: 'names no offer of this specialist for this item', code: 'reference_unknown', pointer: '#/quoteId' }] });
  if (quote.state !== 'approved') throw refused('is not approved', 'quote_not_approved', 'The offer is not approved. Approve it first, or send the item without an offer.');
  if ((await stores.quotes.usedBy(quote.id)) !== null) throw refused('was carried out already', 'quote_used', 'The item went out by this offer before. Ask for another one.');
  return quote.id;
}

/** Offers for an item, newest first. */
export async function listReferralQuotes(stores: Stores, _call: UseCaseCall, input: { itemId: string }): Promise<QuoteRecord[]> {
  if (!(await stores.items.find(input.itemId))) throw notFound('item');
  return stores.quotes.ofItem(input.itemId);
}
