import type { Disposition, Urgency } from '#care';
import type { CustodyEvent, Keeper, Stage, OpenMatters } from '#custody';

export interface StageTally {
  stage: Stage;
  items: number;
  pieces: number;
  weight: number;
}

export interface UrgencyTally {
  urgency: Urgency | null;
  items: number;
  weight: number;
  /** Not stabilised although handling should have started. */
  overdueItems: number;
}

export interface RiskTally {
  items: number;
  weight: number;
}

export interface PlaceFill {
  kind: 'freezer' | 'drying-place';
  id: string;
  name: string;
  unit: 'L' | 'dm2';
  capacity: number;
  taken: number;
}

export interface RoomAir {
  id: string;
  name: string;
  airTempC: number;
  relativeHumidityPct: number;
  humidityCapPct: number;
  measuredAtMs: number;
  dehumidifiersRunning: number;
  dehumidifiersStopped: number;
}

/** The projection of an item beside the end of its chain; all that reconciliation compares. */
export interface ChainHead {
  itemId: string;
  seq: number;
  headHash: string;
  keeper: Keeper;
  stage: Stage;
  matters: OpenMatters;
}

/** How many things wait for somebody to answer; one may be in several counts. */
export interface MatterTally {
  handOvers: number;
  disputed: number;
  missing: number;
}

export interface HouseholdItemView {
  id: string;
  tagCode: string;
  description: string;
  count: number;
  stage: Stage;
  disposition: Disposition | null;
  waitingForOwner: boolean;
  updatedAtMs: number;
}

export interface ReportStore {
  stages(incidentId: string): Promise<StageTally[]>;
  urgencies(incidentId: string, nowMs: number): Promise<UrgencyTally[]>;
  /** Open items not stabilised whose handling must start before `untilMs`. */
  atRisk(incidentId: string, untilMs: number): Promise<RiskTally>;
  stabilised(incidentId: string): Promise<RiskTally>;
  waitingForOwner(incidentId: string): Promise<number>;
  matters(incidentId: string): Promise<MatterTally>;
  fills(incidentId: string): Promise<PlaceFill[]>;
  rooms(incidentId: string): Promise<RoomAir[]>;
  /** Items that entered, counted from the custody events and not from the item table. */
  entered(incidentId: string): Promise<number>;
  /** Projections in id order with their chains, for verification. */
  heads(incidentId: string, limit: number, afterId: string | null): Promise<ChainHead[]>;
  chains(itemIds: readonly string[]): Promise<Map<string, CustodyEvent[]>>;
  householdItems(householdId: string): Promise<HouseholdItemView[]>;
}
