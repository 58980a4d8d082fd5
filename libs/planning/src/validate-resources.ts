/** The part of plan validation that concerns resources; like the rest it shares no code with the planner. */
import type { FixedUse, Interval, Plan, PlanAssignment, PlanPerson, PlanProblem, PlanStation, PlanStep, PlanViolation } from './types.js';
import { Ledger } from './validate-ledger.js';

interface Books { people: Ledger; stations: Ledger; areas: Ledger; air: Ledger; freezers: Ledger }

/**
 * Rules: station-missing, station-unsuited, station-closed, station-capacity, crew-size, crew-skill,
 * crew-restriction, crew-fit, crew-off-shift, heat, person-twice, place-missing, place-closed, drying-area, room-air,
 * freezer-missing, freezer-closed, freezer-volume, other-site, not-needed. A fixed use that alone overdraws
 * a resource is a fact and no violation; planning anything on top of it is one.
 */
export function resourceViolations(problem: PlanProblem, plan: Plan): PlanViolation[] {
  return new ResourceCheck(problem).run(plan);
}

class ResourceCheck {
  private readonly violations: PlanViolation[] = [];
  private readonly stations;
  private readonly people;
  private readonly places;
  private readonly rooms;
  private readonly freezers;
  private readonly items;
  private readonly books: Books;

  constructor(private readonly problem: PlanProblem) {
    this.stations = new Map(problem.stations.map((entry) => [entry.id, entry]));
    this.people = new Map(problem.people.map((entry) => [entry.id, entry]));
    this.places = new Map(problem.places.map((entry) => [entry.id, entry]));
    this.rooms = new Map(problem.rooms.map((entry) => [entry.id, entry]));
    this.freezers = new Map(problem.freezers.map((entry) => [entry.id, entry]));
    this.items = new Map(problem.items.map((entry) => [entry.id, entry]));
    const slots = problem.horizonSlots;
    this.books = { people: new Ledger(slots), stations: new Ledger(slots), areas: new Ledger(slots), air: new Ledger(slots), freezers: new Ledger(slots) };
    for (const use of problem.fixed) this.enterFixed(use);
  }

  run(plan: Plan): PlanViolation[] {
    for (const assignment of plan.assignments) {
      const item = this.items.get(assignment.itemId);
      const option = item?.options.find(({ disposition }) => disposition === assignment.disposition);
      const step = option?.steps[assignment.position];
      // Without a step to compare with, the item rules have already spoken.
      if (item === undefined || step === undefined || step.step !== assignment.step) continue;
      this.station(assignment, step, item.siteId);
      this.crew(assignment, step, item.siteId);
      this.drying(assignment, step, item.siteId);
      this.freezing(assignment, step, item.siteId);
    }
    this.capacities();
    return this.violations;
  }

  private enterFixed(use: FixedUse): void {
    const { books } = this;
    for (const id of use.personIds) books.people.fix(id, use.interval, 1);
    if (use.stationId !== null) books.stations.fix(use.stationId, use.interval, 1);
    if (use.dryingPlaceId !== null) {
      books.areas.fix(use.dryingPlaceId, use.interval, use.areaDm2);
      const place = this.places.get(use.dryingPlaceId);
      if (place !== undefined) books.air.fix(place.roomId, use.interval, use.loadGPerSlot);
    }
    if (use.freezerId !== null) books.freezers.fix(use.freezerId, use.interval, use.volumeCl);
  }

  private station(assignment: PlanAssignment, step: PlanStep, siteId: string): void {
    const { stationId } = assignment;
    if (step.drying !== null) {
      if (stationId !== null) this.report('not-needed', assignment, stationId, 'is given a station although it dries');
      return;
    }
    const station = stationId === null ? undefined : this.stations.get(stationId);
    if (station === undefined) return this.report('station-missing', assignment, stationId, 'has no station of this problem');
    this.sameSite(assignment, station.id, station.siteId, siteId);
    if (!suits(station, step)) this.report('station-unsuited', assignment, station.id, `is given station ${station.id}, which does not do ${step.step} in zone ${step.zone}`);
    const span = spanOf(assignment);
    if (!covered(station.open, span)) this.report('station-closed', assignment, station.id, `uses station ${station.id} while it is closed`);
    this.books.stations.enter(station.id, span, 1);
  }

  private crew(assignment: PlanAssignment, step: PlanStep, siteId: string): void {
    const { personIds } = assignment;
    if (assignment.startSlot < (step.coolFromSlot ?? 0)) this.report('heat', assignment, null, `begins at ${assignment.startSlot}, when it is too hot for people until ${step.coolFromSlot}`);
    if (personIds.length !== step.crew) this.report('crew-size', assignment, null, `has ${personIds.length} people instead of ${step.crew}`);
    for (const id of personIds) {
      const person = this.people.get(id);
      if (person === undefined) this.report('crew-size', assignment, id, `names person ${id}, who is not part of the problem`);
      else this.person(assignment, step, siteId, person);
    }
  }

  private person(assignment: PlanAssignment, step: PlanStep, siteId: string, person: PlanPerson): void {
    this.sameSite(assignment, person.id, person.siteId, siteId);
    if (step.skill !== null && !person.skills.includes(step.skill)) this.report('crew-skill', assignment, person.id, `needs ${step.skill}, which person ${person.id} lacks`);
    const barred = step.barredRestrictions.find((restriction) => person.restrictions.includes(restriction));
    if (barred !== undefined) this.report('crew-restriction', assignment, person.id, `is barred to person ${person.id}, who declared ${barred}`);
    if (step.needsFit === true && assignment.startSlot >= (person.fitUntilSlot ?? 0)) this.report('crew-fit', assignment, person.id, `asks for a fitted respirator, which person ${person.id} does not have then`);
    const span = spanOf(assignment);
    if (!covered(person.shifts, span)) this.report('crew-off-shift', assignment, person.id, `uses person ${person.id} off shift`);
    this.books.people.enter(person.id, span, 1);
  }

  private drying(assignment: PlanAssignment, step: PlanStep, siteId: string): void {
    const { dryingPlaceId } = assignment;
    if (step.drying === null) {
      if (dryingPlaceId !== null) this.report('not-needed', assignment, dryingPlaceId, 'is given a drying place although it does not dry');
      return;
    }
    const place = dryingPlaceId === null ? undefined : this.places.get(dryingPlaceId);
    const room = place === undefined ? undefined : this.rooms.get(place.roomId);
    if (place === undefined || room === undefined) return this.report('place-missing', assignment, dryingPlaceId, 'has no drying place of this problem');
    this.sameSite(assignment, place.id, room.siteId, siteId);
    const span = spanOf(assignment);
    if (!covered(place.open, span)) this.report('place-closed', assignment, place.id, `uses drying place ${place.id} while it is closed`);
    this.books.areas.enter(place.id, span, step.drying.areaDm2);
    this.books.air.enter(room.id, span, step.drying.loadGPerSlot);
  }

  private freezing(assignment: PlanAssignment, step: PlanStep, siteId: string): void {
    const { freezerId } = assignment;
    if (step.freezer === null) {
      if (freezerId !== null) this.report('not-needed', assignment, freezerId, 'is given a freezer although it does not freeze');
      return;
    }
    const freezer = freezerId === null ? undefined : this.freezers.get(freezerId);
    if (freezer === undefined) return this.report('freezer-missing', assignment, freezerId, 'has no freezer of this problem');
    this.sameSite(assignment, freezer.id, freezer.siteId, siteId);
    const stay = { from: assignment.endSlot, to: this.problem.horizonSlots };
    if (stay.from >= stay.to || !covered(freezer.open, stay)) this.report('freezer-closed', assignment, freezer.id, `needs freezer ${freezer.id} from ${stay.from} to the end, when it is not always there`);
    this.books.freezers.enter(freezer.id, stay, step.freezer.volumeCl);
  }

  private capacities(): void {
    const { books, problem } = this;
    for (const { id } of problem.people) this.overdrawn('person-twice', books.people, id, () => 1, 'is in two places');
    for (const { id, capacity } of problem.stations) this.overdrawn('station-capacity', books.stations, id, () => capacity, 'has more work than places');
    for (const { id, areaDm2 } of problem.places) this.overdrawn('drying-area', books.areas, id, () => areaDm2, 'holds more than its area');
    for (const { id, volumeCl } of problem.freezers) this.overdrawn('freezer-volume', books.freezers, id, () => volumeCl, 'holds more than its volume');
    for (const { id, removalGPerSlot } of problem.rooms) {
      const limit = (slot: number): number => removalGPerSlot.find(({ from, to }) => from <= slot && slot < to)?.limit ?? 0;
      this.overdrawn('room-air', books.air, id, limit, 'has more water than its air takes away');
    }
  }

  private overdrawn(rule: string, ledger: Ledger, id: string, limit: (slot: number) => number, what: string): void {
    const slot = ledger.firstOverdrawn(id, limit);
    if (slot !== null) this.violations.push({ rule, itemId: null, resourceId: id, slot, text: `${id} ${what} at slot ${slot}.` });
  }

  private sameSite(assignment: PlanAssignment, resourceId: string, site: string, itemSite: string): void {
    if (site !== itemSite) this.report('other-site', assignment, resourceId, `is at site ${itemSite} but uses ${resourceId} at site ${site}`);
  }

  private report(rule: string, { itemId, position, startSlot }: PlanAssignment, resourceId: string | null, what: string): void {
    this.violations.push({ rule, itemId, resourceId, slot: startSlot, text: `Step ${position} of item ${itemId} ${what}.` });
  }
}

function suits(station: PlanStation, step: PlanStep): boolean {
  return station.steps.includes(step.step) && station.zone === step.zone;
}

function spanOf({ startSlot, endSlot }: PlanAssignment): Interval {
  return { from: startSlot, to: endSlot };
}

/** Whether the intervals together cover the whole span. */
function covered(intervals: readonly Interval[], span: Interval): boolean {
  let reached = span.from;
  for (const { from, to } of [...intervals].sort((a, b) => a.from - b.from)) {
    if (from > reached) break;
    reached = Math.max(reached, to);
  }
  return reached >= span.to;
}
