/** Finding a place for a whole item: the first route, in order of preference, that fits, its steps left to right. */
import type { CompiledItem, CompiledOption, CompiledStep } from './compile.js';
import { NONE, type PlacedStep, type Timetable } from './timetable.js';

/** An item with a place for every step of one of its routes. */
export interface Placement {
  item: number;
  option: number;
  steps: PlacedStep[];
  /** Moment of stabilisation, in slots; for an item already stabilised the start of its first step. */
  moment: number;
}

/** Looks for a place in the timetable and writes nothing; `null` when no route fits (for an urgent item: in time). */
export function findPlacement(timetable: Timetable, item: CompiledItem): Placement | null {
  for (let option = 0; option < item.options.length; option += 1) {
    const placement = findForOption(timetable, item, option);
    if (placement !== null) return placement;
  }
  return null;
}

/** The same for one route, by its place in the order of preference. */
export function findForOption(timetable: Timetable, item: CompiledItem, option: number): Placement | null {
  const route = item.options[option]!;
  const starts: number[] = [];
  const found: number[] = [];
  let from = item.release;
  for (const step of route.steps) {
    const start = from > step.latest ? NONE : timetable.fit(step, from, step.latest);
    if (start === NONE) return null;
    starts.push(start);
    found.push(timetable.found);
    from = start + step.duration;
  }
  const steps = route.steps.map((step, k) => placedStep(timetable, step, starts[k]!, found[k]!));
  return { item: item.index, option, steps, moment: momentOf(route, steps) };
}

function placedStep(timetable: Timetable, step: CompiledStep, start: number, found: number): PlacedStep {
  const end = start + step.duration;
  return {
    start, end,
    station: step.stations === null ? NONE : found,
    people: timetable.crewFor(step, start),
    place: step.places === null ? NONE : found,
    area: step.area,
    load: step.load,
    freezer: step.freezers === null ? NONE : timetable.freezerFor(step, end),
    volume: step.volume,
  };
}

/** When the route stabilises, in slots. */
export function momentOf(route: CompiledOption, steps: readonly PlacedStep[]): number {
  if (route.stabilisingAt < 0) return steps[0]!.start;
  const step = steps[route.stabilisingAt]!;
  return route.stabilisesAtEnd ? step.end : step.start;
}
