/** Placing items as they were: what a coordinator has pinned, and what the plan in force says. */
import { type Compiled, type CompiledItem, type CompiledOption, type CompiledStep, lastInHorizon } from './compile.js';
import { keepsService, type PreviousUse } from './instability.js';
import { placementOf, type Placement } from './place-item.js';
import { NONE, placedStep, type PlacedStep, type Timetable } from './timetable.js';
import type { PlanAssignment } from './types.js';

/** Where and with whom a step is to be. */
interface Spot { start: number; station: number; place: number; freezer: number; crew: readonly number[] }

/** The placement that assignments of the item describe, if everything it takes is free; null when it cannot be. */
export function placeAsPinned(timetable: Timetable, { resources }: Compiled, item: CompiledItem, assignments: readonly PlanAssignment[]): Placement | null {
  const { indexOf, row, poolOf } = resources;
  const ordered = [...assignments].sort((a, b) => a.position - b.position);
  const at = item.options.findIndex(({ index }) => index === ordered[0]?.option);
  const route = item.options[at];
  if (route === undefined || route.steps.length !== ordered.length) return null;
  const spots = ordered.map(({ startSlot, stationId, dryingPlaceId, freezerId, personIds }): Spot => ({
    start: startSlot,
    station: rowOf(indexOf.station, row.station, stationId), place: rowOf(indexOf.place, row.place, dryingPlaceId), freezer: rowOf(indexOf.freezer, row.freezer, freezerId),
    crew: personIds.flatMap((id) => (indexOf.person.has(id) ? [row.pool + poolOf[indexOf.person.get(id)!]!] : [])),
  }));
  const wrongEnd = ordered.some(({ startSlot, endSlot }, position) => endSlot - startSlot !== route.steps[position]!.duration);
  return wrongEnd ? null : build(timetable, item, at, (position) => spots[position]!);
}

/**
 * The item where the plan in force has it. Steps that it does not hold, that a longer step before them has pushed on, or whose
 * place is not free any more, get their earliest fit; null when it would not be in time. With `exactly`, null when any moves.
 */
export function placeAsBefore(timetable: Timetable, item: CompiledItem, planLate: boolean, exactly = false): Placement | null {
  const { previous } = item;
  if (previous.length === 0) return null;
  for (const { at, route } of routesAsBefore(item, exactly)) {
    const placement = build(timetable, item, at, (position, from) => spotAsBefore(timetable, route, position, from, previous, exactly));
    if (placement !== null && (placement.tardiness === 0 || planLate)) return placement;
  }
  return null;
}

/**
 * Routes that may be the one it was on, those first that take the same couriers and specialists; with `exactly` only those. Of several,
 * such as one for each site, those first that go where it was to go.
 */
function routesAsBefore({ options, previous }: CompiledItem, exactly: boolean): { at: number; route: CompiledOption }[] {
  const alike = options
    .map((route, at) => ({ at, route, agrees: previous.every((use) => route.steps.some((step) => step.kind === use.kind && keepsService(step, use))) }))
    .filter(({ route }) => route.disposition === previous[0]!.disposition && previous.every(({ kind }) => route.steps.some((step) => step.kind === kind)));
  if (alike.length > 1) sortByStraying(alike, previous);
  const agreeing = alike.filter(({ agrees }) => agrees);
  return exactly ? agreeing : [...agreeing, ...alike.filter(({ agrees }) => !agrees)];
}

/** Stable: routes that stray as much stay in the order of the item's options. */
function sortByStraying(routes: { at: number; route: CompiledOption }[], previous: readonly PreviousUse[]): void {
  const strays = new Map(routes.map(({ at, route }) => [at, strayingOf(route, previous)]));
  routes.sort((a, b) => strays.get(a.at)! - strays.get(b.at)! || a.at - b.at);
}

/** Steps that a route can only do elsewhere than was planned, and journeys that were not planned. */
function strayingOf({ steps }: CompiledOption, previous: readonly PreviousUse[]): number {
  const elsewhere = previous.filter((use) => {
    const { stations, places, freezers } = steps.find(({ kind }) => kind === use.kind)!;
    return !isAmong(stations?.rows, use.station) || !isAmong(places?.rows, use.place) || !isAmong(freezers?.rows, use.freezer);
  });
  const journeys = steps.filter(({ kind }) => kind === 'carry' && !previous.some((use) => use.kind === kind));
  return elsewhere.length + journeys.length;
}

/** Where a step needs none, none was planned either. */
function isAmong(rows: readonly number[] | undefined, row: number): boolean {
  return rows === undefined ? row === NONE : rows.includes(row);
}

/** Where the step was to be, if that is free still; else its earliest fit. What comes before it in the route stays all the same. */
function spotAsBefore(timetable: Timetable, route: CompiledOption, position: number, from: number, previous: readonly PreviousUse[], exactly: boolean): Spot | null {
  const step = route.steps[position]!;
  const last = lastInHorizon(route, position);
  const use = previous.find(({ kind }) => kind === step.kind);
  if (use !== undefined && use.start >= from) {
    const crew = mayServe(step, use.crew, use.start) ? use.crew : timetable.crewFor(step, use.start);
    const spot = { start: use.start, station: use.station, place: use.place, freezer: use.freezer, crew };
    if (suits(step, spot, from, last) && isSpotFree(timetable, step, spot)) return spot;
  }
  if (use !== undefined && exactly) return null;
  const start = from > last ? NONE : timetable.fit(step, from, last);
  if (start === NONE) return null;
  const row = timetable.found;
  return { start, station: step.stations === null ? NONE : row, place: step.places === null ? NONE : row, freezer: use?.freezer ?? NONE, crew: timetable.joined?.crew ?? timetable.crewFor(step, start) };
}

/** All but the stay in a freezer, whose end is not known yet. */
function isSpotFree(timetable: Timetable, step: CompiledStep, { start, station, place, crew }: Spot): boolean {
  const end = start + step.duration;
  if (end > timetable.horizon) return false;
  return timetable.batchAt(step, start, station) !== null || timetable.isFree(placedStep(step, start, station, crew, place, NONE, end, null));
}

/** Builds a placement step by step; null when a spot is missing, breaks a limit of the step, or is not free. */
function build(timetable: Timetable, item: CompiledItem, at: number, spotOf: (position: number, from: number) => Spot | null): Placement | null {
  const route = item.options[at]!;
  const spots: Spot[] = [];
  let from = item.release;
  for (const [position, step] of route.steps.entries()) {
    const spot = spotOf(position, from);
    if (spot === null || !suits(step, spot, from + (position > 0 && route.freezeAt === position - 1 ? route.steps[position - 1]!.leastStay : 0), lastInHorizon(route, position))) return null;
    spots.push(spot);
    from = spot.start + step.duration;
  }
  const steps = route.steps.map((step, position): PlacedStep => {
    const { start, station, place, freezer, crew } = spots[position]!;
    const end = start + step.duration;
    const stayTo = step.freezers === null ? end : (spots[position + 1]?.start ?? timetable.horizon);
    const batch = timetable.batchAt(step, start, station);
    const cold = step.freezers === null ? NONE : step.freezers.rows.includes(freezer) ? freezer : timetable.freezerFor(step, end, stayTo);
    return placedStep(step, start, station, batch?.crew ?? crew, place, cold, stayTo, batch ?? timetable.newBatch(step, start, station, crew));
  });
  const isFree = steps.every((placed) => (placed.batch !== null && placed.batch.members.length > 0) || (timetable.isFree(placed) && (placed.step.freezers === null || placed.freezer !== NONE)));
  return isFree ? placementOf(item, at, steps) : null;
}

function suits(step: CompiledStep, { start, station, place, crew }: Spot, from: number, last: number): boolean {
  return (
    start >= from && start >= step.coolFrom && start <= last &&
    (step.stations === null ? station === NONE : step.stations.rows.includes(station)) &&
    (step.places === null ? place === NONE : step.places.rows.includes(place)) &&
    mayServe(step, crew, start)
  );
}

/** Whether these are as many people as it takes, all of whom may do it then. */
function mayServe({ crew, crewClass }: CompiledStep, pools: readonly number[], start: number): boolean {
  return pools.length === crew && pools.every((pool) => {
    const at = crewClass?.rows.indexOf(pool) ?? NONE;
    return at !== NONE && start < crewClass!.until[at]!;
  });
}

function rowOf(ids: ReadonlyMap<string, number>, base: number, id: string | null): number {
  const index = id === null ? undefined : ids.get(id);
  return index === undefined ? NONE : base + index;
}
