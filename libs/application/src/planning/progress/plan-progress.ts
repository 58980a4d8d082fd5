/** What a plan foresaw held against what was done. Counts of the plan, never of people. Pure. */
import type { StepKind } from '#care';
import type { ForeseenStep } from '../../ports/plan-progress-store.js';
import type { PlanGround } from '../../ports/plan-ground-store.js';
import type { WorkDone, WorkOnItems } from './work-done.js';

/** The moments, in epoch milliseconds, by which a plan was to have its items safe, by item. */
export type PlanDeadlines = ReadonlyMap<string, number>;

/** What a plan reckoned with. */
export function deadlinesOf({ problem: { items, originMs, slotMinutes } }: PlanGround): PlanDeadlines {
  return new Map(items.map(({ id, deadlineSlot }) => [id, originMs + deadlineSlot * slotMinutes * 60_000]));
}

/** Planned beginnings that have come. */
export interface StartTally {
  due: number;
  onTime: number;
  late: number;
  /** Done, but when it was begun is not on record, and it ended after its planned end. */
  startUnknown: number;
  notYet: number;
  /** Its thing goes another way by now, or has left. */
  dropped: number;
  /** Of those whose beginning is known; earlier than planned counts as no delay. Null when there are none. */
  delayMinutes: { median: number; p80: number; of: number } | null;
}

/** One kind of step whose beginning and end are known. */
export interface DurationTally {
  step: StepKind;
  steps: number;
  plannedMinutes: number;
  actualMinutes: number;
  plannedMedianMinutes: number;
  actualMedianMinutes: number;
}

/** Things by whether they go the way that was planned. */
export interface WayTally {
  followed: number;
  otherWay: number;
  /** Nothing of it was begun. */
  notBegun: number;
}

interface Tally { items: number; weight: number }

/** What was to be safe in time. */
export interface PromiseTally {
  promised: Tally;
  inTime: Tally;
  late: Tally;
  /** Not safe now. */
  open: Tally;
  /** Of `open`: the moment has passed. */
  overdue: Tally;
}

export interface ProgressFacts {
  work: WorkOnItems;
  nowMs: number;
  /** Minutes by which a beginning may be later than planned and counts as on time. */
  toleranceMinutes: number;
}

/** How the beginnings came; each planned step once, by its earliest planned beginning, so that planning it anew hides no delay. */
export function startTally(planned: readonly ForeseenStep[], { work, nowMs, toleranceMinutes }: ProgressFacts): StartTally {
  const tally = { due: 0, onTime: 0, late: 0, startUnknown: 0, notYet: 0, dropped: 0 };
  const delays: number[] = [];
  for (const step of firstOfEach(planned)) {
    if (step.startsAtMs > nowMs) continue;
    tally.due += 1;
    const did = work.of(step.itemId, step.step, step.madeAtMs)[0];
    if (did === undefined) tally[work.goesOtherwise(step.itemId, step.disposition, step.madeAtMs) ? 'dropped' : 'notYet'] += 1;
    else tally[startOf(step, did, toleranceMinutes)] += 1;
    if (did?.startMs != null) delays.push(Math.max(0, did.startMs - step.startsAtMs) / 60_000);
  }
  delays.sort((a, b) => a - b);
  return { ...tally, delayMinutes: delays.length === 0 ? null : { median: tenths(quantile(delays, 0.5)), p80: tenths(quantile(delays, 0.8)), of: delays.length } };
}

/** What ended by its planned end is taken to have begun in time. */
function startOf({ startsAtMs, endsAtMs }: ForeseenStep, { startMs, endMs }: WorkDone, toleranceMinutes: number): 'onTime' | 'late' | 'startUnknown' {
  const allowedMs = toleranceMinutes * 60_000;
  if (startMs !== null) return startMs <= startsAtMs + allowedMs ? 'onTime' : 'late';
  return endMs !== null && endMs <= endsAtMs + allowedMs ? 'onTime' : 'startUnknown';
}

/** Planned minutes against those that it took, by kind of step; only what was reported with its beginning, or began by custody. */
export function durationTallies(planned: readonly ForeseenStep[], { work }: ProgressFacts): DurationTally[] {
  const by = new Map<StepKind, { planned: number[]; actual: number[] }>();
  for (const { itemId, step, startsAtMs, endsAtMs, madeAtMs } of firstOfEach(planned)) {
    // How long a specialist takes is told by their return, which no plan foresees.
    if (step === 'refer') continue;
    const did = work.of(itemId, step, madeAtMs).find(({ startMs, endMs, failed }) => startMs !== null && endMs !== null && !failed);
    if (did?.startMs == null || did.endMs === null) continue;
    const known = by.get(step) ?? { planned: [], actual: [] };
    known.planned.push((endsAtMs - startsAtMs) / 60_000);
    known.actual.push((did.endMs - did.startMs) / 60_000);
    by.set(step, known);
  }
  return [...by].sort(([a], [b]) => (a < b ? -1 : 1)).map(([step, of]) => {
    const [p, a] = [of.planned.toSorted((x, y) => x - y), of.actual.toSorted((x, y) => x - y)];
    return { step, steps: p.length, plannedMinutes: tenths(sum(p)), actualMinutes: tenths(sum(a)), plannedMedianMinutes: tenths(quantile(p, 0.5)), actualMedianMinutes: tenths(quantile(a, 0.5)) };
  });
}

/** By things: the way of each is that of its first planned step. */
export function wayTally(planned: readonly ForeseenStep[], { work }: ProgressFacts): WayTally {
  const tally = { followed: 0, otherWay: 0, notBegun: 0 };
  const ways = new Map<string, ForeseenStep>();
  for (const step of planned) if (!ways.has(step.itemId)) ways.set(step.itemId, step);
  for (const { itemId, disposition, madeAtMs } of ways.values()) {
    if (work.isReferred(itemId, disposition)) tally.followed += 1;
    else if (work.goesOtherwise(itemId, disposition, madeAtMs)) tally.otherWay += 1;
    else tally[work.isBegun(itemId, madeAtMs) ? 'followed' : 'notBegun'] += 1;
  }
  return tally;
}

/**
 * What became of what a plan said would be safe in time. The moment is the deadline that the plan reckoned with. What is safe now
 * counts by when it became so; what was safe and had to begin anew counts as open.
 */
export function promiseTally(promised: readonly { itemId: string; weight: number }[], deadlines: PlanDeadlines, { work, nowMs }: ProgressFacts): PromiseTally {
  const none = (): Tally => ({ items: 0, weight: 0 });
  const tally: PromiseTally = { promised: none(), inTime: none(), late: none(), open: none(), overdue: none() };
  for (const { itemId, weight } of promised) {
    const deadlineMs = deadlines.get(itemId);
    if (deadlineMs === undefined) continue;
    const safeAtMs = work.item(itemId)?.stabilisedAtMs ?? null;
    add(tally.promised, weight);
    if (safeAtMs !== null) add(safeAtMs <= deadlineMs ? tally.inTime : tally.late, weight);
    else add(tally.open, weight);
    if (safeAtMs === null && deadlineMs < nowMs) add(tally.overdue, weight);
  }
  return tally;
}

function add(tally: Tally, weight: number): void {
  tally.items += 1;
  tally.weight += weight;
}

/** The earliest beginning of each step of each thing on each way. */
function firstOfEach(planned: readonly ForeseenStep[]): ForeseenStep[] {
  const first = new Map<string, ForeseenStep>();
  for (const step of planned) {
    const key = `${step.itemId} ${step.disposition} ${step.step}`;
    const known = first.get(key);
    if (known === undefined || step.startsAtMs < known.startsAtMs) first.set(key, step);
  }
  return [...first.values()];
}

/** Between the two nearest of sorted values, as definition 7 of Hyndman and Fan (The American Statistician 50, 1996; from memory). */
export function quantile(sorted: readonly number[], share: number): number {
  const place = (sorted.length - 1) * share;
  const [low, high] = [sorted[Math.floor(place)] ?? 0, sorted[Math.ceil(place)] ?? 0];
  return low + (high - low) * (place - Math.floor(place));
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

function tenths(value: number): number {
  return Math.round(value * 10) / 10;
}
