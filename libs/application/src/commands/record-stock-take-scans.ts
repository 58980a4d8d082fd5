import { FUTURE_TOLERANCE_MS, isTagFault, parseTagCode, TERMINAL_STAGES, type Keeper, type TagStanding } from '#custody';
import { Problem } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { personOf } from '../care/claims.js';
import type { StockTakeRecord, StockTakeScanRecord } from '../ports/stock-take-store.js';
import type { TagRecord } from '../ports/tag-store.js';
import type { Stores } from '../ports/work.js';
import { keeperOf, unknownTag } from '../scans/resolve.js';
import { lockOpen } from '../stock-takes/view.js';
import { countedPlace } from './start-stock-take.js';

export interface StockTakeScanInput {
  scanId: string;
  itemTag: string;
  placeTag: string | null;
  place: Keeper | null;
  seenAtMs: number;
  personId: string;
}

/** What became of one scan: `again` is one that is there already, and its first text stands. */
export interface StockTakeScanResult {
  scanId: string;
  verdict: 'counted' | 'again' | 'refused';
  standing: TagStanding | null;
  itemId: string | null;
  problem: Problem | null;
}

/** Takes in what people saw, each scan by itself: one that cannot be read keeps the others from nothing. Several people may send at once. */
export async function recordStockTakeScans(stores: Stores, call: UseCaseCall, { stockTakeId, scans }: { stockTakeId: string; scans: StockTakeScanInput[] }): Promise<StockTakeScanResult[]> {
  const stockTake = await lockOpen(stores, stockTakeId, 'share');
  const read = await readTags(stores, scans);
  const results: StockTakeScanResult[] = [];
  const counted = new Map<string, StockTakeScanRecord>();
  for (const [index, scan] of scans.entries()) {
    try {
      const seen = counted.get(scan.scanId) ?? (await readScan(stores, call, stockTake, scan, read, `#/scans/${index}`));
      counted.set(scan.scanId, seen);
      results.push({ scanId: scan.scanId, verdict: 'counted', standing: seen.standing, itemId: seen.itemId, problem: null });
    } catch (problem) {
      if (!(problem instanceof Problem)) throw problem;
      results.push({ scanId: scan.scanId, verdict: 'refused', standing: null, itemId: null, problem });
    }
  }
  const added = await stores.stockTakes.addScans(stockTake, [...counted.values()]);
  return results.map((result) => {
    if (result.verdict !== 'counted' || added.delete(result.scanId)) return result;
    return { ...result, verdict: 'again' as const };
  });
}

interface ReadTags {
  tags: ReadonlyMap<string, TagRecord>;
  left: ReadonlySet<string>;
}

async function readTags(stores: Stores, scans: readonly StockTakeScanInput[]): Promise<ReadTags> {
  const codes = new Set<string>();
  for (const typed of scans.flatMap(({ itemTag, placeTag }) => (placeTag === null ? [itemTag] : [itemTag, placeTag]))) {
    const parsed = parseTagCode(typed);
    if (!isTagFault(parsed)) codes.add(parsed.code);
  }
  const known = codes.size === 0 ? [] : await stores.tags.known([...codes], null);
  const left = new Set<string>();
  const itemIds = known.flatMap(({ itemId }) => itemId ?? []);
  for (const itemId of itemIds) {
    const item = await stores.items.find(itemId);
    if (item && TERMINAL_STAGES.includes(item.stage)) left.add(itemId);
  }
  return { tags: new Map(known.map((tag) => [tag.code, tag])), left };
}

async function readScan(stores: Stores, call: UseCaseCall, stockTake: StockTakeRecord, scan: StockTakeScanInput, { tags, left }: ReadTags, pointer: string): Promise<StockTakeScanRecord> {
  const { incidentId } = stockTake;
  const parsed = parseTagCode(scan.itemTag);
  if (isTagFault(parsed) || parsed.kind !== 'item') throw await unknownTag(stores, incidentId, scan.itemTag, 'item', `${pointer}/itemTag`);
  const at = await placeOf(stores, incidentId, scan, tags, pointer);
  refuseTime(call, stockTake, scan, pointer);
  await personOf(stores, incidentId, scan.personId, `${pointer}/personId`);
  const tag = tags.get(parsed.code);
  const standing = standingOfTag(tag, incidentId, left);
  return { scanId: scan.scanId, tag: parsed.code, standing, itemId: standing === 'ours' || standing === 'left' ? (tag?.itemId ?? null) : null, at, seenAtMs: scan.seenAtMs, recordedAtMs: call.env.nowMs, personId: scan.personId };
}

/** A tag of another network reads like one that never was. */
function standingOfTag(tag: TagRecord | undefined, incidentId: string, left: ReadonlySet<string>): TagStanding {
  if (tag === undefined) return 'unknown';
  if (tag.incidentId !== incidentId) return 'other-incident';
  if (tag.replaced !== null) return 'retired';
  if (tag.itemId === null) return 'not-tied';
  return left.has(tag.itemId) ? 'left' : 'ours';
}

async function placeOf(stores: Stores, incidentId: string, scan: StockTakeScanInput, tags: ReadonlyMap<string, TagRecord>, pointer: string): Promise<Keeper> {
  if ((scan.placeTag === null) === (scan.place === null)) throw new Problem('command_refused', 'A scan names one place: send `placeTag` or `place`, and only one of the two.', { errors: [{ detail: 'is needed, and nothing beside it', code: 'one_of_two', pointer: `${pointer}/placeTag` }] });
  if (scan.place !== null) {
    await countedPlace(stores, incidentId, scan.place, `${pointer}/place`);
    return scan.place;
  }
  const parsed = parseTagCode(scan.placeTag ?? '');
  const tag = isTagFault(parsed) ? undefined : tags.get(parsed.code);
  const keeper = tag?.incidentId === incidentId && tag.replaced === null ? keeperOf(tag) : null;
  if (keeper === null) throw await unknownTag(stores, incidentId, scan.placeTag ?? '', 'place', `${pointer}/placeTag`);
  return keeper;
}

/** What was seen before it began says nothing about it. */
function refuseTime(call: UseCaseCall, stockTake: StockTakeRecord, { seenAtMs }: StockTakeScanInput, pointer: string): void {
  const refused = (text: string, code: string) => new Problem('command_refused', text, { errors: [{ detail: 'is not within the stock-take', code, pointer: `${pointer}/seenAt` }] });
  if (seenAtMs < stockTake.startedAtMs) throw refused('This was seen before the stock-take began. Look again, and scan it now.', 'seen_too_early');
  if (seenAtMs > call.env.nowMs + FUTURE_TOLERANCE_MS) throw refused(`This claims to be seen in the future; at most ${FUTURE_TOLERANCE_MS / 60_000} minutes are accepted. Set the device's clock, or send the time corrected by its offset.`, 'occurred_in_future');
}
