import type { TriageChange } from '#care';
import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { changeOf } from '../care/triage-view.js';
import type { TriageWithAssessment } from '../ports/assessment-store.js';
import type { Stores } from '../ports/work.js';

/** One triage with what it changed against the one before it; null for the first. */
export type TriageHistoryEntry = TriageWithAssessment & { change: TriageChange | null };

export interface TriageHistoryInput {
  itemId: string;
  /** One more than is shown: the last one shown is compared with it. */
  limit: number;
  before: { createdAtMs: number; id: string } | null;
}

/** The stored triage results of an item, newest first, with what changed and why from each to the next. */
export async function listTriageHistory(stores: Stores, _call: UseCaseCall, input: TriageHistoryInput): Promise<TriageHistoryEntry[]> {
  if (!(await stores.items.find(input.itemId))) throw notFound('item');
  const entries = await stores.assessments.history(input.itemId, input.limit, input.before);
  return entries.map((entry, index) => ({ ...entry, change: changeOf(entries[index + 1] ?? null, entry) }));
}
