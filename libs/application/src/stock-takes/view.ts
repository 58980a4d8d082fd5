import { resolutionsFor, stockTakeResult, subjectOf, type Keeper, type StockTakeDifference, type StockTakeResolution, type StockTakeResult } from '#custody';
import { notFound, Problem } from '#contracts';
import type { CountedStanding, StockTakeRecord, StockTakeResolutionRecord } from '../ports/stock-take-store.js';
import type { Stores } from '../ports/work.js';

/** A difference with what is known of it and what may be done about it. */
export interface DifferenceView {
  difference: StockTakeDifference;
  /** Item, or tag where there is none. */
  subject: string;
  tagCode: string;
  /** Where the record has the item now; null for a tag without one. */
  recorded: Keeper | null;
  /** What was decided that still stands: a later look makes it open again. */
  settled: StockTakeResolutionRecord | null;
  resolutions: readonly StockTakeResolution[];
  /** The tag that took the place of a retired one. */
  replacedBy: string | null;
}

export interface StockTakeView {
  stockTake: StockTakeRecord;
  result: StockTakeResult;
  differences: DifferenceView[];
  resolutions: StockTakeResolutionRecord[];
  /** Order of the last scan, 0 before the first. */
  lastOrder: number;
}

/** A stock-take that is not closed, locked. @throws Problem not_found, stock_take_closed */
export async function lockOpen(stores: Stores, stockTakeId: string, mode: 'share' | 'update'): Promise<StockTakeRecord> {
  const stockTake = await stores.stockTakes.lock(stockTakeId, mode);
  if (!stockTake) throw notFound('stock-take');
  if (stockTake.state === 'closed') throw new Problem('stock_take_closed', 'This stock-take is closed, and what it found stands. Begin a new one to count again.');
  return stockTake;
}

/** Holds what was seen against the record, as both are now. */
export async function viewOf(stores: Stores, stockTake: StockTakeRecord): Promise<StockTakeView> {
  const [lines, scans, resolutions] = [await stores.stockTakes.lines(stockTake.id), await stores.stockTakes.scans(stockTake.id), await stores.stockTakes.resolutions(stockTake.id)];
  const standing = new Map((await stores.stockTakes.standing([...new Set([...lines, ...scans].flatMap(({ itemId }) => itemId ?? []))])).map((item) => [item.itemId, item]));
  const expected = new Set(lines.map((line) => line.itemId));
  const elsewhere = [...standing.values()].filter(({ itemId }) => !expected.has(itemId)).map(({ itemId, way, lost }) => ({ itemId, since: lost ? [] : way }));
  const recounts = resolutions.filter(({ resolution }) => resolution === 'recount').map(({ subject, afterOrder }) => ({ subject, afterOrder }));
  const result = stockTakeResult(lines, scans, elsewhere, recounts);
  const retired = await replacements(stores, result.differences);
  return {
    stockTake, result, resolutions, lastOrder: scans.reduce((last, { order }) => Math.max(last, order), 0),
    differences: result.differences.map((difference) => differenceView(difference, standing, resolutions, retired)),
  };
}

/** Those that nobody has decided yet, or that were seen again since. */
export function openOf(view: StockTakeView): DifferenceView[] {
  return view.differences.filter(({ settled }) => settled === null);
}

function differenceView(difference: StockTakeDifference, standing: ReadonlyMap<string, CountedStanding>, resolutions: readonly StockTakeResolutionRecord[], retired: ReadonlyMap<string, string>): DifferenceView {
  const { itemId, scan } = difference;
  const item = itemId === null ? undefined : standing.get(itemId);
  const subject = scan === null ? difference.itemId : subjectOf(scan);
  return {
    difference, subject, tagCode: item?.tagCode ?? scan?.tag ?? '', recorded: item?.way[0] ?? null, settled: settledBy(subject, difference, resolutions), resolutions: resolutionsFor(difference),
    replacedBy: scan === null ? null : (retired.get(scan.tag) ?? null),
  };
}

const SETTLES: Partial<Record<StockTakeResolution, StockTakeDifference['kind']>> = { 'reported-missing': 'missing', 'foreign-to-coordinator': 'foreign' };

function settledBy(subject: string, { kind, scan }: StockTakeDifference, resolutions: readonly StockTakeResolutionRecord[]): StockTakeResolutionRecord | null {
  return resolutions.findLast((one) => one.subject === subject && SETTLES[one.resolution] === kind && (scan === null || scan.order <= one.afterOrder)) ?? null;
}

async function replacements(stores: Stores, differences: readonly StockTakeDifference[]): Promise<Map<string, string>> {
  const codes = differences.flatMap(({ scan }) => (scan?.standing === 'retired' ? [scan.tag] : []));
  if (codes.length === 0) return new Map();
  return new Map((await stores.tags.known(codes, null)).flatMap((tag) => (tag.replaced === null ? [] : [[tag.code, tag.replaced.by] as const])));
}

