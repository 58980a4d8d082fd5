import { notFound, Problem } from '#contracts';
import { loadSeries, loadStretches, type LoadKind } from '#planning';
import type { UseCaseCall } from '../call.js';
import type { PlanSummary } from '../planning/plan-summary.js';
import { itemsOfStation, type StationChart, stationChart, type StationChartParts } from '../planning/progress/station-chart.js';
import { WorkOnItems } from '../planning/progress/work-done.js';
import type { PlanGround } from '../ports/plan-ground-store.js';
import type { PlanRevisionRecord } from '../ports/plan-store.js';
import type { NamedThing, WhatIfLayout } from '../ports/plan-what-if-store.js';
import type { Stores } from '../ports/work.js';
import { revisionInForce } from './plans.js';

const HOUR_MS = 3_600_000;

/** The time that a chart shows; from the present hour on when `fromMs` is null. */
export interface ChartWindow {
  fromMs: number | null;
  hours: number;
}

export interface StationPlanParts extends StationChartParts {
  station: { id: string; code: string; name: string; siteId: string };
  revision: PlanRevisionRecord | null;
  timeZone: string;
}

export interface StationPlan extends StationChart {
  station: StationPlanParts['station'];
  revision: PlanRevisionRecord | null;
  /** False for a plan whose ground is not kept: only what is in work now is shown. */
  detailKept: boolean;
  nowMs: number;
  timeZone: string;
}

/** A station with the plan in force, if there is one, and the ground of that as it is kept, if it is. */
export interface StationPlanned {
  station: StationPlanParts['station'];
  revision: PlanRevisionRecord | null;
  packed: Uint8Array | null;
}

/** @throws Problem not_found for the station */
export async function getStationPlanned(stores: Stores, _call: UseCaseCall, { stationId }: { stationId: string }): Promise<StationPlanned> {
  const station = await stores.plans.station(stationId);
  if (!station) throw notFound('station');
  const revision = await stores.plans.currentRevision(station.incidentId);
  return { station, revision, packed: revision === null ? null : await stores.planGrounds.findPacked(revision.id) };
}

/** What was asked about a station, with the ground of the plan in force as `groundOfStation` has it. */
export type StationPlanQuestion = ChartWindow & Omit<StationPlanned, 'packed'> & { ground: PlanGround | null; toleranceMinutes: number };

/** Reads how the work of a station stands; `stationPlan` works it out. */
export async function getStationPlan(stores: Stores, call: UseCaseCall, input: StationPlanQuestion): Promise<StationPlanParts> {
  const { station, revision, ground } = input;
  const { nowMs } = call.env;
  const inWork = await stores.planProgress.inWorkAt(station.id);
  const ids = ground === null ? [] : itemsOfStation(ground, station.id);
  const sinceMs = revision?.createdAtMs ?? nowMs;
  const work = new WorkOnItems({ items: await stores.planProgress.itemsNow(ids), reported: await stores.planProgress.reported(ids, sinceMs), begun: await stores.planProgress.begun(ids, sinceMs) });
  const plan = ground === null || revision === null ? null : { ground, madeAtMs: revision.createdAtMs, untilMs: (revision.summary as PlanSummary).toMs };
  return { station, revision, timeZone: await stores.imports.timeZone(), stationId: station.id, ...windowOf(input, nowMs), nowMs, toleranceMinutes: input.toleranceMinutes, plan, work, inWork };
}

/** Works it out: O(steps of the plan). */
export function stationPlan(parts: StationPlanParts): StationPlan {
  const { station, revision, nowMs, timeZone, plan } = parts;
  return { ...stationChart(parts), station, revision, detailKept: plan !== null, nowMs, timeZone };
}

function windowOf({ fromMs, hours }: ChartWindow, nowMs: number): { fromMs: number; toMs: number } {
  const from = fromMs ?? Math.floor(nowMs / HOUR_MS) * HOUR_MS;
  return { fromMs: from, toMs: from + hours * HOUR_MS };
}

/** What a curve is asked of: `what` is the step of stations, a skill (empty: all people), or the id of a room, freezer or service. */
export interface LoadQuestion {
  resource: LoadKind;
  what: string;
  /** Needed for stations and people. */
  siteId?: string | undefined;
}

export interface PlanLoadParts extends LoadQuestion {
  revision: PlanRevisionRecord;
  /** As it is kept (`unpackGround`). */
  packed: Uint8Array;
  layout: WhatIfLayout;
  timeZone: string;
  nowMs: number;
  fromMs: number;
  toMs: number;
}

/** Stretches of equal load; units as the planner counts them. */
export interface PlanLoad extends Omit<PlanLoadParts, 'packed' | 'layout' | 'siteId'> {
  site: NamedThing | null;
  /** The room, freezer, courier or specialist; null for the other kinds. */
  thing: NamedThing | null;
  /** Loads per slot are turned into loads per hour with it. */
  slotMinutes: number;
  steps: { fromMs: number; toMs: number; used: number; available: number }[];
}

/** @throws Problem not_found for the incident, its plan, or a plan whose ground is not kept */
export async function getPlanLoad(stores: Stores, call: UseCaseCall, input: ChartWindow & LoadQuestion & { incidentId: string }): Promise<PlanLoadParts> {
  const { incidentId, resource, what, siteId } = input;
  const revision = await revisionInForce(stores, incidentId);
  const packed = await stores.planGrounds.findPacked(revision.id);
  if (!packed) throw new Problem('not_found', 'What the plan in force was made from is not on record, so its loads are not known. Ask for a new plan first (POST /v1/incidents/{incidentId}/plan-runs).');
  const { nowMs } = call.env;
  return { resource, what, siteId, revision, packed, layout: await stores.planWhatIfs.layout(incidentId), timeZone: await stores.imports.timeZone(), nowMs, ...windowOf(input, nowMs) };
}

/**
 * Works it out: O(steps of the plan times their slots).
 * @throws Problem reference_unknown for a resource that the plan does not know
 */
export function planLoad({ layout, siteId, ...parts }: Omit<PlanLoadParts, 'packed'>, { problem, plan }: PlanGround): PlanLoad {
  const thing = [...layout.rooms, ...layout.freezers, ...(parts.resource === 'service' ? [...layout.people, ...layout.specialists, ...layout.rides] : [])].find(({ id }) => id === parts.what) ?? null;
  const onSite = siteId ?? (parts.resource === 'service' ? '' : thing?.siteId);
  const series = onSite === undefined ? null : loadSeries(problem, plan, parts.resource, parts.what, onSite);
  if (series === null) throw unknownResource(siteId === undefined || layout.sites.some(({ id }) => id === siteId));
  const slotMs = problem.slotMinutes * 60_000;
  const slotOf = (ms: number): number => (ms - problem.originMs) / slotMs;
  const steps = loadStretches(series, Math.floor(slotOf(parts.fromMs)), Math.ceil(slotOf(parts.toMs))).map(({ from, to, ...load }) => ({
    fromMs: Math.max(parts.fromMs, problem.originMs + from * slotMs), toMs: Math.min(parts.toMs, problem.originMs + to * slotMs), ...load,
  }));
  return { ...parts, site: layout.sites.find(({ id }) => id === onSite) ?? null, thing, slotMinutes: problem.slotMinutes, steps };
}

/** The same words for what is of others and for what never was. */
function unknownResource(isSiteKnown: boolean): Problem {
  if (!isSiteKnown) return new Problem('reference_unknown', 'There is no site with this id in the incident.', { errors: [{ detail: 'names nothing of this incident', code: 'reference_unknown', parameter: 'siteId' }] });
  return new Problem('reference_unknown', 'The plan in force knows no such resource there. `what` is the step of a station, the skill of people (leave it out for all of them), or the id of a drying room, freezer or service; what came after the plan was made is not in it.', {
    errors: [{ detail: 'names nothing of the plan in force', code: 'reference_unknown', parameter: 'what' }],
  });
}
