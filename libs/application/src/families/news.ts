/** What families who wish it are told without anybody asking: noted in the transaction of what happened, gathered, and told once. */
import type { UseCaseCall } from '../call.js';
import { messagesCalibrationInForce } from '../calibration/in-force.js';
import type { MessagesCalibrationKey } from '../calibration/messages-table.js';
import type { NewsKind } from '../ports/family-news-store.js';
import type { Stores } from '../ports/work.js';

const MINUTE_MS = 60_000;

/** The switch of each kind. */
export const NEWS_SWITCH = { 'taken-in': 'takenIn', ready: 'ready', 'handed-back': 'handedBack', 'let-go': 'letGo', uncollected: 'uncollected' } as const satisfies Record<NewsKind, MessagesCalibrationKey>;

export interface NewNews {
  incidentId: string;
  householdId: string;
  kind: NewsKind;
  subjectId: string;
  part?: number;
}

/** Notes what is to be told, and lets the worker look when it has gathered. Nothing where the family does not wish it, the network has it switched off, or it was noted before. */
export async function noteNews(stores: Stores, call: UseCaseCall, { incidentId, householdId, kind, subjectId, part = 0 }: NewNews): Promise<void> {
  if ((await stores.familyNews.wishInForce(householdId)) !== 'messages') return;
  const values = await messagesCalibrationInForce(stores);
  if (values[NEWS_SWITCH[kind]] !== 1) return;
  const noted = await stores.familyNews.note({ id: call.env.newId(), incidentId, householdId, kind, subjectId, part, notedAtMs: call.env.nowMs });
  if (noted) await lookAtNews(stores, call, { incidentId, householdId }, values.gatherMin * MINUTE_MS);
}

/** Lets the worker look at what a family is to be told: one look for all that happens meanwhile. */
export async function lookAtNews(stores: Stores, call: UseCaseCall, { incidentId, householdId }: { incidentId: string; householdId: string }, delayMs: number): Promise<void> {
  await stores.outbox.appendUnlessWaiting({ id: call.env.newId(), incidentId, kind: 'family.news', subjectId: householdId, traceparent: call.context.traceparent }, delayMs);
}

/** The thing is ready to go back now and was not before. */
export async function noteReady(stores: Stores, call: UseCaseCall, before: { nextStep: string | null }, item: { id: string; incidentId: string; householdId: string; nextStep: string | null }): Promise<void> {
  if (item.nextStep !== 'hand-back' || before.nextStep === 'hand-back') return;
  await noteNews(stores, call, { incidentId: item.incidentId, householdId: item.householdId, kind: 'ready', subjectId: item.id });
}
