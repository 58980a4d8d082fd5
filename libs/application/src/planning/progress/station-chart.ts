/** The work of a station over time: what the plan gives it, what it had in hand when the plan was made, and how each stands. Pure. */
import type { Disposition, StepKind } from '#care';
import { lanesOf, type PlanProblem } from '#planning';
import type { PlanGround } from '../../ports/plan-ground-store.js';
import type { ItemNow } from '../../ports/plan-progress-store.js';
import type { WorkOnItems } from './work-done.js';

/** `late`: it should have begun; `dropped`: the thing goes another way by now, or has left. */
export const STATION_WORK_STATES = ['planned', 'in-work', 'done', 'late', 'dropped'] as const;
export type StationWorkState = (typeof STATION_WORK_STATES)[number];

export interface ChartedItem {
  itemId: string;
  tagCode: string;
  disposition: Disposition | null;
  state: StationWorkState;
  startedAtMs: number | null;
  finishedAtMs: number | null;
}

/** One bar: a step of one thing, or of several that are done together. */
export interface StationBar {
  /** Which place of the station it takes in the picture, from 0; the plan says only that there are enough. */
  lane: number;
  step: StepKind;
  state: StationWorkState;
  fromMs: number;
  toMs: number;
  batchId: string | null;
  /** `plan`: planned; `in-hand`: begun before the plan was made; `beside`: in work now although the plan does not have it there. */
  from: 'plan' | 'in-hand' | 'beside';
  items: ChartedItem[];
}

export interface StationChart {
  fromMs: number;
  toMs: number;
  /** Things it takes at once by the plan; null when the plan does not know the station. */
  capacity: number | null;
  /** Rows of the picture: the places, and more where more is in work than there are places. */
  lanes: number;
  bars: StationBar[];
  /** Bars of the time asked for that are left out, because there are more than one answer holds. */
  leftOut: number;
  /** In the time that the plan covers. */
  closed: { fromMs: number; toMs: number }[];
}

export interface StationChartParts {
  stationId: string;
  fromMs: number;
  toMs: number;
  nowMs: number;
  /** Minutes after its planned beginning from which work that has not begun is late. */
  toleranceMinutes: number;
  /** Null without a plan, or without one whose ground is kept. */
  plan: { ground: PlanGround; madeAtMs: number; untilMs: number } | null;
  work: WorkOnItems;
  inWork: readonly ItemNow[];
}

/** Bars of one answer; own choice. */
const MOST_BARS = 500;

type Drawn = Omit<StationBar, 'lane'>;

/** Works the chart out. */
export function stationChart(parts: StationChartParts): StationChart {
  const { fromMs, toMs, plan } = parts;
  const planned = plan === null ? [] : [...plannedBars(parts, plan.ground, plan.madeAtMs), ...inHandBars(parts, plan.ground, plan.madeAtMs)];
  const listed = new Set(planned.flatMap(({ items, step }) => items.map(({ itemId }) => `${itemId} ${step}`)));
  const all = [...planned, ...besideBars(parts, listed)].filter((bar) => bar.fromMs < toMs && bar.toMs > fromMs).sort(inOrder);
  const shown = all.slice(0, MOST_BARS);
  const lanes = lanesOf(shown.map((bar) => ({ from: bar.fromMs, to: bar.toMs })));
  const station = plan?.ground.problem.stations.find(({ id }) => id === parts.stationId);
  return {
    fromMs, toMs, capacity: station?.capacity ?? null, lanes: Math.max(1, station?.capacity ?? 1, ...lanes.map((lane) => lane + 1)),
    bars: shown.map((bar, i) => ({ lane: lanes[i] ?? 0, ...bar })), leftOut: all.length - shown.length,
    closed: plan === null || station === undefined ? [] : closedSpans(plan.ground.problem, station.open, plan.untilMs, parts),
  };
}

function inOrder(a: Drawn, b: Drawn): number {
  return a.fromMs - b.fromMs || a.toMs - b.toMs || ((a.items[0]?.itemId ?? '') < (b.items[0]?.itemId ?? '') ? -1 : 1);
}

/** What the chart of one station needs of the ground of a plan, and no more. */
export function groundOfStation({ plan, problem }: PlanGround, stationId: string): PlanGround {
  return {
    problem: { ...problem, stations: problem.stations.filter(({ id }) => id === stationId), people: [], rooms: [], places: [], freezers: [], items: [], fixed: problem.fixed.filter((one) => one.stationId === stationId), companies: [], services: [] },
    plan: { ...plan, assignments: plan.assignments.filter((one) => one.stationId === stationId), unplanned: [] },
    leftOut: [],
  };
}

/** The ids of what the plan has at the station at any time: what the chart asks about. */
export function itemsOfStation({ plan, problem }: PlanGround, stationId: string): string[] {
  const ids = [...plan.assignments.filter((one) => one.stationId === stationId), ...problem.fixed.filter((one) => one.stationId === stationId)].map(({ itemId }) => itemId);
  return [...new Set(ids)];
}

function plannedBars(parts: StationChartParts, { problem, plan }: PlanGround, madeAtMs: number): Drawn[] {
  const momentOf = (slot: number): number => problem.originMs + slot * problem.slotMinutes * 60_000;
  const bars = new Map<string, Drawn>();
  for (const [index, { itemId, step, stationId, batchId, disposition, startSlot, endSlot }] of plan.assignments.entries()) {
    // Carrying has no station.
    if (stationId !== parts.stationId || step === 'carry') continue;
    const item = chartedItem(parts, { itemId, step, disposition, fromMs: momentOf(startSlot), sinceMs: madeAtMs });
    if (item === null) continue;
    const key = batchId ?? String(index);
    const known = bars.get(key);
    if (known === undefined) bars.set(key, { step, state: item.state, fromMs: momentOf(startSlot), toMs: momentOf(endSlot), batchId, from: 'plan', items: [item] });
    else known.items.push(item);
  }
  return [...bars.values()].map((bar) => ({ ...bar, state: together(bar.items) }));
}

/** What was in work there when the plan was made holds its place until it is reckoned to end. */
function inHandBars(parts: StationChartParts, { problem }: PlanGround, madeAtMs: number): Drawn[] {
  const slotMs = problem.slotMinutes * 60_000;
  return problem.fixed.filter(({ stationId }) => stationId === parts.stationId).flatMap(({ itemId, step, interval }) => {
    const now = parts.work.item(itemId);
    if (now === undefined) return [];
    const isThere = now.stage === 'in-work' && now.keeper.id === parts.stationId;
    const done = parts.work.reportedSince(itemId, step, madeAtMs);
    const fromMs = isThere ? Math.min(now.sinceMs, problem.originMs + interval.from * slotMs) : (done?.startMs ?? problem.originMs + interval.from * slotMs);
    const state = done !== null ? 'done' : isThere ? 'in-work' : 'dropped';
    const item: ChartedItem = { itemId, tagCode: now.tagCode, disposition: now.disposition, state, startedAtMs: isThere ? now.sinceMs : (done?.startMs ?? null), finishedAtMs: done?.endMs ?? null };
    return [{ step, state, fromMs, toMs: Math.max(problem.originMs + interval.to * slotMs, fromMs + slotMs), batchId: null, from: 'in-hand' as const, items: [item] }];
  });
}

/** Work that was begun without the plan, or at another station than planned. How long it takes is not foreseen. */
function besideBars({ inWork, nowMs }: StationChartParts, listed: ReadonlySet<string>): Drawn[] {
  return inWork.flatMap((item) => {
    const step = item.nextStep ?? 'assess';
    if (listed.has(`${item.id} ${step}`)) return [];
    const charted: ChartedItem = { itemId: item.id, tagCode: item.tagCode, disposition: item.disposition, state: 'in-work', startedAtMs: item.sinceMs, finishedAtMs: null };
    return [{ step, state: 'in-work' as const, fromMs: item.sinceMs, toMs: Math.max(nowMs, item.sinceMs + 60_000), batchId: null, from: 'beside' as const, items: [charted] }];
  });
}

interface Charted { itemId: string; step: StepKind; disposition: Disposition; fromMs: number; sinceMs: number }

/** Null for an item that is gone. */
function chartedItem({ work, nowMs, toleranceMinutes }: StationChartParts, { itemId, step, disposition, fromMs, sinceMs }: Charted): ChartedItem | null {
  const now = work.item(itemId);
  if (now === undefined) return null;
  const did = work.of(itemId, step, sinceMs).findLast(({ failed }) => !failed) ?? null;
  const missed = fromMs + toleranceMinutes * 60_000 < nowMs ? 'late' : 'planned';
  const open = work.goesOtherwise(itemId, disposition, sinceMs) ? 'dropped' : missed;
  const state: StationWorkState = did === null ? open : did.endMs === null ? 'in-work' : 'done';
  return { itemId, tagCode: now.tagCode, disposition, state, startedAtMs: did?.startMs ?? null, finishedAtMs: did?.endMs ?? null };
}

/** Of things done together: in work while some are done and others not; else the state that asks for the most. */
function together(items: readonly ChartedItem[]): StationWorkState {
  const states = new Set(items.map(({ state }) => state));
  states.delete('dropped');
  if (states.size === 0) return 'dropped';
  if (states.has('in-work') || (states.has('done') && states.size > 1)) return 'in-work';
  return (['late', 'planned', 'done'] as const).find((state) => states.has(state)) ?? 'planned';
}

function closedSpans({ originMs, slotMinutes }: PlanProblem, open: readonly { from: number; to: number }[], untilMs: number, { fromMs, toMs }: StationChartParts): { fromMs: number; toMs: number }[] {
  const momentOf = (slot: number): number => originMs + slot * slotMinutes * 60_000;
  const endMs = Math.min(toMs, untilMs);
  const closed: { fromMs: number; toMs: number }[] = [];
  let from = Math.max(fromMs, originMs);
  for (const span of [...open].sort((a, b) => a.from - b.from)) {
    if (momentOf(span.from) > from) closed.push({ fromMs: from, toMs: Math.min(momentOf(span.from), endMs) });
    from = Math.max(from, momentOf(span.to));
  }
  closed.push({ fromMs: from, toMs: endMs });
  return closed.filter((span) => span.toMs > span.fromMs);
}
