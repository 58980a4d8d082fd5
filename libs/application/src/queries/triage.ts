import { askNext } from '#care';
import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { triageContextOf } from '../care/retriage.js';
import { latestTriageOf, standingOf } from '../care/standing.js';
import type { TriageView } from '../care/triage-view.js';
import type { Stores } from '../ports/work.js';

/** The latest triage of an item as it was decided, with the questions whose answers could change it now. */
export async function getTriage(stores: Stores, call: UseCaseCall, input: { itemId: string }): Promise<TriageView> {
  const item = await stores.items.find(input.itemId);
  if (!item) throw notFound('item');
  const triage = await latestTriageOf(stores, item);
  const { assessment, override, done } = await standingOf(stores, item);
  return { item, triage, assessment, override, askNext: askNext(assessment.observed, await triageContextOf(stores, call, item.incidentId, done)) };
}
