/**
 * From the problem to index form: what each step may use, how late it may start, and the order in which
 * items are offered. Everything is sorted by id first, so two inputs that differ in order compile alike.
 */
import type { Disposition, StepKind } from '#care';
import type { Blocker, PlanItem, PlanOption, PlanProblem, PlanStep } from './types.js';
import { byId } from './calendar.js';
import { CandidateIndex, type Candidates, type CrewChoice, type CrewClass, type PlaceCandidates } from './candidates.js';
import { type Resources, tabulate } from './resources.js';

/** One step with everything that could serve it. */
export interface CompiledStep {
  kind: StepKind;
  /** Empty: any person will do. */
  skill: string;
  duration: number;
  /** Last start that leaves room for the rest of the option, the deadline and the horizon. */
  latest: number;
  /** The same without the deadline. */
  latestInHorizon: number;
  /** Hands-on steps need one of these; `null` for drying. */
  stations: Candidates | null;
  crew: number;
  crewClass: CrewClass | null;
  /** Who would be there if less were asked of the crew; null where nobody is needed. */
  crewChoice: CrewChoice | null;
  /** First slot in which it is cool enough for people. */
  coolFrom: number;
  /** Drying steps need one of these. */
  places: PlaceCandidates | null;
  area: number;
  load: number;
  freezers: Candidates | null;
  volume: number;
}

/** One care route of an item, ready to be placed. */
export interface CompiledOption {
  disposition: Disposition;
  steps: CompiledStep[];
  /** Position of the first step marked as stabilising; -1 when the route stabilises nothing. */
  stabilisingAt: number;
  stabilisesAtEnd: boolean;
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
  /** Routes that can serve: for an urgent item those that stabilise it. */
  options: CompiledOption[];
  /** Share of the site's capacities that the preferred route takes, summed over resources. */
  share: number;
  /** Rejection key, smaller is offered earlier. */
  key: number;
}

/** The whole problem in index form. */
export interface Compiled { resources: Resources; items: CompiledItem[] }

/** Compiles a problem that `checkProblem` finds sound. O(items x options x steps + resources x slots). */
export function compile(problem: PlanProblem): Compiled {
  const resources = tabulate(problem);
  const index = new CandidateIndex(resources);
  const busyUntil = new Map<string, number>();
  for (const use of problem.fixed) {
    // Lying in a freezer keeps nobody from fetching the item; being worked on or drying does.
    if (use.stationId === null && use.dryingPlaceId === null && use.personIds.length === 0) continue;
    busyUntil.set(use.itemId, Math.max(busyUntil.get(use.itemId) ?? 0, use.interval.to));
  }
  const items = [...problem.items].sort(byId).map((item, i) => compileItem(item, i, index, resources.horizon, busyUntil.get(item.id) ?? 0));
  return { resources, items };
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

function compileItem(item: PlanItem, at: number, index: CandidateIndex, horizon: number, busyUntil: number): CompiledItem {
  const urgent = !item.stabilised;
  const options = item.options
    .map((option) => compileOption(item, option, index, horizon))
    .filter((option) => !urgent || option.stabilisingAt >= 0);
  const release = Math.max(item.releaseSlot, busyUntil);
  const share = options.length > 0 ? shareOf(options[0]!, horizon) : 0;
  const key = rejectionKey(windowOf({ urgent, deadline: item.deadlineSlot, release }), share, item.weight);
  return { index: at, id: item.id, siteId: item.siteId, release, deadline: item.deadlineSlot, weight: item.weight, urgent, options, share, key };
}

function compileOption(item: PlanItem, option: PlanOption, index: CandidateIndex, horizon: number): CompiledOption {
  const stabilisingAt = option.steps.findIndex((step) => step.stabilises !== null);
  const stabilisesAtEnd = stabilisingAt >= 0 && option.steps[stabilisingAt]!.stabilises === 'end';
  const steps = option.steps.map((step) => compileStep(item.siteId, step, index));
  let latest = horizon;
  let latestInHorizon = horizon;
  for (let position = steps.length - 1; position >= 0; position -= 1) {
    const step = steps[position]!;
    // A frozen item must lie in the freezer for at least one slot of the horizon, or its volume would go uncounted.
    latestInHorizon = Math.min(latestInHorizon, step.freezers === null ? horizon : horizon - 1) - step.duration;
    latest = Math.min(latest - step.duration, latestInHorizon);
    if (!item.stabilised && position === stabilisingAt) latest = Math.min(latest, item.deadlineSlot - (stabilisesAtEnd ? step.duration : 0));
    step.latest = latest;
    step.latestInHorizon = latestInHorizon;
  }
  return { disposition: option.disposition, steps, stabilisingAt, stabilisesAtEnd };
}

function compileStep(siteId: string, step: PlanStep, index: CandidateIndex): CompiledStep {
  const drying = step.drying !== null;
  const crewChoice = step.crew > 0 ? index.crewChoice(siteId, step) : null;
  return {
    kind: step.step, skill: step.skill ?? '', duration: step.durationSlots, latest: 0, latestInHorizon: 0,
    stations: drying ? null : index.stations(siteId, step),
    crew: step.crew,
    crewClass: crewChoice?.able ?? null,
    crewChoice,
    coolFrom: step.coolFromSlot ?? 0,
    places: drying ? index.places(siteId) : null,
    area: step.drying?.areaDm2 ?? 0,
    load: step.drying?.loadGPerSlot ?? 0,
    freezers: step.freezer === null ? null : index.freezers(siteId),
    volume: step.freezer?.volumeCl ?? 0,
  };
}

/** Kinds of resources that a step can take of. */
const SHARED = ['station', 'crew', 'drying-area', 'room-air', 'freezer'] as const satisfies readonly Blocker['kind'][];

/** What the route takes divided by all that is free in the horizon, summed over the resources it uses. */
function shareOf(option: CompiledOption, horizon: number): number {
  let share = 0;
  for (const step of option.steps) for (const kind of SHARED) share += shareOfKind(step, kind, horizon);
  return share;
}

/** What a step takes of one kind of resource, divided by all that is free of it in the horizon; 0 when it takes nothing. */
export function shareOfKind(step: CompiledStep, kind: Blocker['kind'], horizon: number): number {
  const { duration, stations, crewClass, places, freezers } = step;
  switch (kind) {
    case 'station': return stations === null ? 0 : ratio(duration, stations.amount);
    case 'crew':
    case 'respirator-fit':
    case 'restriction': return crewClass === null ? 0 : ratio(duration * step.crew, crewClass.amount);
    case 'drying-area': return places === null ? 0 : ratio(step.area * duration, places.amount);
    case 'room-air': return places === null ? 0 : ratio(step.load * duration, places.airAmount);
    case 'freezer': return freezers === null ? 0 : ratio(step.volume * horizon, freezers.amount);
    case 'heat':
    case 'time':
    case 'route': return 0;
  }
}

/** Never infinite: a need for something absent counts as a thousand times all there is. */
function ratio(need: number, available: number): number {
  return available === 0 ? (need > 0 ? 1000 : 0) : need / available;
}
