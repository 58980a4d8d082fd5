import type { Message } from '#care';
import type { PlanWhatIfChange } from '#contracts';
import type { Band, TurnedItem } from '#planning';

/** What one what-if saves or costs. */
export interface StoredValue {
  changes: PlanWhatIfChange[];
  weightSaved: Band;
  savedItems: number;
  lostItems: number;
  /** The first hundred, the greatest weight first. */
  saved: TurnedItem[];
  lost: TurnedItem[];
}

/** What came of a what-if. */
export interface PlanWhatIfResult {
  asOfMs: number;
  revisionId: string;
  revisionNumber: number;
  seeds: number[];
  iterations: number;
  weightNotInTimeInForce: number;
  weightNotInTime: Band;
  values: StoredValue[];
  /** Of the item that was asked about. */
  item: { unchangedSeeds: number; changedSeeds: number[]; smallest: number | null } | null;
  /** Of the people numbers in force: what people may be asked for. */
  hours: { most: number; rest: number };
}

export interface PlanWhatIfRecord {
  id: string;
  incidentId: string;
  state: 'queued' | 'running' | 'done' | 'failed';
  /** Null: what is usually asked for where the plan is short. */
  asked: PlanWhatIfChange[] | null;
  together: boolean;
  itemId: string | null;
  requestedAtMs: number;
  startedAtMs: number | null;
  finishedAtMs: number | null;
  plansDone: number;
  plansInAll: number | null;
  result: PlanWhatIfResult | null;
  failure: Message | null;
}

/** A thing of the layout by its names. */
export interface NamedThing { id: string; siteId: string; code: string; name: string }

/** What changes may name, and what a plan names. */
export interface WhatIfLayout {
  sites: NamedThing[];
  stations: (NamedThing & { open: boolean })[];
  rooms: NamedThing[];
  places: NamedThing[];
  freezers: NamedThing[];
  /** Elsewhere: their `siteId` is empty. Those of whom it is known what they can take. */
  specialists: NamedThing[];
  /** Rides of vehicles, by the codes of vehicle and sites; between sites, so their `siteId` is empty. */
  rides: NamedThing[];
  people: NamedThing[];
  dehumidifiers: (NamedThing & { roomId: string; running: boolean; ratedLPerDay: number; ratedTempC: number; ratedRelativeHumidityPct: number })[];
}

export interface PlanWhatIfStore {
  insert(record: PlanWhatIfRecord): Promise<void>;
  /** How many of the incident are neither done nor failed. */
  openOnes(incidentId: string): Promise<number>;
  find(id: string): Promise<PlanWhatIfRecord | null>;
  /** The same, and nobody else changes it until the transaction ends. */
  lock(id: string): Promise<PlanWhatIfRecord | null>;
  save(id: string, changed: Partial<Pick<PlanWhatIfRecord, 'state' | 'startedAtMs' | 'finishedAtMs' | 'plansDone' | 'plansInAll' | 'result' | 'failure'>>): Promise<void>;
  /** Puts a failed one back to work; false when it is not failed. */
  reopen(id: string): Promise<boolean>;
  /** The newest one that is done, was asked about the item, and measured this revision. */
  newestAbout(itemId: string, revisionId: string): Promise<PlanWhatIfRecord | null>;
  /** Removes what is over beyond the newest few of the incident. */
  dropOld(incidentId: string, keep: number): Promise<void>;
  layout(incidentId: string): Promise<WhatIfLayout>;
  /** What stands on things; those that are gone are absent. */
  labels(itemIds: readonly string[]): Promise<Map<string, { tagCode: string; description: string }>>;
}
