/** What there is of each resource of a plan and what is used of it, slot by slot. */
import type { FallingLoad, Interval, Plan, PlanAssignment, PlanProblem, PlanStep } from './types.js';
import { clip, openMask } from './calendar.js';

/** As in `Blocker`: `station` by step, `crew` by skill (empty: all people), `drying-area` and `room-air` by room, `freezer` and `service` by id. */
export const LOAD_KINDS = ['station', 'crew', 'drying-area', 'room-air', 'freezer', 'service'] as const;
export type LoadKind = (typeof LOAD_KINDS)[number];

/**
 * Use of one kind of resource on a site per slot: station, crew and service in units, area in dm2, freezer in cl, room air in
 * grams. A service is on no site: its `siteId` is empty.
 */
export interface Account { siteId: string; kind: LoadKind; what: string; used: Float64Array; available: Float64Array }

/** While entries are made: how much more is used from a slot on than in the one before. */
interface Open extends Omit<Account, 'used'> { change: Float64Array }

/**
 * The accounts of a problem with its fixed uses and a plan entered. Things of one batch take one station unit and one crew. What is
 * frozen takes its volume from the end of the step to the next step of its route, or to the horizon. Drying loads the air with
 * what is left of its load. A station or person who can do several things counts under each of them.
 */
export class Accounts {
  private readonly accounts = new Map<string, Open>();
  private readonly stations;
  private readonly people;
  private readonly roomOfPlace;
  private readonly freezers;

  constructor(private readonly problem: PlanProblem, plan: Plan) {
    const rooms = new Map(problem.rooms.map((room) => [room.id, room]));
    this.stations = new Map(problem.stations.map((station) => [station.id, station]));
    this.people = new Map(problem.people.map((person) => [person.id, person]));
    this.roomOfPlace = new Map(problem.places.map((place) => [place.id, rooms.get(place.roomId)!]));
    this.freezers = new Map(problem.freezers.map((freezer) => [freezer.id, freezer]));
    this.open();
    this.enterFixed();
    this.enterPlan(plan);
  }

  /** By site, kind and name. */
  all(): Account[] {
    return [...this.accounts.keys()].sort().map((key) => settled(this.accounts.get(key)!));
  }

  find(siteId: string, kind: LoadKind, what: string): Account | undefined {
    const account = this.accounts.get(keyOf(siteId, kind, what));
    return account && settled(account);
  }

  /** Enters what there is. */
  private open(): void {
    const { problem } = this;
    for (const { siteId, steps, open, capacity } of problem.stations) for (const kind of new Set(steps)) this.provide(siteId, 'station', kind, open, capacity);
    for (const { siteId, skills, shifts } of problem.people) for (const skill of new Set<string>(['', ...skills])) this.provide(siteId, 'crew', skill, shifts, 1);
    for (const { id, open, areaDm2 } of problem.places) {
      const room = this.roomOfPlace.get(id)!;
      this.provide(room.siteId, 'drying-area', room.id, open, areaDm2);
    }
    for (const { id, siteId, removalGPerSlot } of problem.rooms) for (const interval of removalGPerSlot) this.provide(siteId, 'room-air', id, [interval], interval.limit);
    for (const { id, siteId, open, volumeCl } of problem.freezers) this.provide(siteId, 'freezer', id, open, volumeCl);
    for (const { id, open, capacity } of problem.services ?? []) this.provide('', 'service', id, open, capacity);
  }

  private enterFixed(): void {
    for (const use of this.problem.fixed) {
      this.useHands(use, use.interval);
      this.useServices(use, use.interval);
      if (use.dryingPlaceId !== null) this.useDrying(use.dryingPlaceId, use, use.interval);
      if (use.freezerId !== null) this.useFreezer(use.freezerId, use.volumeCl, use.interval);
    }
  }

  private enterPlan(plan: Plan): void {
    const items = new Map(this.problem.items.map((item) => [item.id, item]));
    const next = nextStarts(plan);
    const batches = new Set<string>();
    for (const assignment of plan.assignments) {
      const { itemId, option, position, batchId, dryingPlaceId, freezerId, startSlot, endSlot } = assignment;
      const step = items.get(itemId)?.options[option]?.steps[position];
      const interval = { from: startSlot, to: endSlot };
      if (batchId === null || !batches.has(batchId)) this.useHands(assignment, interval);
      if (batchId !== null) batches.add(batchId);
      if (dryingPlaceId !== null && step?.drying) this.useDrying(dryingPlaceId, step.drying, interval);
      if (freezerId !== null && step?.freezer) this.useFreezer(freezerId, step.freezer.volumeCl, { from: endSlot, to: next.get(assignment) ?? this.problem.horizonSlots });
      this.useServices(step, interval);
    }
  }

  private useHands({ stationId, personIds }: { stationId: string | null; personIds: readonly string[] }, interval: Interval): void {
    const station = stationId === null ? undefined : this.stations.get(stationId);
    if (station !== undefined) for (const kind of new Set(station.steps)) this.take(station.siteId, 'station', kind, interval, 1);
    for (const id of personIds) {
      const person = this.people.get(id);
      if (person !== undefined) for (const skill of new Set<string>(['', ...person.skills])) this.take(person.siteId, 'crew', skill, interval, 1);
    }
  }

  private useDrying(placeId: string, { areaDm2, loadGPerSlot, falling = [] }: { areaDm2: number; loadGPerSlot: number; falling?: readonly FallingLoad[] }, interval: Interval): void {
    const room = this.roomOfPlace.get(placeId);
    if (room === undefined) return;
    this.take(room.siteId, 'drying-area', room.id, interval, areaDm2);
    for (const { from, to, load } of loadsOf(interval, loadGPerSlot, falling)) this.take(room.siteId, 'room-air', room.id, { from, to }, load);
  }

  private useFreezer(id: string, volumeCl: number, interval: Interval): void {
    const freezer = this.freezers.get(id);
    if (freezer !== undefined) this.take(freezer.siteId, 'freezer', id, interval, volumeCl);
  }

  private useServices(step: Pick<PlanStep, 'services'> | undefined, interval: Interval): void {
    for (const { serviceId, units } of step?.services ?? []) this.take('', 'service', serviceId, interval, units);
  }

  private provide(siteId: string, kind: LoadKind, what: string, open: readonly Interval[], amount: number): void {
    const { available } = this.account(siteId, kind, what);
    openMask(open, this.problem.horizonSlots).forEach((isOpen, slot) => { if (isOpen === 1) available[slot] = available[slot]! + amount; });
  }

  private take(siteId: string, kind: LoadKind, what: string, { from, to }: Interval, amount: number): void {
    const { change } = this.account(siteId, kind, what);
    const { horizonSlots } = this.problem;
    const [begin, end] = [clip(from, horizonSlots), clip(to, horizonSlots)];
    if (end <= begin) return;
    change[begin] = change[begin]! + amount;
    change[end] = change[end]! - amount;
  }

  private account(siteId: string, kind: LoadKind, what: string): Open {
    const key = keyOf(siteId, kind, what);
    const known = this.accounts.get(key);
    if (known !== undefined) return known;
    const { horizonSlots } = this.problem;
    const account = { siteId, kind, what, change: new Float64Array(horizonSlots + 1), available: new Float64Array(horizonSlots) };
    this.accounts.set(key, account);
    return account;
  }
}

/** No id holds a line break. */
function keyOf(siteId: string, kind: LoadKind, what: string): string {
  return `${siteId}\n${kind}\n${what}`;
}

/** Amounts are whole numbers, so the sums are exact. */
function settled({ siteId, kind, what, change, available }: Open): Account {
  const used = new Float64Array(available.length);
  let level = 0;
  for (let slot = 0; slot < used.length; slot += 1) used[slot] = level += change[slot]!;
  return { siteId, kind, what, used, available };
}

/** Where the next step of the same item begins; nothing for its last. */
function nextStarts({ assignments }: Plan): Map<PlanAssignment, number> {
  const byItem = new Map<string, PlanAssignment[]>();
  for (const assignment of assignments) {
    const known = byItem.get(assignment.itemId);
    if (known === undefined) byItem.set(assignment.itemId, [assignment]);
    else known.push(assignment);
  }
  const next = new Map<PlanAssignment, number>();
  for (const own of byItem.values()) {
    own.sort((a, b) => a.position - b.position);
    own.forEach((assignment, i) => { if (own[i + 1] !== undefined) next.set(assignment, own[i + 1]!.startSlot); });
  }
  return next;
}

/** The stretches of a drying, each with the water that it gives the air per slot. */
function* loadsOf({ from, to }: Interval, loadGPerSlot: number, falling: readonly FallingLoad[]): Generator<Interval & { load: number }> {
  let begin = from;
  let load = loadGPerSlot;
  for (const { fromSlot, loadGPerSlot: less } of falling) {
    const end = Math.max(begin, Math.min(to, from + fromSlot));
    if (end > begin) yield { from: begin, to: end, load };
    begin = end;
    load = less;
  }
  if (to > begin) yield { from: begin, to, load };
}
