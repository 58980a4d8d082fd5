/** Plans as they come about without a planner: things are taken one after the other from a list, each at its first free place. */
import type { Objective, Plan, PlanAssignment, PlanItem, PlanOption, PlanProblem, PlanStep } from '#planning';
import { assignmentOf, type StepPlace, StepPlaces } from './step-places.js';
import { type Supplies, suppliesOf } from './supply.js';

/** In which order things are taken: as they came in, by the earliest deadline, or the most valued first. */
export type ListRule = 'arrival' | 'deadline' | 'value';

/** A route with a place for each step. */
interface PlacedRoute { option: number; steps: StepPlace[]; freezers: (number | null)[]; moment: number | null; frozenSlots: number }

/**
 * A plan by a list. Nothing is turned away: each thing gets the first of its routes that is in time, else the first that finds a place at all, late
 * (the problem must allow that, `late: 'plan'`). Places are not moved afterwards, but gaps are filled and baths shared. What is safe already comes
 * last, as in every plan of ours. Arrival is the order of release and then of ids, which in the service ascend with the time of intake. Plans in
 * force, pins and wishes do not count.
 * O(items x steps x slots x people).
 */
export function listPlan(problem: PlanProblem, rule: ListRule): Plan {
  return new ListPlanner(problem).plan(rule);
}

class ListPlanner {
  private readonly supplies: Supplies;
  private readonly places: StepPlaces;
  private readonly busyUntil: ReadonlyMap<string, number>;
  private readonly assignments: PlanAssignment[] = [];
  private readonly unplanned: Plan['unplanned'] = [];
  private late = 0;
  private tardiness = 0;
  private completion = 0;

  constructor(private readonly problem: PlanProblem) {
    this.supplies = suppliesOf(problem);
    this.places = new StepPlaces(problem, this.supplies);
    this.busyUntil = busyUntil(problem);
  }

  plan(rule: ListRule): Plan {
    for (const item of [...this.problem.items].sort((a, b) => Number(a.stabilised) - Number(b.stabilised) || byRule(rule, a, b) || (a.id < b.id ? -1 : 1))) this.offer(item);
    const objective: Objective = [this.late, this.tardiness, 0, this.completion];
    return { seed: 0, iterations: 0, assignments: this.assignments, unplanned: this.unplanned, objective };
  }

  private offer(item: PlanItem): void {
    let found: PlacedRoute | null = null;
    for (const [index, option] of item.options.entries()) {
      const route = this.route(item, option, index);
      if (route === null || (!item.stabilised && route.moment === null)) continue;
      found ??= route;
      if (!isInTime(item, route)) continue;
      found = route;
      break;
    }
    this.count(item, found);
    if (found === null) this.unplanned.push({ itemId: item.id, weight: item.weight, blockedBy: { kind: 'time', what: '' } });
    else this.book(item, found);
  }

  private count(item: PlanItem, route: PlacedRoute | null): void {
    if (item.stabilised) return;
    const { horizonSlots, tardinessCapSlots: cap = horizonSlots } = this.problem;
    const lateSlots = route === null ? cap : Math.max(0, route.moment! - item.deadlineSlot - route.frozenSlots);
    if (lateSlots > 0 || route === null) this.late += item.weight;
    this.tardiness += item.weight * Math.min(cap, lateSlots);
    if (route !== null) this.completion += item.weight * (route.moment! + route.option * horizonSlots);
  }

  /** A thing that lies frozen until a slot in which the freezer is full is put in later. */
  private route(item: PlanItem, option: PlanOption, index: number): PlacedRoute | null {
    const route: PlacedRoute = { option: index, steps: [], freezers: [], moment: null, frozenSlots: 0 };
    const free = Math.max(item.releaseSlot, this.busyUntil.get(item.id) ?? 0);
    if (!this.placeFrom(item, option, route, free)) return null;
    for (const [k, { stabilises, freezer }] of option.steps.entries()) {
      const { start, end } = route.steps[k]!;
      if (stabilises !== null) return { ...route, moment: stabilises === 'start' ? start : end };
      if (freezer !== null && k + 1 < option.steps.length) route.frozenSlots += route.steps[k + 1]!.start - end;
    }
    return route;
  }

  private placeFrom(item: PlanItem, option: PlanOption, route: PlacedRoute, from: number): boolean {
    const k = route.steps.length;
    const step = option.steps[k];
    if (step === undefined) return true;
    for (let at = from; ; ) {
      const found = this.places.earliest(step, at, step.siteId ?? item.siteId);
      if (found === null) return false;
      route.steps.push(found);
      route.freezers.push(null);
      const next = step.freezer === null ? null : this.freeze(item, option, route, k);
      if (step.freezer === null ? this.placeFrom(item, option, route, found.end) : next === null) return true;
      route.steps.length = k;
      route.freezers.length = k;
      if (next === null || !Number.isFinite(next)) return false;
      at = Math.max(found.start + 1, next - step.durationSlots);
    }
  }

  /** Null when it found a freezer for the whole stay and a place for all that follows; else the earliest slot at which it may be tried again. */
  private freeze(item: PlanItem, option: PlanOption, route: PlacedRoute, k: number): number | null {
    const { company, freezer } = option.steps[k]!;
    const { volumeCl, leastSlots = 1 } = freezer!;
    const isLast = k + 1 === option.steps.length;
    const from = route.steps[k]!.end;
    if (from + (isLast ? 1 : leastSlots) > this.problem.horizonSlots) return Infinity;
    const siteId = option.steps[k]!.siteId ?? item.siteId;
    const ownPlaces = this.problem.freezers.flatMap((freezer, i) => (freezer.siteId === siteId ? [i] : []));
    const shortOf = (to: number): number[] => ownPlaces.map((i) => Math.max(this.supplies.freezers[i]!.lastShort(from, to, volumeCl), this.supplies.lying.lastMet('freezer', i, company, from, to)));
    const firstStay = shortOf(isLast ? this.problem.horizonSlots : from + leastSlots);
    if (!firstStay.includes(-1)) return firstStay.length === 0 ? Infinity : Math.min(...firstStay) + 1;
    if (!isLast && !this.placeFrom(item, option, route, from + leastSlots)) return Infinity;
    const stay = shortOf(isLast ? this.problem.horizonSlots : route.steps[k + 1]!.start);
    if (!stay.includes(-1)) return Math.min(...stay) + 1;
    route.freezers[k] = ownPlaces[stay.indexOf(-1)]!;
    return null;
  }

  private keepCold(freezer: number, { freezer: need, company }: PlanStep, from: number, to: number): void {
    this.supplies.freezers[freezer]!.take(from, to, need!.volumeCl);
    this.supplies.lying.put('freezer', freezer, company, from, to);
  }

  private book(item: PlanItem, { option, steps, freezers }: PlacedRoute): void {
    const { disposition, steps: wanted } = item.options[option]!;
    for (const [position, step] of wanted.entries()) {
      const { batchId } = this.places.book(step, steps[position]!, step.siteId ?? item.siteId);
      const freezer = freezers[position] ?? null;
      if (freezer !== null) this.keepCold(freezer, step, steps[position]!.end, steps[position + 1]?.start ?? this.problem.horizonSlots);
      this.assignments.push(assignmentOf(this.problem, steps[position]!, { itemId: item.id, option, position, step: step.step, disposition, batchId, freezerId: freezer === null ? null : this.problem.freezers[freezer]!.id }));
    }
  }
}

function isInTime(item: PlanItem, { moment, frozenSlots }: PlacedRoute): boolean {
  return item.stabilised || (moment !== null && moment <= item.deadlineSlot + frozenSlots);
}

function byRule(rule: ListRule, a: PlanItem, b: PlanItem): number {
  if (rule === 'deadline') return a.deadlineSlot - b.deadlineSlot;
  return rule === 'value' ? b.weight - a.weight : a.releaseSlot - b.releaseSlot;
}

/** Until when each item is in somebody's hands or drying; lying in a freezer holds it from nothing. */
function busyUntil({ fixed }: PlanProblem): Map<string, number> {
  const until = new Map<string, number>();
  for (const { itemId, stationId, dryingPlaceId, personIds, interval } of fixed) {
    if (stationId !== null || dryingPlaceId !== null || personIds.length > 0) until.set(itemId, Math.max(until.get(itemId) ?? 0, interval.to));
  }
  return until;
}
