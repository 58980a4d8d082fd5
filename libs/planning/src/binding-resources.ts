/** What the plan uses of each resource over time and what its rejections ask for: the basis of a call for help. */
import type { Blocker, Interval, Plan, PlanProblem } from './types.js';
import { clip, openMask } from './calendar.js';

/** Use of a resource in one stretch of time. */
export interface UsePeriod extends Interval {
  used: number;
  available: number;
  /** Used per thousand available; 0 when nothing is available. May exceed 1,000 where fixed uses overdraw. */
  permille: number;
}

/**
 * Use of one kind of resource on a site. Units times slots: station and crew in units, area in dm2, freezer in cl;
 * room air in grams. A station or person who can do several things counts under each of them.
 */
export interface ResourceUse {
  siteId: string;
  kind: 'station' | 'crew' | 'drying-area' | 'room-air' | 'freezer';
  /** As in `Blocker`: station kind, skill (empty: all people), room or freezer id. */
  what: string;
  total: UsePeriod;
  periods: UsePeriod[];
}

/** Items that one resource keeps out of the plan. */
export interface UnplannedBy {
  siteId: string;
  blockedBy: Blocker;
  /** Weight and number of items that will not be stabilised in time. */
  lostWeight: number;
  lostItems: number;
  /** Items already stabilised whose remaining steps found no place. */
  waitingItems: number;
}

/** Where a plan is tight. */
export interface BindingResources {
  /** By site, kind and name. */
  use: ResourceUse[];
  /** The greatest lost weight first. */
  unplanned: UnplannedBy[];
}

/**
 * Utilisation per resource kind and period, fixed uses included, and the weight left unplanned by blocker. A blocker
 * says what stood in the way most, not how much one more of it would save; that takes a new plan with more of it.
 * @param periodSlots length of a period, a whole number of at least 1; 12 hours (a common operational period) when not given.
 * @throws RangeError when the length is not such a number.
 */
export function bindingResources(problem: PlanProblem, plan: Plan, periodSlots = Math.max(1, Math.round(720 / problem.slotMinutes))): BindingResources {
  if (!Number.isSafeInteger(periodSlots) || periodSlots < 1) throw new RangeError(`A period must be a whole number of at least 1 slot, not ${periodSlots}.`);
  const accounts = new Accounts(problem);
  accounts.open();
  accounts.enterFixed();
  accounts.enterPlan(plan);
  return { use: accounts.report(periodSlots), unplanned: unplannedBy(problem, plan) };
}

function unplannedBy(problem: PlanProblem, plan: Plan): UnplannedBy[] {
  const items = new Map(problem.items.map((item) => [item.id, item]));
  const groups = new Map<string, UnplannedBy>();
  for (const { itemId, weight, blockedBy } of plan.unplanned) {
    const item = items.get(itemId);
    if (item === undefined) continue;
    const key = JSON.stringify([item.siteId, blockedBy.kind, blockedBy.what]);
    const group = groups.get(key) ?? { siteId: item.siteId, blockedBy, lostWeight: 0, lostItems: 0, waitingItems: 0 };
    if (item.stabilised) group.waitingItems += 1;
    else {
      group.lostWeight += weight;
      group.lostItems += 1;
    }
    groups.set(key, group);
  }
  return [...groups].sort(([ka, a], [kb, b]) => b.lostWeight - a.lostWeight || b.waitingItems - a.waitingItems || (ka < kb ? -1 : 1)).map(([, group]) => group);
}

interface Account { siteId: string; kind: ResourceUse['kind']; what: string; used: Float64Array; available: Float64Array }

class Accounts {
  private readonly accounts = new Map<string, Account>();
  private readonly stations;
  private readonly people;
  private readonly roomOfPlace;
  private readonly freezers;

  constructor(private readonly problem: PlanProblem) {
    const rooms = new Map(problem.rooms.map((room) => [room.id, room]));
    this.stations = new Map(problem.stations.map((station) => [station.id, station]));
    this.people = new Map(problem.people.map((person) => [person.id, person]));
    this.roomOfPlace = new Map(problem.places.map((place) => [place.id, rooms.get(place.roomId)!]));
    this.freezers = new Map(problem.freezers.map((freezer) => [freezer.id, freezer]));
  }

  /** Enters what there is. */
  open(): void {
    const { problem } = this;
    for (const { siteId, steps, open, capacity } of problem.stations) for (const kind of new Set(steps)) this.provide(siteId, 'station', kind, open, capacity);
    for (const { siteId, skills, shifts } of problem.people) for (const skill of new Set<string>(['', ...skills])) this.provide(siteId, 'crew', skill, shifts, 1);
    for (const { id, open, areaDm2 } of problem.places) {
      const room = this.roomOfPlace.get(id)!;
      this.provide(room.siteId, 'drying-area', room.id, open, areaDm2);
    }
    for (const { id, siteId, removalGPerSlot } of problem.rooms) for (const interval of removalGPerSlot) this.provide(siteId, 'room-air', id, [interval], interval.limit);
    for (const { id, siteId, open, volumeCl } of problem.freezers) this.provide(siteId, 'freezer', id, open, volumeCl);
  }

  enterFixed(): void {
    for (const use of this.problem.fixed) {
      if (use.stationId !== null) this.useStation(use.stationId, use.interval);
      for (const id of use.personIds) this.usePerson(id, use.interval);
      if (use.dryingPlaceId !== null) this.useDrying(use.dryingPlaceId, use.areaDm2, use.loadGPerSlot, use.interval);
      if (use.freezerId !== null) this.useFreezer(use.freezerId, use.volumeCl, use.interval);
    }
  }

  enterPlan(plan: Plan): void {
    const items = new Map(this.problem.items.map((item) => [item.id, item]));
    for (const { itemId, disposition, position, stationId, personIds, dryingPlaceId, freezerId, startSlot, endSlot } of plan.assignments) {
      const step = items.get(itemId)?.options.find((option) => option.disposition === disposition)?.steps[position];
      const interval = { from: startSlot, to: endSlot };
      if (stationId !== null) this.useStation(stationId, interval);
      for (const id of personIds) this.usePerson(id, interval);
      if (dryingPlaceId !== null) this.useDrying(dryingPlaceId, step?.drying?.areaDm2 ?? 0, step?.drying?.loadGPerSlot ?? 0, interval);
      if (freezerId !== null) this.useFreezer(freezerId, step?.freezer?.volumeCl ?? 0, { from: endSlot, to: this.problem.horizonSlots });
    }
  }

  report(periodSlots: number): ResourceUse[] {
    const keys = [...this.accounts.keys()].sort();
    return keys.map((key) => {
      const { siteId, kind, what, used, available } = this.accounts.get(key)!;
      const periods: UsePeriod[] = [];
      for (let from = 0; from < used.length; from += periodSlots) periods.push(period(used, available, from, Math.min(from + periodSlots, used.length)));
      return { siteId, kind, what, total: period(used, available, 0, used.length), periods };
    });
  }

  private useStation(id: string, interval: Interval): void {
    const station = this.stations.get(id);
    if (station !== undefined) for (const kind of new Set(station.steps)) this.take(station.siteId, 'station', kind, interval, 1);
  }

  private usePerson(id: string, interval: Interval): void {
    const person = this.people.get(id);
    if (person !== undefined) for (const skill of new Set<string>(['', ...person.skills])) this.take(person.siteId, 'crew', skill, interval, 1);
  }

  private useDrying(placeId: string, areaDm2: number, loadG: number, interval: Interval): void {
    const room = this.roomOfPlace.get(placeId);
    if (room === undefined) return;
    this.take(room.siteId, 'drying-area', room.id, interval, areaDm2);
    this.take(room.siteId, 'room-air', room.id, interval, loadG);
  }

  private useFreezer(id: string, volumeCl: number, interval: Interval): void {
    const freezer = this.freezers.get(id);
    if (freezer !== undefined) this.take(freezer.siteId, 'freezer', id, interval, volumeCl);
  }

  private provide(siteId: string, kind: Account['kind'], what: string, open: readonly Interval[], amount: number): void {
    const { available } = this.account(siteId, kind, what);
    openMask(open, this.problem.horizonSlots).forEach((isOpen, slot) => { if (isOpen === 1) available[slot] = available[slot]! + amount; });
  }

  private take(siteId: string, kind: Account['kind'], what: string, { from, to }: Interval, amount: number): void {
    const { used } = this.account(siteId, kind, what);
    const end = clip(to, used.length);
    for (let slot = clip(from, used.length); slot < end; slot += 1) used[slot] = used[slot]! + amount;
  }

  private account(siteId: string, kind: Account['kind'], what: string): Account {
    const key = JSON.stringify([siteId, kind, what]);
    const known = this.accounts.get(key);
    if (known !== undefined) return known;
    const { horizonSlots } = this.problem;
    const account = { siteId, kind, what, used: new Float64Array(horizonSlots), available: new Float64Array(horizonSlots) };
    this.accounts.set(key, account);
    return account;
  }
}

function period(usedBySlot: Float64Array, availableBySlot: Float64Array, from: number, to: number): UsePeriod {
  let used = 0;
  let available = 0;
  for (let slot = from; slot < to; slot += 1) {
    used += usedBySlot[slot]!;
    available += availableBySlot[slot]!;
  }
  return { from, to, used, available, permille: available === 0 ? 0 : Math.round((1000 * used) / available) };
}
