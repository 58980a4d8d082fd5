import type { CareStep } from '#care';
import type { CalibrationValues } from '#climate';
import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { climateCalibrationInForce, planningCalibrationInForce } from '../calibration/in-force.js';
import { nextStepOf } from '../care/route.js';
import { dryingOutlook } from '../planning/drying-outlook.js';
import type { PlanningValues } from '../planning/planning-calibration.js';
import type { PlanRevisionRecord } from '../ports/plan-store.js';
import type { DryingRow, WorkRow } from '../ports/work-rows.js';
import type { Stores } from '../ports/work.js';
import { peopleFacts, workPeople, type PeopleFacts, type WorkPeople } from './work-people.js';

/** A piece of work with its step of the care route and what that asks of people; null when the latest triage does not hold that step any more. */
export type WorkOrder = WorkRow & { care: CareStep | null; people: WorkPeople | null };

export interface WorkList {
  station: { id: string; code: string; name: string; siteId: string };
  atMs: number;
  /** Null when there is no plan yet. */
  revision: Pick<PlanRevisionRecord, 'number' | 'createdAtMs'> | null;
  next: WorkOrder[];
  now: WorkOrder[];
}

/** What a station does next and what it has in hand: where it is, how to handle it, what to wear. */
export async function getWorkList(stores: Stores, call: UseCaseCall, input: { stationId: string; limit: number }): Promise<WorkList> {
  const station = await stores.plans.station(input.stationId);
  if (!station) throw notFound('station');
  const revision = await stores.plans.currentRevision(station.incidentId);
  const next = revision === null ? [] : await stores.plans.workNext(station.id, revision.id, input.limit);
  const now = await stores.plans.workNow(station.id, input.limit);
  const facts = await peopleFacts(stores, call, station);
  const toOrder = (row: WorkRow) => orderOf(row, facts);
  return { station, atMs: call.env.nowMs, revision, next: next.map(toOrder), now: now.map(toOrder) };
}

/** Something that hangs, with the band in which it should be dry: as its room reckons it, else in the present air for as long as it has hung. */
export type DryingOrder = DryingRow & {
  /** Null in air that dries nothing, for what is not foreseen, and for closed things such as books that no room reckons. */
  earliestDryAtMs: number | null;
  latestDryAtMs: number | null;
  /** The present air of the room can bring it to a safe state. */
  dries: boolean;
};

export interface DryingList {
  siteId: string;
  atMs: number;
  revision: Pick<PlanRevisionRecord, 'number' | 'createdAtMs'> | null;
  toHang: WorkOrder[];
  /** Longest first. */
  hanging: DryingOrder[];
}

/** What to hang where at a site, and what hangs there already. */
export async function getDryingList(stores: Stores, call: UseCaseCall, input: { siteId: string; limit: number }): Promise<DryingList> {
  const site = await stores.places.site(input.siteId);
  if (!site) throw notFound('site');
  const revision = await stores.plans.currentRevision(site.incidentId);
  const toHang = revision === null ? [] : await stores.plans.toHang(site.id, revision.id, input.limit);
  const values = await climateCalibrationInForce(stores);
  const planning = await planningCalibrationInForce(stores);
  const hanging = (await stores.plans.hanging(site.id)).map((row) => toDryingOrder(row, values, planning));
  const facts = await peopleFacts(stores, call, { siteId: site.id, incidentId: site.incidentId });
  return { siteId: site.id, atMs: call.env.nowMs, revision, toHang: toHang.map((row) => orderOf(row, facts)), hanging };
}

function orderOf(row: WorkRow, facts: PeopleFacts | null): WorkOrder {
  // No route of the rule book holds the thaw.
  const steps = row.step === 'thaw' && row.option ? [nextStepOf('held-frozen', row.option, new Set())?.care] : row.option?.steps;
  const care = steps?.find((one) => one?.step === row.step) ?? null;
  return { ...row, care, people: care && facts && workPeople(row, care, facts) };
}

function toDryingOrder(row: DryingRow, values: CalibrationValues, planning: PlanningValues): DryingOrder {
  const outlook = dryingOutlook(row, row, values, planning);
  const after = (hours: number | null | undefined) => (hours == null ? null : row.dryingSinceMs + hours * 3_600_000);
  const band = row.reckoned ?? { dryEarliestMs: after(outlook?.earliestH), dryLatestMs: after(outlook?.latestH) };
  return { ...row, earliestDryAtMs: band.dryEarliestMs, latestDryAtMs: band.dryLatestMs, dries: outlook !== null };
}
