/**
 * Stock-take: what the record says should lie at some places, held against what people saw there. Plain counting of our own design;
 * comparing expected with counted stock and explaining every difference before closing is common practice in stores and collections.
 */
import { sameKeeper } from './keeper.js';
import type { Keeper } from './types.js';

/** One thing that was on record at the places when the stock-take began. */
export interface StockTakeLine {
  itemId: string;
  /** Where it was on record then, from the inside outwards: its container, the container around that, the place. Seen at any of them, it is in place. */
  way: readonly Keeper[];
  /** Its keeper changed on record since then; then `since` holds every keeper on record from then to now, and the way out of the present one. */
  moved: boolean;
  since: readonly Keeper[];
  /** The record says that it is missing: seen anywhere, it has to be put on record as found. */
  lost: boolean;
}

/** What a tag turned out to be when it was scanned. `ours` leads to an item of the incident that has not left. */
export type TagStanding = 'ours' | 'left' | 'unknown' | 'retired' | 'not-tied' | 'other-incident';

export interface StockTakeScan {
  scanId: string;
  tag: string;
  standing: TagStanding;
  /** Null when the tag leads to no item that counts. */
  itemId: string | null;
  at: Keeper;
  seenAtMs: number;
  /** In which order the scans came, gapless or not. */
  order: number;
}

/** An item that was seen though it was not on record at these places when it began. */
export interface SeenElsewhere {
  itemId: string;
  /** The way out of its present keeper; empty when the record says that it is missing. */
  since: readonly Keeper[];
}

/** From this scan on a thing, or a tag without one, is counted anew; earlier ones do not count. */
export interface Recount {
  /** Item or, without one, tag. */
  subject: string;
  afterOrder: number;
}

export type StockTakeDifference =
  /** Expected, and last seen where neither then nor now it is on record, or though the record says that it is missing. */
  | { kind: 'misplaced'; id: string; itemId: string; scan: StockTakeScan }
  /** Expected, not moved on record since, and not seen. */
  | { kind: 'missing'; id: string; itemId: string; scan: null }
  /** Seen, not expected. `id` is the item's, or that of the first scan of a tag without one that counts. */
  | { kind: 'foreign'; id: string; itemId: string | null; scan: StockTakeScan };

/** `expected` = `inPlace` + `movedMeanwhile` + misplaced + missing; foreign things are none of them. */
export interface StockTakeResult {
  expected: number;
  /** Expected things that were seen, wherever. */
  seen: number;
  inPlace: string[];
  /** Moved by ordinary events since it began, and seen nowhere that contradicts them: no difference. */
  movedMeanwhile: string[];
  /** In the order misplaced, missing, foreign; each by id. */
  differences: StockTakeDifference[];
}

/**
 * Holds scans against the record. The latest look at a thing counts (by the time it was seen, then in the order they came);
 * the order in which scans and lines are given changes nothing.
 */
export function stockTakeResult(lines: readonly StockTakeLine[], scans: readonly StockTakeScan[], elsewhere: readonly SeenElsewhere[], recounts: readonly Recount[]): StockTakeResult {
  const last = lastLooks(scans, recounts);
  const expected = new Set(lines.map((line) => line.itemId));
  const result: StockTakeResult = { expected: lines.length, seen: 0, inPlace: [], movedMeanwhile: [], differences: [] };
  for (const line of lines) judgeLine(result, line, last.get(line.itemId)?.latest ?? null);
  const nowAt = new Map(elsewhere.map(({ itemId, since }) => [itemId, since]));
  for (const [subject, { first, latest }] of last) {
    if (expected.has(subject)) continue;
    // It came here by an ordinary event meanwhile, or lies where it is on record.
    if (latest.itemId !== null && latest.standing === 'ours' && (nowAt.get(latest.itemId) ?? []).some((keeper) => sameKeeper(keeper, latest.at))) continue;
    result.differences.push({ kind: 'foreign', id: latest.itemId ?? first.scanId, itemId: latest.itemId, scan: latest });
  }
  result.inPlace.sort();
  result.movedMeanwhile.sort();
  result.differences.sort((a, b) => RANK[a.kind] - RANK[b.kind] || (a.id < b.id ? -1 : 1));
  return result;
}

const RANK: Record<StockTakeDifference['kind'], number> = { misplaced: 0, missing: 1, foreign: 2 };

function judgeLine(result: StockTakeResult, { itemId, way, moved, since, lost }: StockTakeLine, scan: StockTakeScan | null): void {
  const among = (keepers: readonly Keeper[]) => scan !== null && keepers.some((keeper) => sameKeeper(keeper, scan.at));
  if (scan !== null) result.seen += 1;
  if (scan === null && !moved) result.differences.push({ kind: 'missing', id: itemId, itemId, scan: null });
  else if (lost && scan !== null) result.differences.push({ kind: 'misplaced', id: itemId, itemId, scan });
  else if (scan === null || (moved && (among(since) || among(way)))) result.movedMeanwhile.push(itemId);
  else if (among(way)) result.inPlace.push(itemId);
  else result.differences.push({ kind: 'misplaced', id: itemId, itemId, scan });
}

interface Looks {
  first: StockTakeScan;
  latest: StockTakeScan;
}

/** By item, or by tag where there is none. */
function lastLooks(scans: readonly StockTakeScan[], recounts: readonly Recount[]): Map<string, Looks> {
  const from = new Map<string, number>();
  for (const { subject, afterOrder } of recounts) from.set(subject, Math.max(from.get(subject) ?? -Infinity, afterOrder));
  const looks = new Map<string, Looks>();
  for (const scan of scans) {
    const subject = subjectOf(scan);
    if (scan.order <= (from.get(subject) ?? -Infinity)) continue;
    const known = looks.get(subject);
    looks.set(subject, known === undefined ? { first: scan, latest: scan } : { first: scan.order < known.first.order ? scan : known.first, latest: isLater(scan, known.latest) ? scan : known.latest });
  }
  return looks;
}

/** What is counted: the item, or a tag that leads to none. */
export function subjectOf({ itemId, tag }: Pick<StockTakeScan, 'itemId' | 'tag'>): string {
  return itemId ?? tag;
}

function isLater(scan: StockTakeScan, than: StockTakeScan): boolean {
  return scan.seenAtMs !== than.seenAtMs ? scan.seenAtMs > than.seenAtMs : scan.order > than.order;
}

export const STOCK_TAKE_RESOLUTIONS = ['move-on-record', 'put-back', 'reported-missing', 'foreign-to-coordinator', 'recount'] as const;
/** How a difference is worked off. */
export type StockTakeResolution = (typeof STOCK_TAKE_RESOLUTIONS)[number];

/** What may be done about a difference: the record follows the thing only where there is one of ours. */
export function resolutionsFor({ kind, scan }: StockTakeDifference): readonly StockTakeResolution[] {
  if (kind === 'misplaced') return ['move-on-record', 'put-back', 'recount'];
  if (kind === 'missing') return ['put-back', 'reported-missing', 'recount'];
  return scan.standing === 'ours' ? ['move-on-record', 'put-back', 'foreign-to-coordinator', 'recount'] : ['foreign-to-coordinator', 'recount'];
}
