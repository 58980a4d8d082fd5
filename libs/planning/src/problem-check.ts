/** Refuses malformed problems before anything is planned, with a sentence for every fault. */
import type { FixedUse, PlanProblem, PreviousPlan } from './types.js';
import { Faults, MOST, MOST_SLOTS, type ProblemFault, Where } from './problem-faults.js';
import { checkFalling, checkItem } from './problem-items.js';

export type { ProblemFault } from './problem-faults.js';

/** Thrown when a problem or budget is malformed; carries all faults. */
export class MalformedPlanProblem extends Error {
  constructor(readonly faults: readonly ProblemFault[]) {
    super(`The planning problem is malformed: ${faults.slice(0, 3).map(({ path, text }) => `${path} ${text}`).join('; ')}${faults.length > 3 ? `; and ${faults.length - 3} more` : ''}.`);
    this.name = 'MalformedPlanProblem';
  }
}

const MOST_FIXED_IN_ALL = 900_000_000;

/** Throws when `checkProblem` finds a fault. */
export function assertProblem(problem: PlanProblem): void {
  const faults = checkProblem(problem);
  if (faults.length > 0) throw new MalformedPlanProblem(faults);
}

/** Throws when the seed is no 32-bit whole number, or the budget is neither rounds of at least 0 nor milliseconds above 0. */
export function assertBudget(budget: { seed: number; orders?: number } & ({ iterations: number } | { milliseconds: number; mostIterations?: number })): void {
  const faults = new Faults();
  const where = Where.top.in('budget');
  faults.whole(where, 'seed', budget.seed, -(2 ** 31), 2 ** 31 - 1);
  faults.whole(where, 'orders', budget.orders ?? 1, 1, 1000);
  if ('iterations' in budget) faults.whole(where, 'iterations', budget.iterations, 0, Number.MAX_SAFE_INTEGER);
  else {
    if (!(budget.milliseconds > 0)) faults.add(where.in('milliseconds'), `must be above 0, not ${String(budget.milliseconds)}`);
    faults.whole(where, 'mostIterations', budget.mostIterations ?? 0, 0, Number.MAX_SAFE_INTEGER);
  }
  if (faults.found.length > 0) throw new MalformedPlanProblem(faults.found);
}

/**
 * All faults of a problem; empty when it can be planned. Steps that merely cannot be served are no faults, and neither are
 * barred stations and previous steps that name what has gone since.
 */
export function checkProblem(problem: PlanProblem): ProblemFault[] {
  const faults = new Faults();
  const { top } = Where;
  faults.whole(top, 'originMs', problem.originMs, Number.MIN_SAFE_INTEGER, Number.MAX_SAFE_INTEGER);
  faults.whole(top, 'slotMinutes', problem.slotMinutes, 1, 1440);
  checkHorizon(faults, problem);
  faults.oneOf(top, 'late', problem.late, ['list', 'plan']);
  if (problem.tardinessCapSlots !== undefined) faults.whole(top, 'tardinessCapSlots', problem.tardinessCapSlots, 1, MOST_SLOTS);
  checkResources(faults, problem);
  const services = checkServices(faults, problem);
  const companies = checkCompanies(faults, problem);
  faults.ids('items', problem.items);
  problem.items.forEach((item, i) => { checkItem(faults, top.in('items', i), item, { services, companies }); });
  // Each route further down counts like another horizon of waiting.
  const weight = problem.items.reduce((sum, item) => sum + item.weight * Math.max(1, item.options.length), 0);
  if (weight * Math.max(problem.horizonSlots, problem.tardinessCapSlots ?? 0) > Number.MAX_SAFE_INTEGER) faults.add(top.in('items'), 'weigh too much together to be summed exactly; scale the weights down');
  checkFixed(faults, problem, { services, companies });
  if (problem.previous !== undefined) checkPrevious(faults, problem.previous);
  return faults.found;
}

function checkHorizon(faults: Faults, { horizonSlots, slotMinutes }: PlanProblem): void {
  if (Number.isSafeInteger(horizonSlots) && horizonSlots > MOST_SLOTS) {
    const days = Math.round((horizonSlots * slotMinutes) / 1440);
    faults.add(Where.top.in('horizonSlots'), `must be at most ${MOST_SLOTS}, not ${horizonSlots}, which is ${days} days of ${slotMinutes} minute slots; plan a nearer stretch of time or take longer slots`);
  } else faults.whole(Where.top, 'horizonSlots', horizonSlots, 1, MOST_SLOTS);
}

function checkResources(faults: Faults, problem: PlanProblem): void {
  const { top } = Where;
  faults.ids('stations', problem.stations);
  problem.stations.forEach((station, i) => {
    faults.amount(top.in('stations', i), 'capacity', station.capacity);
    faults.intervals(top.in('stations', i), 'open', station.open);
  });
  faults.ids('people', problem.people);
  problem.people.forEach((person, i) => {
    faults.intervals(top.in('people', i), 'shifts', person.shifts);
    faults.amount(top.in('people', i), 'fitUntilSlot', person.fitUntilSlot ?? 0);
  });
  const rooms = faults.ids('rooms', problem.rooms);
  problem.rooms.forEach(({ removalGPerSlot }, i) => {
    const where = top.in('rooms', i);
    faults.intervals(where, 'removalGPerSlot', removalGPerSlot);
    removalGPerSlot.forEach(({ limit }, k) => { faults.amount(where.in('removalGPerSlot', k), 'limit', limit); });
    faults.disjoint(where.in('removalGPerSlot'), removalGPerSlot);
  });
  faults.ids('places', problem.places);
  problem.places.forEach((place, i) => {
    faults.known(top.in('places', i).in('roomId'), place.roomId, rooms, 'drying room');
    faults.amount(top.in('places', i), 'areaDm2', place.areaDm2);
    faults.intervals(top.in('places', i), 'open', place.open);
  });
  faults.ids('freezers', problem.freezers);
  problem.freezers.forEach((freezer, i) => {
    faults.amount(top.in('freezers', i), 'volumeCl', freezer.volumeCl);
    faults.intervals(top.in('freezers', i), 'open', freezer.open);
  });
}

function checkServices(faults: Faults, { services = [] }: PlanProblem): ReadonlySet<string> {
  services.forEach(({ kind, capacity, open }, i) => {
    const where = Where.top.in('services', i);
    faults.oneOf(where, 'kind', kind, ['courier', 'specialist']);
    faults.amount(where, 'capacity', capacity);
    faults.intervals(where, 'open', open);
  });
  return faults.ids('services', services);
}

/** Those that keep nothing away may stand there, as the things that a list would name may all have gone. */
function checkCompanies(faults: Faults, { companies = [], places }: PlanProblem): ReadonlySet<string> {
  const ids = faults.ids('companies', companies);
  companies.forEach(({ notWith }, i) => {
    for (const [closeness, others] of Object.entries(notWith)) {
      const where = Where.top.in('companies', i).in('notWith');
      faults.oneOf(where, 'closeness', closeness, ['tiers', 'side-by-side', 'frozen']);
      others.forEach((other, k) => { faults.known(where.in(closeness, k), other, ids, 'company'); });
    }
  });
  places.forEach(({ closeness }, i) => { faults.oneOf(Where.top.in('places', i), 'closeness', closeness, ['tiers', 'side-by-side']); });
  return ids;
}

function checkFixed(faults: Faults, problem: PlanProblem, { services, companies }: { services: ReadonlySet<string>; companies: ReadonlySet<string> }): void {
  const stations = new Set(problem.stations.map(({ id }) => id));
  const people = new Set(problem.people.map(({ id }) => id));
  const places = new Set(problem.places.map(({ id }) => id));
  const freezers = new Set(problem.freezers.map(({ id }) => id));
  const sums = { areaDm2: 0, loadGPerSlot: 0, volumeCl: 0 };
  problem.fixed.forEach((use: FixedUse, i) => {
    const where = Where.top.in('fixed', i);
    // A use that has begun may have begun before the origin.
    faults.interval(where.in('interval'), use.interval, -MOST);
    if (use.stationId !== null) faults.known(where.in('stationId'), use.stationId, stations, 'station');
    use.personIds.forEach((id, k) => { faults.known(where.in('personIds', k), id, people, 'person'); });
    if (use.dryingPlaceId !== null) faults.known(where.in('dryingPlaceId'), use.dryingPlaceId, places, 'drying place');
    if (use.freezerId !== null) faults.known(where.in('freezerId'), use.freezerId, freezers, 'freezer');
    use.services?.forEach(({ serviceId, units }, k) => {
      faults.known(where.in('services', k).in('serviceId'), serviceId, services, 'service');
      faults.amount(where.in('services', k), 'units', units);
    });
    if (use.company !== undefined) faults.known(where.in('company'), use.company, companies, 'company');
    if (use.falling !== undefined) checkFalling(faults, where, use.loadGPerSlot, use.falling);
    for (const name of ['areaDm2', 'loadGPerSlot', 'volumeCl'] as const) {
      faults.amount(where, name, use[name]);
      sums[name] += use[name];
    }
  });
  for (const [name, sum] of Object.entries(sums)) if (sum > MOST_FIXED_IN_ALL) faults.add(Where.top.in('fixed'), `takes more ${name} in all than can be counted exactly (${MOST_FIXED_IN_ALL})`);
}

/** What it names may have gone since; only its slots have to make sense. */
function checkPrevious(faults: Faults, { steps, holdBeforeSlot }: PreviousPlan): void {
  const previous = Where.top.in('previous');
  faults.whole(previous, 'holdBeforeSlot', holdBeforeSlot, -MOST, MOST);
  steps.forEach(({ itemId, startSlot, endSlot }, i) => {
    const where = previous.in('steps', i);
    if (itemId === '') faults.add(where.in('itemId'), 'must not be empty');
    faults.whole(where, 'startSlot', startSlot, -MOST, MOST);
    faults.whole(where, 'endSlot', endSlot, -MOST, MOST);
    if (endSlot < startSlot) faults.add(where, `must not end before it begins, but runs from ${startSlot} to ${endSlot}`);
  });
}
