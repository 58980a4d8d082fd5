import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { Stores } from '../ports/work.js';
import { viewOf, type DifferenceView, type StockTakeView } from '../stock-takes/view.js';

/** A stock-take with how far it is. @throws Problem not_found */
export async function getStockTake(stores: Stores, _call: UseCaseCall, { stockTakeId }: { stockTakeId: string }): Promise<StockTakeView> {
  const stockTake = await stores.stockTakes.find(stockTakeId);
  if (!stockTake) throw notFound('stock-take');
  return viewOf(stores, stockTake);
}

export interface ListDifferencesInput {
  stockTakeId: string;
  limit: number;
  /** The difference after which the page begins. */
  after: string | null;
}

/** What differs, misplaced things first, then missing and foreign ones. */
export async function listStockTakeDifferences(stores: Stores, call: UseCaseCall, { stockTakeId, limit, after }: ListDifferencesInput): Promise<DifferenceView[]> {
  const { differences } = await getStockTake(stores, call, { stockTakeId });
  const keyed = differences.map((view) => ({ view, key: differenceKey(view) }));
  return keyed.filter(({ key }) => after === null || key > after).slice(0, limit).map(({ view }) => view);
}

/** Sorts as the differences are sorted. */
export function differenceKey({ difference }: DifferenceView): string {
  return `${{ misplaced: 0, missing: 1, foreign: 2 }[difference.kind]}${difference.id}`;
}
