import type { Disposition, MaterialClass, Significance, StepKind, Urgency } from '#care';
import type { Keeper, LotExtent, OpenMatters, Stage } from '#custody';

/** An item row as commands see it. Times are epoch milliseconds. */
export interface ItemRecord {
  networkId: string;
  incidentId: string;
  id: string;
  householdId: string;
  siteId: string;
  tagCode: string;
  kind: 'item' | 'lot';
  count: number;
  splitFromId: string | null;
  description: string;
  familyWords: string;
  photographRef: string;
  /** The day on which its photograph was taken, `2026-05-08`, as somebody said. */
  photographedOn: string | null;
  materialClass: MaterialClass;
  sizeClass: string;
  /** Drying area of the whole lot, dm2; freezer volume, litres; dry mass, grams. From the size class and count (own calibration). */
  areaDm2: number;
  volumeL: number;
  dryMassG: number;
  significance: Significance;
  arrivedAtMs: number;
  wettedAtMs: number | null;
  seq: number;
  headHash: string;
  keeper: Keeper;
  stage: Stage;
  /** What is open about it: a hand-over, a disputed location, that it is missing. */
  matters: OpenMatters;
  /** When a person or a scan last met it. */
  lastSeenAtMs: number;
  urgency: Urgency | null;
  startByMs: number | null;
  disposition: Disposition | null;
  planningWeight: number;
  stabilisedAtMs: number | null;
  nextStep: StepKind | null;
  /** Position of the next step in the route of the chosen disposition. */
  routePosition: number;
  waitingForOwner: boolean;
  version: number;
  createdAtMs: number;
  updatedAtMs: number;
}

/** What triage and work change; custody columns are changed by the custody store alone. */
export type ItemWorkState = Pick<ItemRecord, 'urgency' | 'startByMs' | 'disposition' | 'planningWeight' | 'stabilisedAtMs' | 'nextStep' | 'routePosition' | 'waitingForOwner' | 'significance' | 'materialClass' | 'wettedAtMs'>;

export interface ItemFilter {
  stage?: Stage;
  urgency?: Urgency;
  householdId?: string;
  keeper?: Keeper;
}

export type MatterKind = 'hand-over' | 'disputed' | 'missing';

/** A claim that an item is elsewhere than on record. */
export interface LocationClaim {
  place: Keeper;
  seenAtMs: number;
  personId: string | null;
  note: string;
}

/** An item about which something is open, with the latest claim where it is disputed. */
export interface ItemWithMatters {
  item: ItemRecord;
  latestClaim: LocationClaim | null;
}

export interface ItemStore {
  /** Locks the row until the transaction ends; null when the network (or the key's incident) has no such item. */
  lock(itemId: string): Promise<ItemRecord | null>;
  /** Locks several in id order (no deadlock between two commands); absent ids are absent from the answer. */
  lockMany(itemIds: readonly string[]): Promise<ItemRecord[]>;
  find(itemId: string): Promise<ItemRecord | null>;
  /** By the tag in use; that of a record that was joined to another leads to the one that goes on. */
  findByTag(tagCode: string): Promise<ItemRecord | null>;
  /** Keyset page in id order within one incident; `afterId` is exclusive. */
  page(incidentId: string, filter: ItemFilter, limit: number, afterId: string | null): Promise<ItemRecord[]>;
  /** Items of the incident with an open hand-over, a disputed location, or that are missing, in id order; `afterId` is exclusive. */
  withMatters(incidentId: string, kind: MatterKind | null, limit: number, afterId: string | null): Promise<ItemWithMatters[]>;
  insert(item: ItemRecord): Promise<void>;
  /** Saves the work state and raises the version by one; answers the new version. */
  saveWork(itemId: string, changed: Partial<ItemWorkState>, nowMs: number): Promise<number>;
  /** Saves what a lot amounts to after pieces were taken out of it, and raises the version by one; answers the new version. */
  saveExtent(itemId: string, extent: LotExtent, nowMs: number): Promise<number>;
  /** Changes words a person entered. Answers the new version, or null when `expectedVersion` is not the present one. */
  saveWords(itemId: string, expectedVersion: number, changed: Partial<Pick<ItemRecord, 'description' | 'familyWords' | 'photographRef' | 'photographedOn'>>, nowMs: number): Promise<number | null>;
}
