import type { UseCaseCall } from '../call.js';
import { durationTallies, type PlanDeadlines, promiseTally, startTally, wayTally, type DurationTally, type ProgressFacts, type PromiseTally, type StartTally, type WayTally } from '../planning/progress/plan-progress.js';
import { WorkOnItems } from '../planning/progress/work-done.js';
import type { KeptRevision, ForeseenStep } from '../ports/plan-progress-store.js';
import type { PlanReckoner } from '../ports/plan-reckoner.js';
import type { PlanRevisionRecord } from '../ports/plan-store.js';
import type { Stores } from '../ports/work.js';
import { revisionInForce } from './plans.js';

const DAY_MS = 24 * 3_600_000;

/** Planned and actual of one plan, or of all plans of a time. */
export interface ProgressPart {
  sinceMs: number;
  starts: StartTally;
  durations: DurationTally[];
  ways: WayTally;
  /** Null for a plan whose ground is not kept. */
  promises: PromiseTally | null;
}

export interface PlanProgress {
  revision: PlanRevisionRecord;
  nowMs: number;
  toleranceMinutes: number;
  timeZone: string;
  /** Of the plan in force, since it was made. */
  inForce: ProgressPart;
  /** Of the plans in force in the last day, as far back as their detail is kept; `promisesOf` is the oldest of them. */
  lastDay: ProgressPart & { isCutShort: boolean; revisions: number[]; promisesOf: number };
}

/** What was read; the counting is done after the transaction (`reckonPlanProgress`). */
export interface PlanProgressRead {
  revision: PlanRevisionRecord;
  nowMs: number;
  toleranceMinutes: number;
  timeZone: string;
  kept: KeptRevision[];
  promisesOf: number;
  dayFromMs: number;
  inForce: PartRead;
  lastDay: PartRead;
  work: WorkOnItems;
}

interface PartRead {
  sinceMs: number;
  planned: ForeseenStep[];
  promised: { itemId: string; weight: number }[];
  /** The ground of the plan that promised it, as it is kept. */
  packed: Uint8Array | null;
}

/** What was planned against what was done: for the plan in force, and for the last day. @throws Problem not_found for the incident or its plan */
export async function getPlanProgress(stores: Stores, call: UseCaseCall, { incidentId, toleranceMinutes }: { incidentId: string; toleranceMinutes: number }): Promise<PlanProgressRead> {
  const { nowMs } = call.env;
  const revision = await revisionInForce(stores, incidentId);
  const dayFromMs = nowMs - DAY_MS;
  const kept = await stores.planProgress.kept(incidentId);
  // The plan in force is published and keeps its detail, so that there always is one.
  const oldest = inForceSince(kept, dayFromMs) ?? { ...revision, publishedAtMs: revision.publishedAtMs ?? revision.createdAtMs };
  const inForce = { sinceMs: revision.createdAtMs, planned: await stores.planProgress.plannedBy(revision.id), promised: await stores.planProgress.promised(revision.id), packed: await stores.planGrounds.findPacked(revision.id) };
  const first = oldest.id === revision.id ? inForce : { promised: await stores.planProgress.promised(oldest.id), packed: await stores.planGrounds.findPacked(oldest.id) };
  const fromMs = Math.max(dayFromMs, oldest.publishedAtMs);
  const lastDay = { sinceMs: fromMs, planned: await stores.planProgress.dueWhileInForce(incidentId, dayFromMs, nowMs + 1), promised: first.promised, packed: first.packed };
  const ids = [...new Set([inForce, lastDay].flatMap(({ planned, promised }) => [...planned, ...promised].map(({ itemId }) => itemId)))];
  const sinceMs = Math.min(revision.createdAtMs, oldest.createdAtMs);
  const work = new WorkOnItems({ items: await stores.planProgress.itemsNow(ids), reported: await stores.planProgress.reported(ids, sinceMs), begun: await stores.planProgress.begun(ids, sinceMs) });
  return { revision, nowMs, toleranceMinutes, timeZone: await stores.imports.timeZone(), kept: kept.filter(({ number }) => number >= oldest.number), promisesOf: oldest.number, dayFromMs, inForce, lastDay, work };
}

/** The kept plan that was in force at a moment, else the oldest of them. */
function inForceSince(kept: readonly KeptRevision[], atMs: number): KeptRevision | undefined {
  return kept.findLast(({ publishedAtMs }) => publishedAtMs <= atMs) ?? kept[0];
}

/** Counts, with what the plans reckoned with as the reckoner finds it in their grounds. */
export async function reckonPlanProgress(read: PlanProgressRead, networkId: string, reckoner: PlanReckoner): Promise<PlanProgress> {
  const deadlinesIn = async (packed: Uint8Array | null) => packed && (await reckoner.deadlines(networkId, { packed }));
  const inForce = await deadlinesIn(read.inForce.packed);
  const lastDay = read.lastDay.packed === read.inForce.packed ? inForce : await deadlinesIn(read.lastDay.packed);
  return planProgress(read, { inForce, lastDay });
}

/** O(planned steps). */
function planProgress({ revision, nowMs, toleranceMinutes, timeZone, kept, promisesOf, dayFromMs, inForce, lastDay, work }: PlanProgressRead, deadlines: Record<'inForce' | 'lastDay', PlanDeadlines | null>): PlanProgress {
  const facts = { work, nowMs, toleranceMinutes };
  const isCutShort = lastDay.sinceMs > dayFromMs;
  return {
    revision, nowMs, toleranceMinutes, timeZone,
    inForce: partOf(inForce, deadlines.inForce, facts),
    lastDay: { ...partOf(lastDay, deadlines.lastDay, facts), isCutShort, revisions: kept.map(({ number }) => number), promisesOf },
  };
}

function partOf({ sinceMs, planned, promised }: PartRead, deadlines: PlanDeadlines | null, facts: ProgressFacts): ProgressPart {
  return { sinceMs, starts: startTally(planned, facts), durations: durationTallies(planned, facts), ways: wayTally(planned, facts), promises: deadlines === null ? null : promiseTally(promised, deadlines, facts) };
}
