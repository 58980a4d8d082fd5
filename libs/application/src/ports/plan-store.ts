import type { Disposition, Message, StepKind } from '#care';
import type { Keeper } from '#custody';
import type { Blocker, Plan } from '#planning';
import type { AirNow } from '../planning/drying-outlook.js';
import type { PlanInput } from './plan-input.js';
import type { DryingRow, WorkRow } from './work-rows.js';

export interface PlanRunRecord {
  id: string;
  incidentId: string;
  state: 'queued' | 'running' | 'done' | 'failed';
  /** Why it was asked for: our own sentence, or what somebody wrote. */
  reason: Message;
  requestedAtMs: number;
  startedAtMs: number | null;
  finishedAtMs: number | null;
  revisionId: string | null;
  failure: Message | null;
  /** The planner epoch that its latest begin took; null before the first. */
  epoch: number | null;
}

export interface PlanRevisionRecord {
  id: string;
  incidentId: string;
  number: number;
  originAtMs: number;
  slotMinutes: number;
  seed: number;
  iterations: number;
  /** Planning weight of all items that are not stabilised and will not be in time, left-out ones included. */
  weightNotInTime: number;
  weightedStart: number;
  plannedItems: number;
  unplannedItems: number;
  /** A `PlanSummary`. */
  summary: unknown;
  createdAtMs: number;
}

/** An item without a place in the plan, for one of the planner's reasons or because it waits for people. */
export interface NotPlanned {
  itemId: string;
  weight: number;
  blockedBy: { kind: Blocker['kind'] | 'owner' | 'appointment' | 'assessment'; what: string };
}

export interface AssignmentRecord {
  itemId: string;
  tagCode: string;
  position: number;
  step: StepKind;
  disposition: Disposition;
  stationId: string | null;
  personIds: string[];
  dryingPlaceId: string | null;
  freezerId: string | null;
  startsAtMs: number;
  endsAtMs: number;
}

export interface AssignmentFilter {
  stationId?: string;
  itemId?: string;
}

export interface UnplannedRecord {
  itemId: string;
  tagCode: string;
  description: string;
  siteId: string;
  keeper: Keeper;
  weight: number;
  startByMs: number | null;
  stabilised: boolean;
  blockedBy: NotPlanned['blockedBy'];
  /** Code of the drying room or freezer that the blocker names; null for the other kinds. */
  resourceCode: string | null;
}

export interface PlanStore {
  /** Inserts a queued run unless one is waiting; answers the waiting one and whether it is new. */
  requestRun(run: PlanRunRecord): Promise<{ run: PlanRunRecord; created: boolean }>;
  findRun(runId: string): Promise<PlanRunRecord | null>;
  /** The same, and nobody else changes it until the transaction ends; whoever saves a run holds it. */
  lockRun(runId: string): Promise<PlanRunRecord | null>;
  /** The newest run of the incident that is neither done nor failed. */
  openRun(incidentId: string): Promise<PlanRunRecord | null>;
  saveRun(runId: string, changed: Partial<Omit<PlanRunRecord, 'id' | 'incidentId'>>): Promise<void>;
  /** Puts a failed run back to work; false, and nothing changes, when the incident has a newer plan or a run that is not over. */
  reopenRun(runId: string): Promise<boolean>;
  /** Raises the fencing epoch of the incident's planner and answers it. */
  takeEpoch(incidentId: string): Promise<number>;
  /** The latest epoch whose plan is stored; 0 before the first plan. */
  storedEpoch(incidentId: string): Promise<number>;
  /**
   * Makes this the latest epoch whose plan is stored, and keeps others from storing until the transaction ends; false, and
   * nothing changes, when a plan of a later epoch is stored already.
   */
  claimStoring(incidentId: string, epoch: number): Promise<boolean>;
  /** Reads everything that a planning problem is made from; null when there is no such incident. */
  loadInput(incidentId: string): Promise<PlanInput | null>;
  /** Stores a revision with its assignments and unplanned items, and answers its number; drops the details of revisions older than the last few. */
  saveRevision(revision: Omit<PlanRevisionRecord, 'number'>, plan: Plan, alsoUnplanned: readonly NotPlanned[]): Promise<number>;
  /** The air of each room and outdoors that the newest plan reckons with; empty when there is none or it does not say. */
  airInForce(incidentId: string): Promise<{ rooms: (AirNow & { id: string })[]; outdoor: AirNow | null }>;
  currentRevision(incidentId: string): Promise<PlanRevisionRecord | null>;
  /** Keyset page by start, item and position; `after` is the last row of the page before. */
  assignments(revisionId: string, filter: AssignmentFilter, limit: number, after: { startsAtMs: number; itemId: string; position: number } | null): Promise<AssignmentRecord[]>;
  /** Keyset page, the greatest weight first, then by item. */
  unplanned(revisionId: string, limit: number, after: { weight: number; itemId: string } | null): Promise<UnplannedRecord[]>;

  station(stationId: string): Promise<{ id: string; incidentId: string; siteId: string; code: string; name: string } | null>;
  /** What the revision gives the station to do next, by start: only steps that are next for their items now. */
  workNext(stationId: string, revisionId: string, limit: number): Promise<WorkRow[]>;
  /** What the station has in work now, longest first. */
  workNow(stationId: string, limit: number): Promise<WorkRow[]>;
  /** What is to be hung next at a site, by start. */
  toHang(siteId: string, revisionId: string, limit: number): Promise<WorkRow[]>;
  /** What hangs at a site now. */
  hanging(siteId: string): Promise<DryingRow[]>;
}
