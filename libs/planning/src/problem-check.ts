/** Refuses malformed problems before anything is planned, with a sentence for every fault. */
import type { FixedUse, Interval, PlanItem, PlanOption, PlanProblem } from './types.js';

/** One fault: where it is and what to correct. */
export interface ProblemFault {
  /** Path into the problem, such as `items[3].options[0].steps[2].durationSlots`. */
  path: string;
  text: string;
}

/** Thrown when a problem or budget is malformed; carries all faults. */
export class MalformedPlanProblem extends Error {
  constructor(readonly faults: readonly ProblemFault[]) {
    super(`The planning problem is malformed: ${faults.slice(0, 3).map(({ path, text }) => `${path} ${text}`).join('; ')}${faults.length > 3 ? `; and ${faults.length - 3} more` : ''}.`);
    this.name = 'MalformedPlanProblem';
  }
}

/** Largest amount of anything, so that sums over a slot stay inside 32 bits. */
const MOST = 100_000_000;
const MOST_FIXED_IN_ALL = 900_000_000;
/** 100,000 slots are almost three years of quarter hours. */
const MOST_SLOTS = 100_000;

/** Throws when `checkProblem` finds a fault. */
export function assertProblem(problem: PlanProblem): void {
  const faults = checkProblem(problem);
  if (faults.length > 0) throw new MalformedPlanProblem(faults);
}

/** Throws when the seed is no 32-bit whole number or the iterations are not a whole number of at least 0. */
export function assertBudget(budget: { seed: number; iterations: number }): void {
  const check = new Check();
  check.whole('budget.seed', budget.seed, -(2 ** 31), 2 ** 31 - 1);
  check.whole('budget.iterations', budget.iterations, 0, Number.MAX_SAFE_INTEGER);
  if (check.faults.length > 0) throw new MalformedPlanProblem(check.faults);
}

/** All faults of a problem; empty when it can be planned. Steps that merely cannot be served are no faults. */
export function checkProblem(problem: PlanProblem): ProblemFault[] {
  const check = new Check();
  check.whole('originMs', problem.originMs, Number.MIN_SAFE_INTEGER, Number.MAX_SAFE_INTEGER);
  check.whole('slotMinutes', problem.slotMinutes, 1, 1440);
  check.whole('horizonSlots', problem.horizonSlots, 1, MOST_SLOTS);
  checkResources(check, problem);
  check.ids('items', problem.items);
  problem.items.forEach((item, i) => checkItem(check, `items[${i}]`, item));
  const weight = problem.items.reduce((sum, item) => sum + item.weight, 0);
  if (weight * problem.horizonSlots > Number.MAX_SAFE_INTEGER) check.add('items', 'weigh too much together to be summed exactly; scale the weights down');
  checkFixed(check, problem);
  return check.faults;
}

function checkResources(check: Check, problem: PlanProblem): void {
  check.ids('stations', problem.stations);
  problem.stations.forEach((station, i) => {
    check.amount(`stations[${i}].capacity`, station.capacity);
    check.intervals(`stations[${i}].open`, station.open);
  });
  check.ids('people', problem.people);
  problem.people.forEach((person, i) => {
    check.intervals(`people[${i}].shifts`, person.shifts);
    check.amount(`people[${i}].fitUntilSlot`, person.fitUntilSlot ?? 0);
  });
  check.ids('rooms', problem.rooms);
  problem.rooms.forEach((room, i) => {
    const path = `rooms[${i}].removalGPerSlot`;
    check.intervals(path, room.removalGPerSlot);
    room.removalGPerSlot.forEach(({ limit }, k) => check.amount(`${path}[${k}].limit`, limit));
    check.disjoint(path, room.removalGPerSlot);
  });
  check.ids('places', problem.places);
  const rooms = new Set(problem.rooms.map(({ id }) => id));
  problem.places.forEach((place, i) => {
    check.known(`places[${i}].roomId`, place.roomId, rooms, 'drying room');
    check.amount(`places[${i}].areaDm2`, place.areaDm2);
    check.intervals(`places[${i}].open`, place.open);
  });
  check.ids('freezers', problem.freezers);
  problem.freezers.forEach((freezer, i) => {
    check.amount(`freezers[${i}].volumeCl`, freezer.volumeCl);
    check.intervals(`freezers[${i}].open`, freezer.open);
  });
}

function checkItem(check: Check, path: string, item: PlanItem): void {
  check.whole(`${path}.releaseSlot`, item.releaseSlot, 0, MOST);
  check.whole(`${path}.deadlineSlot`, item.deadlineSlot, -MOST, MOST);
  check.amount(`${path}.weight`, item.weight);
  const dispositions = new Set<string>();
  item.options.forEach((option, i) => {
    // A plan names the chosen route by its disposition, so it must tell the routes of an item apart.
    if (dispositions.has(option.disposition)) check.add(`${path}.options[${i}].disposition`, `"${option.disposition}" is already that of another option of this item`);
    dispositions.add(option.disposition);
    checkOption(check, `${path}.options[${i}]`, option);
  });
}

function checkOption(check: Check, path: string, option: PlanOption): void {
  if (option.steps.length === 0) check.add(`${path}.steps`, 'must hold at least one step; leave the item out when nothing is left to do');
  if (option.steps.filter((step) => step.freezer !== null).length > 1) check.add(`${path}.steps`, 'may freeze only once, as frozen volume stays taken until the horizon');
  option.steps.forEach((step, i) => {
    const at = `${path}.steps[${i}]`;
    check.whole(`${at}.durationSlots`, step.durationSlots, 1, MOST_SLOTS);
    check.whole(`${at}.crew`, step.crew, 0, 1000);
    check.amount(`${at}.coolFromSlot`, step.coolFromSlot ?? 0);
    if (step.drying !== null) {
      check.whole(`${at}.drying.areaDm2`, step.drying.areaDm2, 1, MOST);
      check.amount(`${at}.drying.loadGPerSlot`, step.drying.loadGPerSlot);
      if (step.crew > 0) check.add(`${at}.crew`, 'must be 0 while drying; give the hands-on part a step of its own');
      if (step.freezer !== null) check.add(`${at}.freezer`, 'must be null on a drying step');
    }
    if (step.freezer !== null) check.whole(`${at}.freezer.volumeCl`, step.freezer.volumeCl, 1, MOST);
  });
}

function checkFixed(check: Check, problem: PlanProblem): void {
  const stations = new Set(problem.stations.map(({ id }) => id));
  const people = new Set(problem.people.map(({ id }) => id));
  const places = new Set(problem.places.map(({ id }) => id));
  const freezers = new Set(problem.freezers.map(({ id }) => id));
  const sums = { areaDm2: 0, loadGPerSlot: 0, volumeCl: 0 };
  problem.fixed.forEach((use: FixedUse, i) => {
    const path = `fixed[${i}]`;
    // A use that has begun may have begun before the origin.
    check.interval(`${path}.interval`, use.interval, -MOST);
    if (use.stationId !== null) check.known(`${path}.stationId`, use.stationId, stations, 'station');
    use.personIds.forEach((id, k) => check.known(`${path}.personIds[${k}]`, id, people, 'person'));
    if (use.dryingPlaceId !== null) check.known(`${path}.dryingPlaceId`, use.dryingPlaceId, places, 'drying place');
    if (use.freezerId !== null) check.known(`${path}.freezerId`, use.freezerId, freezers, 'freezer');
    for (const name of ['areaDm2', 'loadGPerSlot', 'volumeCl'] as const) {
      check.amount(`${path}.${name}`, use[name]);
      sums[name] += use[name];
    }
  });
  for (const [name, sum] of Object.entries(sums)) if (sum > MOST_FIXED_IN_ALL) check.add('fixed', `takes more ${name} in all than can be counted exactly (${MOST_FIXED_IN_ALL})`);
}

/** Collects faults. */
class Check {
  readonly faults: ProblemFault[] = [];

  add(path: string, text: string): void {
    this.faults.push({ path, text });
  }

  whole(path: string, value: number, least: number, most: number): void {
    if (!Number.isSafeInteger(value)) this.add(path, `must be a whole number, not ${String(value)}`);
    else if (value < least) this.add(path, `must be at least ${least}, not ${value}`);
    else if (value > most) this.add(path, `must be at most ${most}, not ${value}`);
  }

  amount(path: string, value: number): void {
    this.whole(path, value, 0, MOST);
  }

  interval(path: string, { from, to }: Interval, least = 0): void {
    this.whole(`${path}.from`, from, least, MOST);
    this.whole(`${path}.to`, to, least, MOST);
    if (to <= from) this.add(path, `must end after it begins, but runs from ${from} to ${to}`);
  }

  intervals(path: string, list: readonly Interval[]): void {
    list.forEach((interval, i) => this.interval(`${path}[${i}]`, interval));
  }

  disjoint(path: string, list: readonly Interval[]): void {
    const sorted = [...list].sort((a, b) => a.from - b.from);
    sorted.slice(1).forEach((interval, i) => {
      if (interval.from < sorted[i]!.to) this.add(path, `must not overlap, but two limits hold at slot ${interval.from}`);
    });
  }

  ids(path: string, list: readonly { id: string }[]): void {
    const seen = new Set<string>();
    list.forEach(({ id }, i) => {
      if (id === '') this.add(`${path}[${i}].id`, 'must not be empty');
      if (seen.has(id)) this.add(`${path}[${i}].id`, `"${id}" is used twice`);
      seen.add(id);
    });
  }

  known(path: string, id: string, ids: ReadonlySet<string>, what: string): void {
    if (!ids.has(id)) this.add(path, `names no ${what} of this problem: "${id}"`);
  }
}
