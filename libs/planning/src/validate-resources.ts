/** The part of plan validation that concerns resources; like the rest it shares no code with the planner. */
import type { FallingLoad, Interval, PlanAssignment, PlanPerson, PlanProblem, PlanService, PlanStation, PlanStep, PlanViolation } from './types.js';
import { Batches } from './validate-batches.js';
import { CompanyBook } from './validate-company.js';
import { Calendar, Ledger } from './validate-ledger.js';
import { type ItemRoute, stayAfter, stepOf } from './validate-route.js';

/** A resource with its position in the problem, which is also that of its account. */
interface Known<T> { is: T; index: number; calendar: Calendar }

/**
 * Rules: station-missing, station-unsuited, station-barred, station-closed, station-capacity, crew-size, crew-skill,
 * crew-restriction, crew-fit, crew-off-shift, heat, person-twice, place-missing, place-closed, drying-area, room-air,
 * freezer-missing, freezer-closed, freezer-short, freezer-volume, service-closed, service-capacity, batch-unsuited, batch-groups, batch-mixed,
 * batch-overfull, company, other-site, not-needed. A fixed use that alone overdraws a resource is a fact and no violation; planning
 * anything on top of it is one. Things of one batch take one station unit and one crew together, and services each for themselves.
 */
export function resourceViolations(problem: PlanProblem, routes: ReadonlyMap<string, ItemRoute>): PlanViolation[] {
  return new ResourceCheck(problem).run(routes);
}

class ResourceCheck {
  private readonly violations: PlanViolation[] = [];
  private readonly batches = new Batches();
  private readonly companies: CompanyBook;
  private readonly stations;
  private readonly people;
  private readonly places;
  private readonly rooms;
  private readonly freezers;
  private readonly services;
  private readonly books;

  constructor(private readonly problem: PlanProblem) {
    const { stations, people, places, rooms, freezers, services = [], horizonSlots } = problem;
    this.stations = known(stations, ({ open }) => open);
    this.people = known(people, ({ shifts }) => shifts);
    this.places = known(places, ({ open }) => open);
    this.rooms = known(rooms, () => []);
    this.freezers = known(freezers, ({ open }) => open);
    this.services = known(services, ({ open }) => open);
    const book = (list: readonly unknown[]): Ledger => new Ledger(list.length, horizonSlots);
    this.books = { stations: book(stations), people: book(people), areas: book(places), air: book(rooms), freezers: book(freezers), services: book(services) };
    this.companies = new CompanyBook(problem);
    this.enterFixed();
  }

  run(routes: ReadonlyMap<string, ItemRoute>): PlanViolation[] {
    for (const { item, ordered } of routes.values()) {
      for (let k = 0; k < ordered.length; k += 1) {
        const step = stepOf(item, ordered[k]!);
        // Without a step to compare with, the item rules have already spoken.
        if (step !== undefined) this.step(ordered, k, step, step.siteId ?? item.siteId);
      }
    }
    for (const { batchId, first, units, mostUnits } of this.batches.overfull()) this.report('batch-overfull', first, batchId, `is in batch ${batchId}, which holds ${units} units instead of at most ${mostUnits}`);
    for (const { hostId, assignment, other } of this.companies.bad()) this.report('company', assignment, hostId, `lies at ${hostId} with things of company ${other}, which it must not be with`);
    this.capacities();
    return this.violations;
  }

  private step(ordered: readonly PlanAssignment[], k: number, step: PlanStep, siteId: string): void {
    const assignment = ordered[k]!;
    this.handsOn(assignment, step, siteId);
    this.drying(assignment, step, siteId);
    if (step.services !== undefined) for (const { serviceId, units } of step.services) this.service(assignment, serviceId, units);
    if (step.freezer !== null) this.freezing(ordered, k, step, siteId);
    else if (assignment.freezerId !== null) this.report('not-needed', assignment, assignment.freezerId, 'is given a freezer although it does not freeze');
  }

  private enterFixed(): void {
    const { books, problem } = this;
    for (const use of problem.fixed) {
      const { interval } = use;
      for (const id of use.personIds) books.people.fix(this.people.get(id)!.index, interval, 1);
      if (use.stationId !== null) books.stations.fix(this.stations.get(use.stationId)!.index, interval, 1);
      if (use.freezerId !== null) books.freezers.fix(this.freezers.get(use.freezerId)!.index, interval, use.volumeCl);
      for (const { serviceId, units } of use.services ?? []) books.services.fix(this.services.get(serviceId)!.index, interval, units);
      if (use.dryingPlaceId === null) continue;
      const place = this.places.get(use.dryingPlaceId)!;
      const room = this.rooms.get(place.is.roomId)!.index;
      books.areas.fix(place.index, interval, use.areaDm2);
      eachLoad(interval, use.loadGPerSlot, use.falling, (span, load) => { books.air.fix(room, span, load); });
    }
  }

  /** Station and crew, of its own or those of its batch. */
  private handsOn(assignment: PlanAssignment, step: PlanStep, siteId: string): void {
    const { shares, rule, what } = this.batches.enter(assignment, step);
    if (rule !== undefined) this.report(rule, assignment, assignment.batchId, what!);
    this.station(assignment, step, siteId, shares ? 0 : 1);
    this.crew(assignment, step, siteId, shares ? 0 : 1);
  }

  private station(assignment: PlanAssignment, step: PlanStep, siteId: string, units: number): void {
    const { stationId, startSlot, endSlot } = assignment;
    if (step.drying !== null || step.noStation === true) {
      if (stationId !== null) this.report('not-needed', assignment, stationId, 'is given a station although it needs none');
      return;
    }
    const station = stationId === null ? undefined : this.stations.get(stationId);
    if (station === undefined) return this.report('station-missing', assignment, stationId, 'has no station of this problem');
    const { id } = station.is;
    this.sameSite(assignment, id, station.is.siteId, siteId);
    if (!suits(station.is, step)) this.report('station-unsuited', assignment, id, `is given station ${id}, which does not do ${step.step} in zone ${step.zone}`);
    if (step.barredStationIds?.includes(id) === true) this.report('station-barred', assignment, id, `is given station ${id}, which is ruled out for it`);
    if (!station.calendar.covers(startSlot, endSlot)) this.report('station-closed', assignment, id, `uses station ${id} while it is closed`);
    this.books.stations.enter(station.index, startSlot, endSlot, units);
  }

  private crew(assignment: PlanAssignment, step: PlanStep, siteId: string, units: number): void {
    const { personIds, startSlot, endSlot } = assignment;
    if (startSlot < (step.coolFromSlot ?? 0)) this.report('heat', assignment, null, `begins at ${startSlot}, when it is too hot for people until ${step.coolFromSlot}`);
    if (personIds.length !== step.crew) this.report('crew-size', assignment, null, `has ${personIds.length} people instead of ${step.crew}`);
    for (const id of personIds) {
      const person = this.people.get(id);
      if (person === undefined) {
        this.report('crew-size', assignment, id, `names person ${id}, who is not part of the problem`);
        continue;
      }
      this.person(assignment, step, siteId, person);
      this.books.people.enter(person.index, startSlot, endSlot, units);
    }
  }

  private person(assignment: PlanAssignment, step: PlanStep, siteId: string, { is: person, calendar }: Known<PlanPerson>): void {
    this.sameSite(assignment, person.id, person.siteId, siteId);
    if (step.skill !== null && !person.skills.includes(step.skill)) this.report('crew-skill', assignment, person.id, `needs ${step.skill}, which person ${person.id} lacks`);
    const barred = step.barredRestrictions.find((restriction) => person.restrictions.includes(restriction));
    if (barred !== undefined) this.report('crew-restriction', assignment, person.id, `is barred to person ${person.id}, who declared ${barred}`);
    if (step.needsFit === true && assignment.startSlot >= (person.fitUntilSlot ?? 0)) this.report('crew-fit', assignment, person.id, `asks for a fitted respirator, which person ${person.id} does not have then`);
    if (!calendar.covers(assignment.startSlot, assignment.endSlot)) this.report('crew-off-shift', assignment, person.id, `uses person ${person.id} off shift`);
  }

  private drying(assignment: PlanAssignment, step: PlanStep, siteId: string): void {
    const { dryingPlaceId, startSlot, endSlot } = assignment;
    if (step.drying === null) {
      if (dryingPlaceId !== null) this.report('not-needed', assignment, dryingPlaceId, 'is given a drying place although it does not dry');
      return;
    }
    const place = dryingPlaceId === null ? undefined : this.places.get(dryingPlaceId);
    const room = place && this.rooms.get(place.is.roomId);
    if (place === undefined || room === undefined) return this.report('place-missing', assignment, dryingPlaceId, 'has no drying place of this problem');
    this.sameSite(assignment, place.is.id, room.is.siteId, siteId);
    if (!place.calendar.covers(startSlot, endSlot)) this.report('place-closed', assignment, place.is.id, `uses drying place ${place.is.id} while it is closed`);
    this.books.areas.enter(place.index, startSlot, endSlot, step.drying.areaDm2);
    this.companies.enter(`place ${place.is.id}`, step.company, { from: startSlot, to: endSlot }, assignment);
    eachLoad({ from: startSlot, to: endSlot }, step.drying.loadGPerSlot, step.drying.falling, ({ from, to }, load) => { this.books.air.enter(room.index, from, to, load); });
  }

  private freezing(ordered: readonly PlanAssignment[], k: number, { company, freezer: frozen }: PlanStep, siteId: string): void {
    const { volumeCl, leastSlots = 1 } = frozen!;
    const assignment = ordered[k]!;
    const { freezerId } = assignment;
    const freezer = freezerId === null ? undefined : this.freezers.get(freezerId);
    if (freezer === undefined) return this.report('freezer-missing', assignment, freezerId, 'has no freezer of this problem');
    const { id, siteId: site } = freezer.is;
    this.sameSite(assignment, id, site, siteId);
    const { from, to } = stayAfter(this.problem, ordered, k);
    // What stays to the end of the plan only has to be in before it.
    const least = k === ordered.length - 1 ? 1 : leastSlots;
    if (to - from < least) this.report('freezer-short', assignment, id, `lies in freezer ${id} from ${from} to ${to} instead of at least ${least} slots`);
    if (!freezer.calendar.covers(from, to)) this.report('freezer-closed', assignment, id, `needs freezer ${id} from ${from} to ${to}, when it is not always there`);
    this.books.freezers.enter(freezer.index, from, to, volumeCl);
    this.companies.enter(`freezer ${id}`, company, { from, to }, assignment);
  }

  private service(assignment: PlanAssignment, serviceId: string, units: number): void {
    const service = this.services.get(serviceId)!;
    const { startSlot, endSlot } = assignment;
    if (!service.calendar.covers(startSlot, endSlot)) this.report('service-closed', assignment, serviceId, `uses ${nameOf(service.is)} while it is not there`);
    this.books.services.enter(service.index, startSlot, endSlot, units);
  }

  private capacities(): void {
    const { books, problem } = this;
    problem.people.forEach(({ id }, i) => { this.overdrawn('person-twice', id, 'is in two places', books.people.firstOverdrawn(i, 1)); });
    problem.stations.forEach(({ id, capacity }, i) => { this.overdrawn('station-capacity', id, 'has more work than places', books.stations.firstOverdrawn(i, capacity)); });
    problem.places.forEach(({ id, areaDm2 }, i) => { this.overdrawn('drying-area', id, 'holds more than its area', books.areas.firstOverdrawn(i, areaDm2)); });
    problem.freezers.forEach(({ id, volumeCl }, i) => { this.overdrawn('freezer-volume', id, 'holds more than its volume', books.freezers.firstOverdrawn(i, volumeCl)); });
    (problem.services ?? []).forEach((service, i) => { this.overdrawn('service-capacity', service.id, `(${service.kind}) has more to do than it can`, books.services.firstOverdrawn(i, service.capacity)); });
    const limit = new Float64Array(problem.horizonSlots);
    problem.rooms.forEach(({ id, removalGPerSlot }, i) => {
      limit.fill(0);
      for (const { from, to, limit: removalG } of removalGPerSlot) limit.fill(removalG, from, to);
      this.overdrawn('room-air', id, 'has more water than its air takes away', books.air.firstOverdrawn(i, limit));
    });
  }

  private overdrawn(rule: string, id: string, what: string, slot: number | null): void {
    if (slot !== null) this.violations.push({ rule, itemId: null, resourceId: id, slot, text: `${id} ${what} at slot ${slot}.` });
  }

  private sameSite(assignment: PlanAssignment, resourceId: string, site: string, stepSite: string): void {
    if (site !== stepSite) this.report('other-site', assignment, resourceId, `is at site ${stepSite} but uses ${resourceId} at site ${site}`);
  }

  private report(rule: string, { itemId, position, startSlot }: PlanAssignment, resourceId: string | null, what: string): void {
    this.violations.push({ rule, itemId, resourceId, slot: startSlot, text: `Step ${position} of item ${itemId} ${what}.` });
  }
}

function known<T extends { id: string }>(list: readonly T[], open: (entry: T) => readonly Interval[]): Map<string, Known<T>> {
  return new Map(list.map((is, index) => [is.id, { is, index, calendar: new Calendar(open(is)) }]));
}

function suits(station: PlanStation, step: PlanStep): boolean {
  return station.zone === step.zone && station.steps.some((kind) => kind === step.step);
}

function nameOf({ kind, id }: PlanService): string {
  return `${kind} ${id}`;
}

/** The stretches of a drying and the water that it gives the air per slot in each of them. */
function eachLoad({ from, to }: Interval, loadGPerSlot: number, falling: readonly FallingLoad[] | undefined, visit: (span: Interval, load: number) => void): void {
  let begin = from;
  let load = loadGPerSlot;
  for (const next of falling ?? []) {
    const end = Math.min(to, from + next.fromSlot);
    if (begin < end) visit({ from: begin, to: end }, load);
    begin = Math.max(begin, end);
    load = next.loadGPerSlot;
  }
  if (begin < to) visit({ from: begin, to }, load);
}
