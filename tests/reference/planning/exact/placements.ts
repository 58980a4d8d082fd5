/**
 * Every way to do one item, from the problem statement in `types.ts` alone and sharing no code with the planner: for each route
 * every start of every step with every station, crew, place, freezer and batch. Interchangeable ones are tried once.
 */
import type { PlanAssignment, PlanItem, PlanOption, PlanPerson, PlanProblem, PlanStep } from '#planning';
import { type Account, Ledger, loadAt } from './ledger.js';

interface Batch { id: string; group: string; step: string; stationId: string | null; personIds: string[]; crew: number; from: number; to: number; units: number; most: number }

/** What one item adds to the parts of the objective: weight late, weighted tardiness, weighted completion. */
export type Cost = readonly [late: number, tardiness: number, completion: number];

/** Called with the item done one way, which holds while the call lasts; true to look at no other. */
export type Visit = (cost: Cost, assignments: readonly PlanAssignment[]) => boolean;

/** Steps done so far on the way through a route. */
interface Way { option: number; at: number; free: number; done: PlanAssignment[]; frozenSince: number | null; frozenId: string | null; frozen: number; cost: Cost | null }

export class Placements {
  readonly ledger: Ledger;
  private readonly batches: Batch[] = [];
  private named = 0;
  private readonly cap: number;

  constructor(private readonly problem: PlanProblem) {
    this.ledger = new Ledger(problem);
    this.cap = problem.tardinessCapSlots ?? problem.horizonSlots;
  }

  /** What is taken and which batches are open. */
  get state(): string {
    return `${this.ledger.state}|${this.batches.map((batch) => `${batch.group},${batch.step},${batch.stationId},${batch.personIds.join('+')},${batch.crew},${batch.from},${batch.to},${batch.units},${batch.most}`).sort().join(';')}`;
  }

  /** Cost of leaving the item out. */
  leftOut({ weight }: PlanItem): Cost {
    return [weight, weight * this.cap, 0];
  }

  /** All ways to do the item now; `worth` may cut a way off as soon as its cost is known. */
  visit(item: PlanItem, worth: (cost: Cost) => boolean, visit: Visit): boolean {
    const begun = this.problem.fixed.filter((use) => use.itemId === item.id && (use.stationId !== null || use.dryingPlaceId !== null || use.personIds.length > 0));
    const free = Math.max(item.releaseSlot, ...begun.map(({ interval }) => interval.to));
    return item.options.some((option, index) => option.steps.some(({ stabilises }) => stabilises !== null)
      && this.step(item, option, { option: index, at: 0, free, done: [], frozenSince: null, frozenId: null, frozen: 0, cost: null }, worth, visit));
  }

  private step(item: PlanItem, option: PlanOption, way: Way, worth: (cost: Cost) => boolean, visit: Visit): boolean {
    const step = option.steps[way.at];
    if (step === undefined) return visit(way.cost!, way.done);
    const most = Math.min(step.notAfterSlot ?? Infinity, this.problem.horizonSlots - step.durationSlots);
    for (let start = Math.max(way.free, step.coolFromSlot ?? 0); start <= most; start += 1) {
      // Beginning later never costs less, so the first start that is too dear ends the row.
      const least = way.cost ?? this.leastCost(item, option, way, start);
      if (least === null || !worth(least)) return false;
      if (this.thaw(way, option, start, (frozen) => this.begin(item, option, { ...way, frozen }, start, worth, visit))) return true;
    }
    return false;
  }

  /** The least that the way can cost when its next step, before stabilisation, begins at the slot; null when it is too late for a plan. */
  private leastCost(item: PlanItem, { steps }: PlanOption, way: Way, start: number): Cost | null {
    const stabilising = steps.findIndex(({ stabilises }) => stabilises !== null);
    let moment = start;
    for (let at = way.at; at < stabilising; at += 1) moment += steps[at]!.durationSlots;
    if (steps[stabilising]!.stabilises === 'end') moment += steps[stabilising]!.durationSlots;
    if (steps.slice(way.at, stabilising).some(({ freezer }) => freezer !== null)) return [0, 0, this.completion(item.weight, way.option, moment)];
    return this.costAt(item, way.option, moment, way.frozen + (way.frozenSince === null ? 0 : start - way.frozenSince));
  }

  /** The item lies in its freezer until the step begins. */
  private thaw(way: Way, option: PlanOption, start: number, then: (frozen: number) => boolean): boolean {
    if (way.frozenSince === null) return then(way.frozen);
    const { company, freezer } = option.steps[way.at - 1]!;
    const { volumeCl, leastSlots } = freezer!;
    const { frozenSince } = way;
    const account = this.ledger.freezers.get(way.frozenId!)!;
    if (start - frozenSince < Math.max(1, leastSlots ?? 1) || !account.fits(frozenSince, start, volumeCl)) return false;
    return this.lying(way.frozenId!, company, frozenSince, start, () => holding(account, frozenSince, start, volumeCl, () => then(way.frozen + start - frozenSince)));
  }

  private begin(item: PlanItem, option: PlanOption, way: Way, start: number, worth: (cost: Cost) => boolean, visit: Visit): boolean {
    const step = option.steps[way.at]!;
    const end = start + step.durationSlots;
    let { cost } = way;
    if (cost === null && step.stabilises !== null) {
      cost = this.costAt(item, way.option, step.stabilises === 'start' ? start : end, way.frozen);
      if (cost === null || !worth(cost)) return false;
    }
    const siteId = step.siteId ?? item.siteId;
    return this.services(step, start, end, () => this.hands(step, siteId, start, end, (stationId, personIds, batchId) => this.dry(step, siteId, start, end, (dryingPlaceId) =>
      this.freeze(step, siteId, end, way.at === option.steps.length - 1, (freezerId) => {
        const done: PlanAssignment = { itemId: item.id, option: way.option, position: way.at, step: step.step, disposition: option.disposition, batchId, stationId, personIds, dryingPlaceId, freezerId, startSlot: start, endSlot: end };
        if (!asPinned(item, done)) return false;
        return this.step(item, option, { ...way, at: way.at + 1, free: end, done: [...way.done, done], frozenSince: freezerId === null ? null : end, frozenId: freezerId, cost }, worth, visit);
      }))));
  }

  /** A less preferred route counts like waiting another horizon for each that comes before it. */
  private completion(weight: number, option: number, moment: number): number {
    return weight * (moment + option * this.problem.horizonSlots);
  }

  /** Null when the item may not be planned so late. */
  private costAt({ weight, deadlineSlot }: PlanItem, option: number, moment: number, frozen: number): Cost | null {
    const late = moment - deadlineSlot - frozen;
    const completion = this.completion(weight, option, moment);
    if (late <= 0) return [0, 0, completion];
    return this.problem.late === 'plan' ? [weight, weight * Math.min(this.cap, late), completion] : null;
  }

  private services(step: PlanStep, from: number, to: number, then: () => boolean, index = 0): boolean {
    const need = step.services?.[index];
    if (need === undefined) return then();
    const account = this.ledger.services.get(need.serviceId);
    if (account === undefined || !account.fits(from, to, need.units)) return false;
    return holding(account, from, to, need.units, () => this.services(step, from, to, then, index + 1));
  }

  /** A station and a crew of its own, in a new batch where it can be shared, or those of a batch that is there. */
  private hands(step: PlanStep, siteId: string, from: number, to: number, then: (stationId: string | null, personIds: string[], batchId: string | null) => boolean): boolean {
    const { batch } = step;
    const stations = step.noStation === true || step.drying !== null ? [null] : this.freeStations(step, siteId, from, to);
    for (const stationId of stations) {
      for (const personIds of this.crews(step, siteId, from, to)) {
        const own = (): boolean => (batch === undefined ? then(stationId, personIds, null) : this.newBatch(step, stationId, personIds, from, to, (id) => then(stationId, personIds, id)));
        const withStation = (): boolean => (stationId === null ? own() : holding(this.ledger.stations.get(stationId)!, from, to, 1, own));
        if (holdingAll(personIds.map((id) => this.ledger.people.get(id)!), from, to, withStation)) return true;
      }
    }
    return batch !== undefined && this.joinBatch(step, siteId, from, to, then);
  }

  private newBatch(step: PlanStep, stationId: string | null, personIds: string[], from: number, to: number, then: (id: string) => boolean): boolean {
    const { group, units, mostUnits } = step.batch!;
    if (units > mostUnits) return false;
    this.named += 1;
    const id = `batch-${this.named}`;
    this.batches.push({ id, group, step: step.step, stationId, personIds, crew: step.crew, from, to, units, most: mostUnits });
    const stop = then(id);
    this.batches.pop();
    return stop;
  }

  private joinBatch(step: PlanStep, siteId: string, from: number, to: number, then: (stationId: string | null, personIds: string[], batchId: string) => boolean): boolean {
    const { group, units, mostUnits } = step.batch!;
    for (const batch of this.batches) {
      const { stationId, personIds } = batch;
      if (batch.group !== group || batch.step !== step.step || batch.from !== from || batch.to !== to || batch.crew !== step.crew) continue;
      if (batch.units + units > Math.min(batch.most, mostUnits) || !this.suits(step, siteId, stationId) || !personIds.every((id) => this.mayWork(this.person(id), step, siteId, from))) continue;
      const { units: before, most } = batch;
      batch.units += units;
      batch.most = Math.min(most, mostUnits);
      const stop = then(stationId, personIds, batch.id);
      batch.units = before;
      batch.most = most;
      if (stop) return true;
    }
    return false;
  }

  private suits(step: PlanStep, siteId: string, stationId: string | null): boolean {
    const station = this.problem.stations.find(({ id }) => id === stationId);
    if (station === undefined) return stationId === null && step.noStation === true;
    return step.noStation !== true && station.siteId === siteId && station.zone === step.zone && (station.steps as string[]).includes(step.step) && !(step.barredStationIds ?? []).includes(station.id);
  }

  private freeStations(step: PlanStep, siteId: string, from: number, to: number): string[] {
    const free = this.problem.stations.filter(({ id }) => this.suits(step, siteId, id) && this.ledger.stations.get(id)!.fits(from, to, 1));
    return distinct(free, (station) => `${[...station.steps].sort().join()} ${this.ledger.stations.get(station.id)!.key} ${this.barredBySome(station.id)}`).map(({ id }) => id);
  }

  private crews(step: PlanStep, siteId: string, from: number, to: number): string[][] {
    const free = this.problem.people.filter((person) => this.mayWork(person, step, siteId, from) && this.ledger.people.get(person.id)!.fits(from, to, 1));
    return distinct(combinations(free, step.crew), (crew) => crew.map((person) => `${person.skills.join()} ${person.restrictions.join()} ${person.fitUntilSlot} ${this.pinnedIn(person.id)} ${this.ledger.people.get(person.id)!.key}`).sort().join('|'))
      .map((crew) => crew.map(({ id }) => id));
  }

  private mayWork(person: PlanPerson, step: PlanStep, siteId: string, start: number): boolean {
    return person.siteId === siteId && (step.skill === null || person.skills.includes(step.skill))
      && !step.barredRestrictions.some((restriction) => person.restrictions.includes(restriction))
      && (step.needsFit !== true || start < (person.fitUntilSlot ?? 0));
  }

  private dry(step: PlanStep, siteId: string, from: number, to: number, then: (dryingPlaceId: string | null) => boolean): boolean {
    const { drying } = step;
    if (drying === null) return then(null);
    const fits = this.problem.places.filter((place) => this.siteOfRoom(place.roomId) === siteId && this.ledger.areas.get(place.id)!.fits(from, to, drying.areaDm2) && this.airFits(place.roomId, drying, from, to));
    return distinct(fits, (place) => `${place.roomId} ${place.closeness} ${this.pinnedIn(place.id)} ${this.ledger.areas.get(place.id)!.key} ${this.ledger.lyingAt(place.id)}`).some((place) => {
      const air = this.ledger.airs.get(place.roomId)!;
      for (let slot = from; slot < to; slot += 1) air.enter(slot, slot + 1, loadAt(drying, slot - from));
      const stop = holding(this.ledger.areas.get(place.id)!, from, to, drying.areaDm2, () => this.lying(place.id, step.company, from, to, () => then(place.id)));
      for (let slot = from; slot < to; slot += 1) air.enter(slot, slot + 1, -loadAt(drying, slot - from));
      return stop;
    });
  }

  private airFits(roomId: string, drying: NonNullable<PlanStep['drying']>, from: number, to: number): boolean {
    const air = this.ledger.airs.get(roomId)!;
    for (let slot = from; slot < to; slot += 1) if (!air.fits(slot, slot + 1, loadAt(drying, slot - from))) return false;
    return true;
  }

  private freeze(step: PlanStep, siteId: string, end: number, last: boolean, then: (freezerId: string | null) => boolean): boolean {
    const { freezer } = step;
    if (freezer === null) return then(null);
    const { horizonSlots } = this.problem;
    const there = this.problem.freezers.filter((entry) => entry.siteId === siteId);
    return distinct(there, ({ id }) => `${this.pinnedIn(id)} ${this.ledger.freezers.get(id)!.key} ${this.ledger.lyingAt(id)}`).some(({ id }) => {
      if (!last) return then(id);
      const account = this.ledger.freezers.get(id)!;
      // The least stay is one until the thaw; what stays to the end only has to be in before it.
      if (end >= horizonSlots || !account.fits(end, horizonSlots, freezer.volumeCl)) return false;
      return this.lying(id, step.company, end, horizonSlots, () => holding(account, end, horizonSlots, freezer.volumeCl, () => then(id)));
    });
  }

  /** At a drying place or in a freezer for some slots, if nothing is there in them that may not be with it. */
  private lying(id: string, company: string | undefined, from: number, to: number, then: () => boolean): boolean {
    if (company === undefined) return then();
    const { companies = [], places } = this.problem;
    const place = places.find((one) => one.id === id);
    const closeness = place === undefined ? 'frozen' : (place.closeness ?? 'side-by-side');
    const against = (one: string, other: string): boolean => companies.find((entry) => entry.id === one)!.notWith[closeness]?.includes(other) === true;
    for (const [other, { used }] of this.ledger.lying.get(id)!) {
      if ((against(company, other) || against(other, company)) && used.slice(from, to).some((count) => count > 0)) return false;
    }
    return holding(this.ledger.lying.get(id)!.get(company)!, from, to, 1, then);
  }

  private siteOfRoom(roomId: string): string | undefined {
    return this.problem.rooms.find(({ id }) => id === roomId)?.siteId;
  }

  private person(id: string): PlanPerson {
    return this.problem.people.find((person) => person.id === id)!;
  }

  /** Ids that a pin or a bar names are not interchangeable with others. */
  private pinnedIn(id: string): string {
    return this.problem.items.some(({ pinned }) => pinned?.some((one) => one.dryingPlaceId === id || one.freezerId === id || one.stationId === id || one.personIds.includes(id))) ? id : '';
  }

  private barredBySome(id: string): string {
    const barred = this.problem.items.some(({ options }) => options.some(({ steps }) => steps.some(({ barredStationIds }) => barredStationIds?.includes(id))));
    return barred ? id : this.pinnedIn(id);
  }
}

function asPinned(item: PlanItem, done: PlanAssignment): boolean {
  if (item.pinned === undefined) return true;
  return item.pinned.some((pin) => pin.option === done.option && pin.position === done.position && pin.stationId === done.stationId && pin.dryingPlaceId === done.dryingPlaceId && pin.freezerId === done.freezerId
    && pin.startSlot === done.startSlot && pin.endSlot === done.endSlot && [...pin.personIds].sort().join() === [...done.personIds].sort().join());
}

function holding(account: Account, from: number, to: number, amount: number, then: () => boolean): boolean {
  account.enter(from, to, amount);
  const stop = then();
  account.enter(from, to, -amount);
  return stop;
}

function holdingAll(accounts: readonly Account[], from: number, to: number, then: () => boolean): boolean {
  const [first, ...rest] = accounts;
  return first === undefined ? then() : holding(first, from, to, 1, () => holdingAll(rest, from, to, then));
}

function combinations<T>(list: readonly T[], size: number): T[][] {
  if (size === 0) return [[]];
  return list.flatMap((entry, index) => combinations(list.slice(index + 1), size - 1).map((rest) => [entry, ...rest]));
}

function distinct<T>(list: readonly T[], key: (entry: T) => string): T[] {
  if (list.length < 2) return [...list];
  const seen = new Set<string>();
  return list.filter((entry) => { const name = key(entry); return !seen.has(name) && seen.add(name); });
}
