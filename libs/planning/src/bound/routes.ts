/**
 * The routes of an item by which it could be in time if it were alone: each step with the first and the last slot at which it
 * may begin, calendars included. A route or an item that has none is out of the bound altogether.
 */
import { byId } from '../calendar.js';
import type { PlanItem, PlanOption, PlanProblem, PlanStep } from '../types.js';
import { groupName, type PeopleGroup, Pools } from './pools.js';

/** What all steps of one kind use alike. Of a station and a crew it takes `units / mostUnits` where several things may share them. */
export interface Shape {
  durationSlots: number;
  /** Any one of these; none is needed when null. */
  stations: { pool: number; starts: Uint8Array }[] | null;
  /** Station group, for sums over all stations that do the step. */
  stationGroup: string;
  crew: number;
  people: number[];
  services: { pool: number; units: number }[];
  units: number;
  mostUnits: number;
  /** 1 where it may begin, looking at this step alone. */
  starts: Uint8Array;
}

export interface RouteDrying { rooms: { area: number; air: number; starts: Uint8Array }[]; areaDm2: number; loads: { fromSlot: number; loadGPerSlot: number }[] }
export interface RouteFreezing { pool: number; run: Int32Array; volumeCl: number; leastSlots: number }
export interface RouteStep {
  shape: number;
  durationSlots: number;
  siteId: string;
  /** First and last slot at which it may begin. */
  from: number;
  to: number;
  drying: RouteDrying | null;
  freezing: RouteFreezing | null;
  /** On the step that stabilises, where the clock stood still in a freezer before it. */
  clock: RouteClock | null;
}
/** In time when the moment, `momentAfter` slots after the start, is no later than `deadline` and the slots lain frozen after the step at `frozenAt`. */
export interface RouteClock { frozenAt: number; deadline: number; momentAfter: number }

/** An urgent item with the routes by which it could be in time alone, and of which of its options each is the route. */
export interface BoundItem { id: string; weight: number; routes: RouteStep[][]; options: number[] }

/** The urgent items of a problem, what they need and what there is of it. */
export interface BoundModel { slots: number; pools: Pools; shapes: Shape[]; items: BoundItem[]; urgentWeight: number }

/** Compiles the problem; one that passes `checkProblem`. */
export function boundModel(problem: PlanProblem): BoundModel {
  return new Compiler(problem).run(() => false)!;
}

/** The same, or null when `isOver` says so meanwhile. */
export function boundModelUntil(problem: PlanProblem, isOver: () => boolean): BoundModel | null {
  return new Compiler(problem).run(isOver);
}

/** Items compiled between two questions whether it is over. */
const ITEMS_PER_LOOK = 64;

class Compiler {
  private readonly pools: Pools;
  private readonly slots: number;
  private readonly shapes: Shape[] = [];
  private readonly shapeOf = new Map<string, number>();
  /** Crews that steps ask for, by site, so that a step also counts for every wider group. */
  private readonly groups = new Map<string, PeopleGroup>();
  private readonly begunUntil = new Map<string, number>();

  constructor(private readonly problem: PlanProblem) {
    this.pools = new Pools(problem);
    this.slots = problem.horizonSlots;
    for (const item of problem.items) for (const { steps } of item.options) for (const step of steps) this.noteGroup(step, step.siteId ?? item.siteId);
    for (const use of problem.fixed) {
      const handled = use.stationId !== null || use.dryingPlaceId !== null || use.personIds.length > 0;
      if (handled) this.begunUntil.set(use.itemId, Math.max(use.interval.to, this.begunUntil.get(use.itemId) ?? 0));
    }
  }

  run(isOver: () => boolean): BoundModel | null {
    const urgent = this.problem.items.filter(({ stabilised }) => !stabilised).sort(byId);
    const items: BoundItem[] = [];
    for (const [i, item] of urgent.entries()) {
      if (i % ITEMS_PER_LOOK === 0 && isOver()) return null;
      const bound = this.boundItem(item);
      if (bound.routes.length > 0 && bound.weight > 0) items.push(bound);
    }
    return { slots: this.slots, pools: this.pools, shapes: this.shapes, items, urgentWeight: urgent.reduce((sum, { weight }) => sum + weight, 0) };
  }

  private noteGroup(step: PlanStep, siteId: string): void {
    if (step.crew === 0) return;
    const barred = [...new Set(step.barredRestrictions)].sort();
    for (const group of [{ siteId, skill: step.skill, barred }, { siteId, skill: null, barred: [] }]) {
      const key = groupName(group);
      if (!this.groups.has(key)) this.groups.set(key, group);
    }
  }

  private boundItem(item: PlanItem): BoundItem {
    const bound: BoundItem = { id: item.id, weight: item.weight, routes: [], options: [] };
    for (const [index, option] of item.options.entries()) {
      const route = this.routeOf(item, option, index);
      if (route === null) continue;
      bound.routes.push(route);
      bound.options.push(index);
    }
    return bound;
  }

  /** Heads left to right, then tails right to left; null when the item cannot be in time by this route. */
  private routeOf(item: PlanItem, option: PlanOption, index: number): RouteStep[] | null {
    const stabilising = option.steps.findIndex(({ stabilises }) => stabilises !== null);
    if (stabilising === -1) return null;
    const route = option.steps.map((step) => this.stepOf(step, step.siteId ?? item.siteId));
    // What stays to the end of the plan only has to be in before it.
    const last = route.at(-1)!;
    if (last.freezing !== null) last.freezing.leastSlots = 1;
    this.pin(item, index, option, route);
    let ready = Math.max(item.releaseSlot, this.begunUntil.get(item.id) ?? 0);
    for (const step of route) {
      step.from = this.firstStart(step, Math.max(ready, step.from));
      if (step.from > step.to) return null;
      ready = step.from + step.durationSlots + (step.freezing?.leastSlots ?? 0);
    }
    if (!this.tails(item, option, stabilising, route)) return null;
    const frozen = route.flatMap(({ freezing }, position) => (freezing !== null && position < stabilising ? [position] : []));
    const moment = route[stabilising]!;
    if (frozen.length === 1) moment.clock = { frozenAt: frozen[0]!, deadline: item.deadlineSlot, momentAfter: option.steps[stabilising]!.stabilises === 'end' ? moment.durationSlots : 0 };
    return route;
  }

  /** A pinned item is done at its pinned slots or not at all. */
  private pin(item: PlanItem, index: number, option: PlanOption, route: RouteStep[]): void {
    if (item.pinned === undefined) return;
    route.forEach((step, position) => {
      const pinned = item.pinned!.find((assignment) => assignment.position === position && assignment.option === index && assignment.disposition === option.disposition);
      step.from = Math.max(step.from, pinned?.startSlot ?? this.slots + 1);
      step.to = Math.min(step.to, pinned?.startSlot ?? -1);
    });
  }

  private tails(item: PlanItem, option: PlanOption, stabilising: number, route: RouteStep[]): boolean {
    const { stabilises } = option.steps[stabilising]!;
    const frozenBefore = option.steps.findIndex((step, position) => position < stabilising && step.freezer !== null);
    let latestEnd = this.slots;
    // Counts the slots that the clock certainly runs; it stands still in the freezer, and how long that is remains open here.
    let clock = item.deadlineSlot;
    for (let position = route.length - 1; position >= 0; position -= 1) {
      const step = route[position]!;
      let latest = latestEnd - step.durationSlots;
      if (position === route.length - 1 && step.freezing !== null) latest = Math.min(latest, this.slots - step.durationSlots - step.freezing.leastSlots);
      if (position === stabilising) clock -= stabilises === 'end' ? step.durationSlots : 0;
      else if (position < stabilising) clock -= step.durationSlots;
      if (position <= stabilising && position <= (frozenBefore === -1 ? stabilising : frozenBefore)) latest = Math.min(latest, clock);
      step.to = this.lastStart(step, Math.min(latest, step.to), step.from);
      if (step.to < step.from) return false;
      latestEnd = step.to - (route[position - 1]?.freezing?.leastSlots ?? 0);
    }
    return true;
  }

  private stepOf(step: PlanStep, siteId: string): RouteStep {
    const shape = this.shape(step, siteId);
    return {
      shape, siteId, durationSlots: step.durationSlots,
      from: Math.max(0, step.coolFromSlot ?? 0), to: Math.min(this.slots - step.durationSlots, step.notAfterSlot ?? this.slots),
      drying: this.dryingOf(step, siteId), freezing: this.freezingOf(step, siteId), clock: null,
    };
  }

  private dryingOf(step: PlanStep, siteId: string): RouteDrying | null {
    if (step.drying === null) return null;
    const { areaDm2, loadGPerSlot, falling } = step.drying;
    const rooms = this.pools.roomsFor(siteId).map((room) => ({ area: room.area, air: room.air, starts: this.pools.dryingStarts(room, areaDm2, step.durationSlots) }));
    return { rooms, areaDm2, loads: [{ fromSlot: 0, loadGPerSlot }, ...(falling ?? []).filter(({ fromSlot }) => fromSlot < step.durationSlots)] };
  }

  private freezingOf(step: PlanStep, siteId: string): RouteFreezing | null {
    if (step.freezer === null) return null;
    const { index, run } = this.pools.freezer(siteId) ?? { index: -1, run: new Int32Array(this.slots) };
    return { pool: index, run, volumeCl: step.freezer.volumeCl, leastSlots: Math.max(1, step.freezer.leastSlots ?? 1) };
  }

  private shape(step: PlanStep, siteId: string): number {
    const { durationSlots, crew, skill, batch } = step;
    const noStation = step.noStation === true || step.drying !== null || durationSlots === 0;
    const barredStations = noStation ? [] : [...(step.barredStationIds ?? [])].sort();
    const barred = [...new Set(step.barredRestrictions)].sort();
    const services = (step.services ?? []).filter(({ units }) => units > 0);
    const key = JSON.stringify([siteId, noStation ? '' : step.step, noStation ? '' : step.zone, noStation, barredStations, durationSlots, crew, crew > 0 ? [skill, barred, step.needsFit === true] : [], services, batch === undefined ? 1 : [batch.units, batch.mostUnits]]);
    const known = this.shapeOf.get(key);
    if (known !== undefined) return known;
    const people = crew === 0 ? [] : [...this.groups.values()].filter((group) => within({ siteId, skill, barred }, group)).map((group) => this.pools.people(group));
    const stations = noStation ? null : this.pools.stationsFor(step, siteId).map((pool) => ({ pool: pool.index, starts: this.pools.stationStarts(pool, durationSlots, barredStations) }));
    const starts = new Uint8Array(this.slots + 1).fill(1);
    if (stations !== null) both(starts, (slot) => stations.some((station) => station.starts[slot] === 1));
    if (crew > 0) {
      const enough = this.pools.crewStarts({ siteId, skill, barred }, crew, durationSlots, step.needsFit === true);
      both(starts, (slot) => enough[slot] === 1);
    }
    for (const { serviceId } of services) {
      const run = this.pools.service(serviceId)?.run;
      both(starts, (slot) => durationSlots === 0 || (run?.[slot] ?? 0) >= durationSlots);
    }
    this.shapes.push({
      durationSlots, stations, crew, people, starts, stationGroup: `${siteId} ${step.zone} ${step.step}`,
      services: services.flatMap(({ serviceId, units }) => { const pool = this.pools.service(serviceId)?.index; return pool === undefined ? [] : [{ pool, units }]; }),
      units: batch === undefined ? 1 : Math.min(batch.units, batch.mostUnits), mostUnits: batch?.mostUnits ?? 1,
    });
    this.shapeOf.set(key, this.shapes.length - 1);
    return this.shapes.length - 1;
  }

  private firstStart(step: RouteStep, from: number): number {
    let slot = from;
    while (slot <= step.to && !this.mayStart(step, slot)) slot += 1;
    return slot;
  }

  private lastStart(step: RouteStep, to: number, from: number): number {
    let slot = to;
    while (slot >= from && !this.mayStart(step, slot)) slot -= 1;
    return slot;
  }

  private mayStart(step: RouteStep, slot: number): boolean {
    if (this.shapes[step.shape]!.starts[slot] !== 1) return false;
    const { drying, freezing } = step;
    if (drying !== null && !drying.rooms.some((room) => room.starts[slot] === 1 && this.airBears(room.air, drying, slot, step.durationSlots))) return false;
    return freezing === null || (freezing.run[slot + step.durationSlots] ?? 0) >= freezing.leastSlots;
  }

  /** Whether the room's air can take this thing alone. */
  private airBears(air: number, { loads }: RouteDrying, start: number, durationSlots: number): boolean {
    const { capacity } = this.pools.list[air]!;
    return loads.every(({ fromSlot, loadGPerSlot }, k) => {
      const to = start + Math.min(durationSlots, loads[k + 1]?.fromSlot ?? durationSlots);
      for (let slot = start + fromSlot; slot < to; slot += 1) if (capacity[slot]! < loadGPerSlot) return false;
      return true;
    });
  }
}

/** Whether whoever may do the step belongs to the group, whoever is there. */
function within(step: PeopleGroup, group: PeopleGroup): boolean {
  return group.siteId === step.siteId && (group.skill === null || group.skill === step.skill) && group.barred.every((restriction) => step.barred.includes(restriction));
}

function both(starts: Uint8Array, allowed: (slot: number) => boolean): void {
  starts.forEach((open, slot) => { if (open === 1 && !allowed(slot)) starts[slot] = 0; });
}
