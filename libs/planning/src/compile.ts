/**
 * From the problem to index form: what each step may use, how late it may start, and the order in which
 * items are offered. Everything is sorted by id first, so two inputs that differ in order compile alike.
 */
import type { Disposition } from '#care';
import type { Blocker, PlanItem, PlanOption, PlanProblem, PlanStepKind, PreviousStep } from './types.js';
import { byId } from './calendar.js';
import type { Candidates, CrewChoice, CrewClass, PlaceCandidates } from './candidates.js';
import { StepBook } from './compile-steps.js';
import type { FallingNeed } from './free-slots.js';
import { PreviousCrews, type PreviousUse, previousUses } from './instability.js';
import { type Resources, tabulate } from './resources.js';
import { heldWhole, type Whole, wholes } from './whole-numbers.js';

/** A step that may be shared: with whom, and how much of the batch it takes. */
export interface CompiledBatch { key: string; units: number; mostUnits: number }

/** One step with everything that could serve it; steps with equal needs are one object, whatever their item. */
export interface CompiledStep {
  kind: PlanStepKind;
  /** Empty: any person will do. */
  skill: string;
  duration: number;
  /** Hands-on steps need one of these; `null` for drying and for what needs no station. */
  stations: Candidates | null;
  crew: number;
  crewClass: CrewClass | null;
  /** Who would be there if less were asked of the crew; null where nobody is needed. */
  crewChoice: CrewChoice | null;
  /** First slot in which it is cool enough for people. */
  coolFrom: number;
  /** Last slot in which it may begin, whatever its item; the horizon where nothing limits it. */
  notAfter: number;
  /** Drying steps need one of these. */
  places: PlaceCandidates | null;
  area: number;
  /** Water that the air must take: one amount, or a falling one. */
  need: FallingNeed | number;
  freezers: Candidates | null;
  volume: number;
  /** What is frozen lies there to the horizon, as no step follows. */
  staysToEnd: boolean;
  leastStay: number;
  services: { row: number; units: number }[] | null;
  /** What may lie with it while it dries or lies frozen; `NONE` for anything. */
  company: number;
  batch: CompiledBatch | null;
}

/** Last starts of the steps of all routes, one after the other: a list of its own for each would take more than what it holds. */
export interface LastStarts {
  /** Leaves room for the rest of the route, the deadline and the horizon; the deadline counts as long as the clock runs. */
  inTime: Whole;
  /** The same without the deadline. */
  inHorizon: Whole;
}

/** One care route of an item, ready to be placed. */
export interface CompiledOption {
  /** Its place in the item's list of options. */
  index: number;
  disposition: Disposition;
  steps: CompiledStep[];
  /** Last starts of its steps begin here. */
  at: number;
  lasts: LastStarts;
  /** Position of the first step marked as stabilising; -1 when the route stabilises nothing. */
  stabilisingAt: number;
  stabilisesAtEnd: boolean;
  /** Position of a freezing step that others follow; -1 without one. */
  freezeAt: number;
}

/** An item with its routes in order of preference. */
export interface CompiledItem {
  index: number;
  id: string;
  siteId: string;
  /** First slot in which a step may start: the release, or the end of a use of this item that has begun. */
  release: number;
  deadline: number;
  weight: number;
  urgent: boolean;
  first: boolean;
  /** Routes that can serve: for an urgent item those that stabilise it. */
  options: CompiledOption[];
  /** Share of the site's capacities that the preferred route takes, summed over resources. */
  share: number;
  /** What it was to do by the plan in force. */
  previous: PreviousUse[];
  /** The instability of leaving all of that undone. */
  dropCost: number;
}

/** The whole problem in index form. */
export interface Compiled {
  resources: Resources;
  items: CompiledItem[];
  tardinessCap: number;
  planLate: boolean;
  /** Slots by which a start may move without counting. */
  toleranceSlots: number;
}

/** Compiles a problem that `checkProblem` finds sound. O(items x options x steps + resources x slots). */
export function compile(problem: PlanProblem): Compiled {
  const resources = tabulate(problem);
  const routes = new Routes(new StepBook(resources, usualCompany(problem)), resources.horizon, problem.items);
  const busyUntil = busyUntilOf(problem);
  const previous = groupByItem(problem.previous?.steps ?? []);
  const crews = new PreviousCrews(resources);
  const items = [...problem.items].sort(byId).map((item, i) => {
    const steps = previous.get(item.id);
    const uses = steps === undefined ? NO_USES : previousUses(steps, problem.slotMinutes, resources, crews);
    return compileItem(item, i, routes, busyUntil.get(item.id) ?? 0, uses);
  });
  return { resources, items, tardinessCap: problem.tardinessCapSlots ?? problem.horizonSlots, planLate: problem.late === 'plan', toleranceSlots: Math.floor(15 / problem.slotMinutes) };
}

/** The company that most items dry in, on any of their routes; the first by name of equal ones. */
function usualCompany({ companies = [], items }: PlanProblem): string | undefined {
  if (companies.length === 0) return undefined;
  const counts = new Map(companies.map(({ id }): [string, number] => [id, 0]));
  for (const { options } of items) {
    const own = new Set(options.flatMap(({ steps }) => steps.flatMap(({ drying, company }) => (drying === null || company === undefined ? [] : [company]))));
    for (const company of own) counts.set(company, counts.get(company)! + 1);
  }
  return [...counts].sort(([a, one], [b, other]) => other - one || (a < b ? -1 : 1))[0]![0];
}

/**
 * Order in which items are offered: (deadline - release) * sqrt(share / weight), small first. Our own calibration:
 * of the keys tried in our planning study it left the least weight late. Square root, product and quotient are
 * exact to the last bit by IEEE 754, so the order is the same on every machine.
 */
export function rejectionKey(windowSlots: number, share: number, weight: number): number {
  return weight === 0 ? Number.POSITIVE_INFINITY : windowSlots * Math.sqrt(share / weight);
}

/** Slots an urgent item has between its release and its deadline; 1 for one that has no deadline any more. */
export function windowOf(item: Pick<CompiledItem, 'urgent' | 'deadline' | 'release'>): number {
  return item.urgent ? Math.max(1, item.deadline - item.release) : 1;
}

const NO_USES: PreviousUse[] = [];

/** Until when something that has begun with an item goes on. Lying in a freezer keeps nobody from fetching it. */
function busyUntilOf({ fixed }: PlanProblem): Map<string, number> {
  const busyUntil = new Map<string, number>();
  for (const use of fixed) {
    if (use.stationId === null && use.dryingPlaceId === null && use.personIds.length === 0) continue;
    busyUntil.set(use.itemId, Math.max(busyUntil.get(use.itemId) ?? 0, use.interval.to));
  }
  return busyUntil;
}

function groupByItem(steps: readonly PreviousStep[]): Map<string, PreviousStep[]> {
  const groups = new Map<string, PreviousStep[]>();
  for (const step of steps) {
    const group = groups.get(step.itemId);
    if (group === undefined) groups.set(step.itemId, [step]);
    else group.push(step);
  }
  return groups;
}

function compileItem(item: PlanItem, at: number, routes: Routes, busyUntil: number, previous: PreviousUse[]): CompiledItem {
  const urgent = !item.stabilised;
  const options: CompiledOption[] = [];
  for (let i = 0; i < item.options.length; i += 1) {
    const option = routes.compile(item, item.options[i]!, i);
    if (!urgent || option.stabilisingAt >= 0) options.push(option);
  }
  return {
    index: at, id: item.id, siteId: item.siteId, release: Math.max(item.releaseSlot, busyUntil), deadline: item.deadlineSlot, weight: item.weight, urgent,
    first: item.first === true, options: options.slice(), share: options.length > 0 ? shareOf(options[0]!, routes.horizon) : 0,
    previous, dropCost: previous.reduce((sum, { cost }) => sum + cost, 0),
  };
}

/** Compiles routes, and packs the last starts of their steps. */
class Routes {
  private readonly lasts: LastStarts;
  private used = 0;

  constructor(private readonly steps: StepBook, readonly horizon: number, items: readonly PlanItem[]) {
    let count = 0;
    for (const { options } of items) for (const option of options) count += option.steps.length;
    this.lasts = { inTime: wholes(count, horizon), inHorizon: wholes(count, horizon) };
  }

  compile(item: PlanItem, option: PlanOption, index: number): CompiledOption {
    const { used: at, lasts } = this;
    this.used += option.steps.length;
    const stabilisingAt = option.steps.findIndex((step) => step.stabilises !== null);
    const stabilisesAtEnd = stabilisingAt >= 0 && option.steps[stabilisingAt]!.stabilises === 'end';
    const steps = option.steps.map((step, position) => this.steps.compile(item.siteId, step, position === option.steps.length - 1));
    const freezeAt = steps.findIndex((step) => step.freezers !== null && !step.staysToEnd);
    const route = { index, disposition: option.disposition, steps, at, lasts, stabilisingAt, stabilisesAtEnd, freezeAt };
    this.limit(item, route);
    return route;
  }

  private limit(item: PlanItem, { steps, at, lasts, stabilisingAt, stabilisesAtEnd, freezeAt }: CompiledOption): void {
    let latest = this.horizon;
    let latestInHorizon = this.horizon;
    for (let position = steps.length - 1; position >= 0; position -= 1) {
      const step = steps[position]!;
      // A frozen item must lie in the freezer for at least one slot of the horizon, or its volume would go uncounted.
      const stay = step.freezers === null ? 0 : step.staysToEnd ? 1 : step.leastStay;
      latestInHorizon = Math.min(latestInHorizon - stay - step.duration, step.notAfter);
      latest = Math.min(latest - step.duration, latestInHorizon);
      if (!item.stabilised && position === stabilisingAt) latest = Math.min(latest, item.deadlineSlot - (stabilisesAtEnd ? step.duration : 0));
      // After a stay in a freezer the clock has stood still for as long as it lay there, which the placement knows.
      lasts.inTime[at + position] = heldWhole(freezeAt >= 0 && position > freezeAt && stabilisingAt > freezeAt ? latestInHorizon : latest);
      lasts.inHorizon[at + position] = heldWhole(latestInHorizon);
    }
  }
}

/** Last start of a step of a route that leaves room for the rest of it, in time as far as the clock runs. */
export function lastInTime({ at, lasts }: CompiledOption, position: number): number {
  return lasts.inTime[at + position]!;
}

/** Last start of a step of a route that leaves room for the rest of it, in time or not. */
export function lastInHorizon({ at, lasts }: CompiledOption, position: number): number {
  return lasts.inHorizon[at + position]!;
}

/** Kinds of resources that a step can take of. */
const SHARED = ['station', 'crew', 'drying-area', 'room-air', 'freezer', 'service'] as const satisfies readonly Blocker['kind'][];

/** What the route takes divided by all that is free in the horizon, summed over the resources it uses. */
function shareOf(option: CompiledOption, horizon: number): number {
  let share = 0;
  for (const step of option.steps) for (const kind of SHARED) share += shareOfKind(step, kind, horizon);
  return share;
}

/** What a step takes of one kind of resource, divided by all that is free of it in the horizon; 0 when it takes nothing. */
export function shareOfKind(step: CompiledStep, kind: Blocker['kind'], horizon: number): number {
  const { duration, stations, crewClass, places, freezers, batch } = step;
  const part = batch === null ? 1 : batch.units / batch.mostUnits;
  switch (kind) {
    case 'station': return stations === null ? 0 : ratio(duration * part, stations.amount);
    case 'crew':
    case 'respirator-fit':
    case 'restriction': return crewClass === null ? 0 : ratio(duration * step.crew * part, crewClass.amount);
    case 'drying-area': return places === null ? 0 : ratio(step.area * duration, places.amount);
    case 'room-air': return places === null ? 0 : ratio(waterOf(step), places.airAmount);
    case 'freezer': return freezers === null ? 0 : ratio(step.volume * (step.staysToEnd ? horizon : step.leastStay), freezers.amount);
    case 'service':
    case 'company':
    case 'pin':
    case 'heat':
    case 'time':
    case 'route': return 0;
  }
}

/** Water that a drying step gives the air in all. */
function waterOf({ need, duration }: CompiledStep): number {
  if (typeof need === 'number') return need * duration;
  return need.amounts.reduce((sum, amount, i) => sum + amount * Math.max(0, Math.min(duration, need.from[i + 1] ?? duration) - need.from[i]!), 0);
}

/** Never infinite: a need for something absent counts as a thousand times all there is. */
function ratio(need: number, available: number): number {
  return available === 0 ? (need > 0 ? 1000 : 0) : need / available;
}
