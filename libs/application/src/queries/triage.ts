import { askNext, DEFAULT_CALIBRATION } from '#care';
import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { triageContextOf } from '../care/retriage.js';
import { standingOf } from '../care/standing.js';
import { changeOf, type TriageView } from '../care/triage-view.js';
import type { Stores } from '../ports/work.js';
import { bookInForce } from '../rule-book/books.js';

/** The latest triage of an item as it was decided, what it changed, and the questions whose answers could change it now. */
export async function getTriage(stores: Stores, call: UseCaseCall, input: { itemId: string }): Promise<TriageView> {
  const item = await stores.items.find(input.itemId);
  if (!item) throw notFound('item');
  const [latest, before = null] = await stores.assessments.history(item.id, 2, null);
  if (latest === undefined) throw new Error('an item that was never triaged');
  const { assessment, override, done } = await standingOf(stores, item);
  const questions = askNext(assessment.observed, await triageContextOf(stores, call, item.incidentId, done), DEFAULT_CALIBRATION, await bookInForce(stores));
  return { atMs: call.env.nowMs, item, triage: latest.triage, assessment, override, change: changeOf(before, latest), askNext: questions };
}
