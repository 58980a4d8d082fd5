import type { Keeper, StockTakeDifference, StockTakeLine, StockTakeResolution, StockTakeScan } from '#custody';

export interface StockTakeRecord {
  id: string;
  incidentId: string;
  /** Null for a stock-take of single places. */
  siteId: string | null;
  places: Keeper[];
  state: 'open' | 'closed';
  startedAtMs: number;
  startedBy: string;
  closedAtMs: number | null;
  closedBy: string | null;
  version: number;
}

/** A scan as it is stored; `order` is given by the database. */
export interface StockTakeScanRecord extends Omit<StockTakeScan, 'order'> {
  recordedAtMs: number;
  personId: string;
}

export interface StockTakeResolutionRecord {
  id: string;
  differenceId: string;
  /** Item, or tag where there is none. */
  subject: string;
  kind: StockTakeDifference['kind'];
  resolution: StockTakeResolution;
  personId: string;
  reason: string;
  resolvedAtMs: number;
  /** Order of the last scan that was known then. */
  afterOrder: number;
  /** The custody event that it made. */
  eventSeq: number | null;
}

/** How an item stands on record now. */
export interface CountedStanding {
  itemId: string;
  tagCode: string;
  /** From its keeper outwards. */
  way: Keeper[];
  lost: boolean;
}

export interface StockTakeStore {
  /** Stores it with its places and, as its lines, everything on record there now, through containers. What is missing or has left is not expected. */
  start(stockTake: StockTakeRecord): Promise<void>;
  /** Every place of a site that can keep things, for a stock-take of the whole site. */
  placesOf(siteId: string): Promise<Keeper[]>;
  find(stockTakeId: string): Promise<StockTakeRecord | null>;
  /** `share`: others may scan at the same time, nobody resolves or closes. `update`: nobody else does anything with it. */
  lock(stockTakeId: string, mode: 'share' | 'update'): Promise<StockTakeRecord | null>;
  lines(stockTakeId: string): Promise<StockTakeLine[]>;
  scans(stockTakeId: string): Promise<StockTakeScan[]>;
  resolutions(stockTakeId: string): Promise<StockTakeResolutionRecord[]>;
  /** Items as they stand now; absent ids are absent. */
  standing(itemIds: readonly string[]): Promise<CountedStanding[]>;
  /** Adds scans that are not there yet, and moves on when their items were last seen: never ahead of our clock. Answers the ids of the new ones. */
  addScans(stockTake: StockTakeRecord, scans: readonly StockTakeScanRecord[]): Promise<Set<string>>;
  resolve(stockTake: StockTakeRecord, resolution: StockTakeResolutionRecord): Promise<void>;
  /** Answers the new version. */
  close(stockTakeId: string, closedBy: string, nowMs: number): Promise<number>;
}
