import type { Disposition, Message } from '#care';
import type { Keeper } from '#custody';
import type { Blocker, Plan, PlanAssignment, PlanStepKind } from '#planning';
import type { AirNow } from '../planning/drying-outlook.js';
import type { PlanInput } from './plan-input.js';
import type { CarryRow, DryingRow, ReferralRow, WorkRow } from './work-rows.js';

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
  /** Rounds of improvement that the planner has done of those it is to do; null before it begins. */
  rounds: { done: number; inAll: number } | null;
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
  /** Null for a proposal: work does not follow it. */
  publishedAtMs: number | null;
  /** Who published it; null for a proposal, and for what was published by itself. */
  publishedBy: string | null;
}

/** A revision in the list of all. */
export interface RevisionView extends Omit<PlanRevisionRecord, 'summary'> {
  inTime: { items: number; weight: number };
  notInTime: { items: number; weight: number };
  /** Work follows it: the newest one that was published. */
  inForce: boolean;
  isNewest: boolean;
  /** Its assignments are still kept. */
  detailKept: boolean;
  publishedByName: string | null;
}

/** How an item stands in a plan: `late` when every deadline had passed, `look-only` while it waits for its owner, `follow-up` when it was safe already. */
export type PlannedStanding = 'in-time' | 'late' | 'look-only' | 'follow-up';

/** What is stored of a plan beside its figures. */
export interface RevisionContent {
  plan: Plan;
  /** Items that are no part of the problem. */
  alsoUnplanned: readonly NotPlanned[];
  /** Standing and weight of the items of the problem. */
  items: ReadonlyMap<string, { standing: PlannedStanding; weight: number }>;
  /** The specialist or the vehicle that a planned step takes; null for none. */
  serviceOf(assignment: PlanAssignment): string | null;
}

export const CHANGE_KINDS = ['in-time', 'fallen-out', 'other-way', 'moved'] as const;
export type PlanChangeKind = (typeof CHANGE_KINDS)[number];

/** Where and when one step was planned. */
export interface PlannedAt {
  startsAtMs: number;
  /** Code of its station, drying place or freezer, name of its specialist; null for none. */
  placeCode: string | null;
}

/** A ride that a plan has an item take. */
export interface PlannedJourney {
  /** Codes of the vehicle and of the sites. */
  vehicle: string;
  from: string;
  to: string;
  leavesAtMs: number;
  arrivesAtMs: number;
}

/** What one plan has otherwise than another for one item. */
export interface PlanChange {
  kind: PlanChangeKind;
  itemId: string;
  tagCode: string;
  description: string;
  weight: number;
  /** The ways in both plans; null where it was in none. */
  wayBefore: Disposition | null;
  wayNow: Disposition | null;
  /** The first step that moved, or the first step of what is new in the plan. */
  step: PlanStepKind | null;
  before: PlannedAt | null;
  now: PlannedAt | null;
  /** The ride that the newer plan has it take, and whether the older one had it take any. */
  ride: PlannedJourney | null;
  rodeBefore: boolean;
  /** Standing in the newer plan; null where it is not in it. */
  standingNow: PlannedStanding | null;
  blockedBy: NotPlanned['blockedBy'] | null;
  /** Code of the drying room or freezer, name of the specialist that the blocker names; null for the other kinds. */
  resourceCode: string | null;
}

export interface PlanChanges {
  rows: PlanChange[];
  /** Of all kinds, whatever the page and filter. */
  counts: Record<PlanChangeKind, { items: number; weight: number }>;
  /** In the older plan and not in the newer: done meanwhile, or gone. */
  settled: number;
}

/** An item without a place in the plan, for one of the planner's reasons or because it waits for people. */
export interface NotPlanned {
  itemId: string;
  weight: number;
  blockedBy: { kind: Blocker['kind'] | 'owner' | 'appointment' | 'assessment' | 'wish'; what: string };
}

export interface AssignmentRecord {
  itemId: string;
  tagCode: string;
  position: number;
  step: PlanStepKind;
  disposition: Disposition;
  stationId: string | null;
  personIds: string[];
  dryingPlaceId: string | null;
  freezerId: string | null;
  /** The specialist it is with, or what carries it; null for the hall. */
  serviceId: string | null;
  serviceName: string | null;
  /** Of a journey, as long as the vehicle makes that ride; null for all else. */
  ride: PlannedRide | null;
  startsAtMs: number;
  endsAtMs: number;
  /** Place of the chosen way among those that were open; null in plans from before this was kept. */
  option: number | null;
  /** Steps with the same name are done together. */
  batchId: string | null;
  /** How many things of the plan that are; 1 when it is done alone. */
  together: number;
}

interface Named {
  id: string;
  code: string;
  name: string;
}

/** The vehicle that a plan has something carried with, and between which sites. */
export interface PlannedRide {
  vehicle: Named;
  from: Named;
  to: Named;
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
  /** Code of the drying room or freezer, name of the specialist that the blocker names; null for the other kinds. */
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
  /** Says how far a run has come; nothing changes when it is over or was begun anew since. */
  saveRounds(runId: string, epoch: number, roundsDone: number): Promise<void>;
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
  /**
   * Stores a revision with its assignments and unplanned items, and answers its number; where the incident publishes by itself it
   * is published with that. Drops the details of revisions older than the last few, but for the one that work follows.
   */
  saveRevision(revision: Omit<PlanRevisionRecord, 'number' | 'publishedAtMs' | 'publishedBy'>, content: RevisionContent): Promise<number>;
  /** The air of each room and outdoors that the newest plan reckons with, proposal or not; empty when there is none or it does not say. */
  airInForce(incidentId: string): Promise<{ rooms: (AirNow & { id: string })[]; outdoor: AirNow | null }>;
  /** The plan that work follows: the newest one that was published. */
  currentRevision(incidentId: string): Promise<PlanRevisionRecord | null>;
  /** The newest plan, proposal or not. */
  newestRevision(incidentId: string): Promise<PlanRevisionRecord | null>;
  revision(revisionId: string): Promise<PlanRevisionRecord | null>;
  revisionByNumber(incidentId: string, number: number): Promise<PlanRevisionRecord | null>;
  /** Newest first; `before` is the number of the last of the page before. */
  revisionPage(incidentId: string, limit: number, before: number | null): Promise<RevisionView[]>;
  /** The same of one. */
  revisionView(revisionId: string): Promise<RevisionView | null>;
  /**
   * Publishes a proposal if it is the newest plan of its incident, while nobody stores another; false, and nothing changes, when
   * it is published already or a newer plan is there.
   */
  publish(revision: Pick<PlanRevisionRecord, 'id' | 'incidentId'>, by: string, nowMs: number): Promise<boolean>;
  /** Keyset page of what the newer plan has otherwise, the greatest weight first, then by item; `beforeId` null compares with no plan at all. */
  changes(ids: { beforeId: string | null; nowId: string }, kind: PlanChangeKind | null, limit: number, after: { weight: number; itemId: string } | null): Promise<PlanChanges>;
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
  /** What the revision sends to specialists, or to one of them, and is still here to be sent; by the moment when it should be there. */
  toRefer(revisionId: string, specialistId: string | null, limit: number): Promise<ReferralRow[]>;
  /** What the revision has carried to another site, still waits where the ride begins and still goes that way; by the moment of leaving. */
  toCarry(revisionId: string, limit: number): Promise<CarryRow[]>;
  /** Plans reckon with the specialist, and the one in force does not send them the item: it takes a place that is promised to others. */
  isUnplannedReferral(itemId: string, specialistId: string): Promise<boolean>;
  /** What hangs at a site now. */
  hanging(siteId: string): Promise<DryingRow[]>;
}
