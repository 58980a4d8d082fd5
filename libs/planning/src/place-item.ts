/** Where one item fits, route by route, behind what is planned already. */
import type { CompiledItem, CompiledOption } from './compile.js';
import { NONE, placedStep, type PlacedStep, type Timetable } from './timetable.js';
import type { Batch } from './batches.js';
import type { Whole } from './whole-numbers.js';

/** An item in the plan. */
export interface Placement {
  /** Index of the item, and of the route among its compiled options. */
  item: number;
  option: number;
  steps: PlacedStep[];
  /** When the route stabilises the item, in slots; its first start when it stabilises nothing. */
  moment: number;
  /** Slots after the deadline, with the clock standing still in a freezer; 0 when in time or not urgent. */
  tardiness: number;
  /** Tells placements in one plan apart, and stays with one that is taken out and put back; 0 before it has been in a plan. */
  stamp: number;
}

/** A wait before a step that nothing asks for, so that others may go first. */
export interface Delay { position: number; slots: number }

/** Starts to wait for on one of the item's routes: no step of it begins sooner than `ahead` slots before its own, which stands in `starts` as its last start does. */
export interface Hint { option: number; starts: Whole; ahead: number }

/** A step that has found its start. */
interface Found { start: number; row: number; joined: Batch | null }

/**
 * The first route, in order of preference, on which the item is in time; null when there is none. Not urgent items only need to fit.
 * A route with a hint is tried before all others.
 */
export function findPlacement(timetable: Timetable, item: CompiledItem, skip = NONE, delay: Delay | null = null, hint: Hint | null = null): Placement | null {
  const hinted = hint === null || hint.option === skip ? null : findForOption(timetable, item, hint.option, true, null, hint);
  if (hinted !== null) return hinted;
  for (let option = 0; option < item.options.length; option += 1) {
    const placement = option === skip ? null : findForOption(timetable, item, option, true, delay);
    if (placement !== null) return placement;
  }
  return null;
}

/** The least late placement that fits into the horizon; of equal ones that of the preferred route. */
export function findLatePlacement(timetable: Timetable, item: CompiledItem): Placement | null {
  let best: Placement | null = null;
  for (let option = 0; option < item.options.length; option += 1) {
    const placement = findForOption(timetable, item, option, false);
    if (placement !== null && (best === null || placement.tardiness < best.tardiness)) best = placement;
  }
  return best;
}

/** One route, by its place in the order of preference. */
export function findForOption(timetable: Timetable, item: CompiledItem, option: number, inTime: boolean, delay: Delay | null = null, hint: Hint | null = null): Placement | null {
  const route = item.options[option]!;
  const found: Found[] = [];
  const split = route.freezeAt < 0 ? route.steps.length : route.freezeAt + 1;
  const way: Way = { timetable, route, inTime, delay, hint, found };
  const after = chain(way, 0, split, item.release);
  if (after === NONE) return null;
  if (split < route.steps.length && !thawed(way, item, route, after)) return null;
  const steps = placedSteps(timetable, route, found);
  if (steps === null) return null;
  return placementOf(item, option, steps);
}

/** Puts placed steps together with what follows from them. */
export function placementOf(item: CompiledItem, option: number, steps: PlacedStep[], stamp = 0): Placement {
  const route = item.options[option]!;
  const moment = momentOf(route, steps);
  return { item: item.index, option, steps, moment, tardiness: item.urgent ? Math.max(0, moment - item.deadline - stayBefore(route, steps)) : 0, stamp };
}

/** A route being placed. */
interface Way { timetable: Timetable; route: CompiledOption; inTime: boolean; delay: Delay | null; hint: Hint | null; found: Found[] }

/** Places steps `[from, to)` one after the other, each at its earliest fit; answers the end of the last, or `NONE`. */
function chain({ timetable, route: { steps, at, lasts }, inTime, delay, hint, found }: Way, from: number, to: number, release: number): number {
  const limits = inTime ? lasts.inTime : lasts.inHorizon;
  let free = release;
  for (let position = from; position < to; position += 1) {
    const step = steps[position]!;
    const last = limits[at + position]!;
    if (delay !== null && delay.position === position) free += delay.slots;
    if (hint !== null) free = Math.max(free, Math.min(last, hint.starts[at + position]! - hint.ahead));
    const start = free > last ? NONE : timetable.fit(step, free, last);
    if (start === NONE) return NONE;
    found[position] = { start, row: timetable.found, joined: timetable.joined };
    free = start + step.duration;
  }
  return free;
}

/** Thaws tried for an item that will be late whatever is done. */
const LATE_THAWS = 12;

/**
 * The part of a route after a stay in a freezer. Where the clock stood still meanwhile, what is left of it must last from the
 * thaw to stabilisation. The moment of stabilisation never comes sooner for a later thaw, so a thaw that comes too soon is
 * put off to where that moment leaves just enough, until both agree. Where it need not be in time, the least late of the thaws
 * on that way counts.
 */
function thawed(way: Way, item: CompiledItem, { steps, freezeAt, stabilisingAt, stabilisesAtEnd }: CompiledOption, frozenFrom: number): boolean {
  const { timetable, inTime, found } = way;
  const freezing = steps[freezeAt]!;
  const left = item.urgent && stabilisingAt > freezeAt ? item.deadline - frozenFrom : Number.POSITIVE_INFINITY;
  const lastThaw = frozenFrom + timetable.longestStay(freezing, frozenFrom);
  let from = frozenFrom + freezing.leastStay;
  let best: Found[] = [];
  let bestNeeded = Number.POSITIVE_INFINITY;
  for (let tries = 0; from <= lastThaw && (inTime || tries < LATE_THAWS); tries += 1) {
    if (chain(way, freezeAt + 1, steps.length, from) === NONE) break;
    const thaw = found[freezeAt + 1]!.start;
    if (thaw > lastThaw) break;
    const at = stabilisingAt > freezeAt ? found[stabilisingAt]!.start + (stabilisesAtEnd ? steps[stabilisingAt]!.duration : 0) : thaw;
    const needed = at - thaw;
    if (needed <= left) return true;
    if (!inTime && needed < bestNeeded) {
      bestNeeded = needed;
      best = found.slice(freezeAt + 1);
    }
    from = Math.max(thaw + 1, at - left);
  }
  found.splice(freezeAt + 1, best.length, ...best);
  return best.length > 0;
}

function placedSteps(timetable: Timetable, { steps, freezeAt }: CompiledOption, found: readonly Found[]): PlacedStep[] | null {
  const placed: PlacedStep[] = [];
  for (const [position, step] of steps.entries()) {
    const { start, row, joined } = found[position]!;
    const end = start + step.duration;
    const stayTo = step.freezers === null ? end : position === freezeAt ? found[position + 1]!.start : timetable.horizon;
    const freezer = step.freezers === null ? NONE : timetable.freezerFor(step, end, stayTo);
    if (step.freezers !== null && freezer === NONE) return null;
    const crew = joined?.crew ?? timetable.crewFor(step, start);
    const station = step.stations === null ? NONE : row;
    placed.push(placedStep(step, start, station, crew, step.places === null ? NONE : row, freezer, stayTo, joined ?? timetable.newBatch(step, start, station, crew)));
  }
  return placed;
}

/** When the route stabilises, in slots. */
export function momentOf(route: CompiledOption, steps: readonly PlacedStep[]): number {
  if (route.stabilisingAt < 0) return steps[0]!.start;
  const step = steps[route.stabilisingAt]!;
  return route.stabilisesAtEnd ? step.end : step.start;
}

/** Slots for which the clock stood still before the item was stabilised. */
function stayBefore({ freezeAt, stabilisingAt }: CompiledOption, steps: readonly PlacedStep[]): number {
  return freezeAt >= 0 && stabilisingAt > freezeAt ? steps[freezeAt]!.stayTo - steps[freezeAt]!.end : 0;
}

/** A placement of another timetable, for this one: with batches, one for each of the other's, that have nobody in them yet. */
export function ownCopy(placement: Placement, batches: Map<Batch, Batch>): Placement {
  const steps = placement.steps.map((step) => {
    if (step.batch === null) return step;
    const batch = batches.get(step.batch) ?? { ...step.batch, units: 0, members: [] };
    batches.set(step.batch, batch);
    return placedStep(step.step, step.start, step.station, step.crew, step.place, step.freezer, step.stayTo, batch);
  });
  return { ...placement, steps, stamp: 0 };
}
