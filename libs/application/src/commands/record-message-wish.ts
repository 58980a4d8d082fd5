import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { refuseUnknownOwner } from '../claims/unknown-owner.js';
import { lookAtNews, noteNews } from '../families/news.js';
import type { MessageWishRecord } from '../ports/family-news-store.js';
import type { Stores } from '../ports/work.js';
import { refuseErased } from '../privacy/erase-household.js';

export interface RecordMessageWishInput {
  householdId: string;
  wish: MessageWishRecord['wish'];
  manner: MessageWishRecord['manner'];
}

/**
 * Records whether a family wishes to be written to; the newest word counts, from now on. After a no nothing is sent to it any more, whoever asks for it,
 * and what waits is not sent. After a yes it is told of what is here already, and of what happens from now on. @throws Problem not_found, household_erased
 */
export async function recordMessageWish(stores: Stores, call: UseCaseCall, input: RecordMessageWishInput): Promise<MessageWishRecord> {
  const household = await stores.households.find(input.householdId);
  if (!household) throw notFound('household');
  refuseUnknownOwner(household);
  await refuseErased(stores, household.id);
  const before = await stores.familyNews.wishInForce(household.id);
  const wish: MessageWishRecord = { id: call.env.newId(), incidentId: household.incidentId, householdId: household.id, wish: input.wish, manner: input.manner, recordedBy: call.context.principalId, recordedAtMs: call.env.nowMs };
  await stores.familyNews.insertWish(wish);
  if (wish.wish !== 'messages' || before === 'messages') return wish;
  const about = { incidentId: household.incidentId, householdId: household.id };
  if ((await stores.uncollected.held(household.id)) > 0) await noteNews(stores, call, { ...about, kind: 'taken-in', subjectId: household.id });
  // For reminders of what waits to be fetched.
  if ((await stores.uncollected.openOf(household.id)) !== null) await lookAtNews(stores, call, about, 0);
  return wish;
}

export interface MessageWishView {
  householdId: string;
  inForce: MessageWishRecord['wish'] | null;
  /** Ways on which nothing arrives; which address it is is not said. */
  unreached: { channel: 'email' | 'sms'; refusedAtMs: number }[];
  wishes: MessageWishRecord[];
}

/** What the family has said of being written to, newest first, and where nothing arrives. @throws Problem not_found */
export async function listMessageWishes(stores: Stores, _call: UseCaseCall, input: { householdId: string }): Promise<MessageWishView> {
  const household = await stores.households.find(input.householdId);
  if (!household) throw notFound('household');
  const wishes = await stores.familyNews.wishes(household.id);
  const unreached = (await stores.familyNews.unreached(household.id)).map(({ channel, refusedAtMs }) => ({ channel, refusedAtMs }));
  return { householdId: household.id, inForce: wishes[0]?.wish ?? null, unreached, wishes };
}
