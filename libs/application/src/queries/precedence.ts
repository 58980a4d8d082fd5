import { orderedItem, type OrderedItem } from '#care';
import { notFound, Problem } from '#contracts';
import { formatTagCode } from '#custody';
import type { UseCaseCall } from '../call.js';
import { careCalibrationInForce } from '../calibration/in-force.js';
import { precedenceOf, rankOf, type Precedence, type Rank } from '../care/precedence.js';
import { latestTriageOf } from '../care/standing.js';
import type { ItemRecord } from '../ports/item-store.js';
import type { Stores } from '../ports/work.js';

/** Two items in the order in which scarce hands take them. */
export interface PrecedenceView extends Precedence {
  atMs: number;
  first: Rank & { itemId: string };
  second: Rank & { itemId: string };
}

/** Why one item comes before another, by their latest triage. @throws Problem not_found, validation_failed */
export async function getPrecedence(stores: Stores, call: UseCaseCall, input: { itemId: string; over: string }): Promise<PrecedenceView> {
  const [one, other] = [await itemOf(stores, input.itemId), await itemOf(stores, input.over)];
  const [a, b] = [await ordered(stores, one), await ordered(stores, other)];
  const { nowMs } = call.env;
  const precedence = precedenceOf(a, b, nowMs, await careCalibrationInForce(stores));
  if (precedence === null) throw new Problem('validation_failed', 'An item is not compared with itself. Name another one in `over`.', { errors: [{ detail: 'is the item itself', code: 'same_item', parameter: 'over' }] });
  const view = (item: OrderedItem) => ({ ...rankOf(item, nowMs), itemId: item === a ? one.id : other.id });
  return { ...precedence, atMs: nowMs, first: view(precedence.decision.first), second: view(precedence.decision.second) };
}

async function itemOf(stores: Stores, itemId: string): Promise<ItemRecord> {
  const item = await stores.items.find(itemId);
  if (!item) throw notFound('item');
  return item;
}

/** By its tag, which is what stands on the thing. */
async function ordered(stores: Stores, item: ItemRecord): Promise<OrderedItem> {
  const triage = await latestTriageOf(stores, item);
  const assessment = await stores.assessments.latest(item.id);
  if (!assessment) throw new Error('an item that was never assessed');
  return orderedItem(formatTagCode(item.tagCode), assessment.observed, triage.result, item.arrivedAtMs);
}
