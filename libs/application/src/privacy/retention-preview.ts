import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { retentionCalibrationInForce } from '../calibration/in-force.js';
import type { RetentionValues } from '../calibration/retention-table.js';
import type { HouseholdKind, RetentionIncidentFacts, IncidentKind, RetentionRunRecord } from '../ports/retention-store.js';
import type { Stores } from '../ports/work.js';
import { added, householdVerdict, incidentVerdict, NO_TOTALS, type RetentionTotals, type RetentionVerdict } from './retention.js';

export interface HouseholdPreview extends RetentionVerdict<HouseholdKind> {
  householdId: string;
}

export interface RetentionPreview {
  incidentId: string;
  asOfMs: number;
  policyRevision: number;
  policy: RetentionValues;
  ofIncident: RetentionVerdict<IncidentKind>;
  /** Of the whole incident; on the first page alone. */
  totals: RetentionTotals | null;
  households: HouseholdPreview[];
}

/** Households read at once; our own calibration: some milliseconds. */
export const RETENTION_PAGE = 200;

/** The days in force, with the number of the newest decision about our own numbers. */
export async function retentionPolicy(stores: Stores): Promise<{ policy: RetentionValues; revision: number }> {
  const decisions = await stores.calibration.inForce();
  return { policy: await retentionCalibrationInForce(stores), revision: Math.max(0, ...decisions.map(({ number }) => number)) };
}

/** The dry run: what a run at this moment would take, of whom, and why the rest stays. It changes nothing. @throws Problem not_found */
export async function previewRetention(stores: Stores, call: UseCaseCall, input: { incidentId: string; limit: number; after: string | null }): Promise<RetentionPreview> {
  const incident = await stores.retention.ofIncident(input.incidentId);
  if (!incident) throw notFound('incident');
  const { policy, revision } = await retentionPolicy(stores);
  const asOfMs = call.env.nowMs;
  const ofIncident = incidentVerdict(incident, policy, asOfMs);
  const facts = await stores.retention.ofHouseholds(input.incidentId, input.limit, input.after);
  return {
    incidentId: input.incidentId, asOfMs, policyRevision: revision, policy, ofIncident,
    totals: input.after === null ? await totalsOf(stores, { incidentId: input.incidentId, incident, policy, asOfMs }) : null,
    households: facts.map((one) => ({ householdId: one.householdId, ...householdVerdict(one, incident, policy, asOfMs) })),
  };
}

/** Of the whole incident at a moment. */
export async function totalsOf(stores: Stores, { incidentId, incident, policy, asOfMs }: { incidentId: string; incident: RetentionIncidentFacts; policy: RetentionValues; asOfMs: number }): Promise<RetentionTotals> {
  let totals = added(NO_TOTALS, incidentVerdict(incident, policy, asOfMs), false);
  for (let after: string | null = null; ; ) {
    const chunk = await stores.retention.ofHouseholds(incidentId, RETENTION_PAGE, after);
    for (const one of chunk) totals = added(totals, householdVerdict(one, incident, policy, asOfMs), true);
    after = chunk.at(-1)?.householdId ?? null;
    if (chunk.length < RETENTION_PAGE) return totals;
  }
}

/** @throws Problem not_found */
export async function getRetentionRun(stores: Stores, _call: UseCaseCall, input: { retentionRunId: string }): Promise<RetentionRunRecord> {
  const run = await stores.retention.findRun(input.retentionRunId);
  if (!run) throw notFound('retention run');
  return run;
}

/** Newest first. @throws Problem not_found */
export async function listRetentionRuns(stores: Stores, _call: UseCaseCall, input: { incidentId: string; limit: number; before: string | null }): Promise<RetentionRunRecord[]> {
  if (!(await stores.retention.ofIncident(input.incidentId))) throw notFound('incident');
  return stores.retention.runs(input.incidentId, input.limit, input.before);
}
