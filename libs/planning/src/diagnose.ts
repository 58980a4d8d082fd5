/** Which resource stands in the way: of one step, and of an item that found no place. */
import type { CrewChoice, CrewClass } from './candidates.js';
import { type CompiledItem, type CompiledOption, type CompiledStep, lastInHorizon, lastInTime, shareOfKind } from './compile.js';
import { findPlacement } from './place-item.js';
import type { Resources } from './resources.js';
import type { Blocker } from './types.js';
import { NONE, Timetable } from './timetable.js';

/** A blocker and the step that met it (`null` for time and route). */
export interface Diagnosis { blocker: Blocker; step: CompiledStep | null }

/** Where an item would lose time in its route, and how much. */
interface Obstacle {
  step: CompiledStep;
  /** First slot in which the item could start the step. */
  from: number;
  /** Last slot of the horizon in which the step could start. */
  last: number;
  slots: number;
  /** The step finds no place up to the horizon. */
  full: boolean;
}

const TIME: Diagnosis = { blocker: { kind: 'time', what: '' }, step: null };

/** Explains failures against a timetable; `empty` is the same calendar with nothing but the fixed uses. */
export class Diagnostician {
  private readonly empty: Timetable;
  private readonly alone = new Map<CompiledOption, number[]>();

  constructor(private readonly resources: Resources) {
    this.empty = new Timetable(resources);
  }

  /**
   * Why the item has no place: the preferred route's obstacle, unless that route fails for lack of time alone
   * and a later one fails for a resource, which can be asked for.
   */
  item(timetable: Timetable, item: CompiledItem): Diagnosis {
    const perOption = item.options.map((option) => this.option(timetable, item.release, option));
    const resource = perOption.find(({ blocker }) => blocker.kind !== 'time');
    return resource ?? perOption[0] ?? { blocker: { kind: 'route', what: '' }, step: null };
  }

  /** Whether a step of the route, which `blocker` stops, needs a larger drying place than its site has: nothing that others give back helps then. */
  isTooLarge({ steps }: CompiledOption, { kind }: Blocker): boolean {
    return kind === 'drying-area' && steps.some(({ places, area }) => places !== null && places.areas.length > 0 && places.areas.every((areaDm2) => areaDm2 < area));
  }

  /** Whether the item fits in no route even when nothing else is planned. */
  isHopeless(item: CompiledItem): boolean {
    return findPlacement(this.empty, item) === null;
  }

  /** Why an item that `isHopeless` would have no place even if nothing else were planned. */
  hopeless(item: CompiledItem): Diagnosis {
    return this.item(this.empty, item);
  }

  /**
   * The resource that stands in the way of one route. Where the item would not be in time even alone: what is missing
   * altogether, else the longest wait for something closed, else time. Otherwise the resource that costs it most on the
   * way up to the stabilising step, wherever it comes in the route: of those without a place up to the horizon the one
   * of which the item needs the largest share, else the longest wait.
   */
  option(timetable: Timetable, release: number, option: CompiledOption): Diagnosis {
    if (release > lastInTime(option, 0)) return TIME;
    const alone = this.startsAlone(release, option);
    const last = alone.length - 1;
    if (alone[last] === NONE) return this.cause(this.empty, option.steps[last]!, lastInHorizon(option, last), last === 0 ? release : alone[last - 1]! + option.steps[last - 1]!.duration);
    const late = alone.findIndex((start, position) => start > lastInTime(option, position));
    const worst = late >= 0 ? longestClosing(release, option, alone, late) : this.longestWait(timetable, release, option, alone);
    return worst === null ? TIME : this.cause(late >= 0 ? this.empty : timetable, worst.step, worst.last, worst.from);
  }

  /** Starts of the steps when nothing else is planned, without regard to the deadline; ends with the first that has none. */
  private startsAlone(release: number, option: CompiledOption): number[] {
    const known = this.alone.get(option);
    if (known !== undefined) return known;
    const starts: number[] = [];
    let from = release;
    for (const [position, step] of option.steps.entries()) {
      const last = lastInHorizon(option, position);
      const start = from > last ? NONE : this.empty.fit(step, from, last);
      starts.push(start);
      if (start === NONE) break;
      from = start + step.duration;
    }
    this.alone.set(option, starts);
    return starts;
  }

  /** Goes through the route behind those that are planned; a step without a place is passed over as if it were served. */
  private longestWait(timetable: Timetable, release: number, option: CompiledOption, alone: readonly number[]): Obstacle | null {
    let worst: Obstacle | null = null;
    let from = release;
    let fromAlone = release;
    for (const [position, step] of option.steps.entries()) {
      const last = lastInHorizon(option, position);
      if (from > last) break;
      const never = last + 1;
      const delay = from - fromAlone;
      const open = delay === 0 ? alone[position]! : orLater(this.empty.fit(step, from, last), last);
      const start = open === never ? never : orLater(timetable.fit(step, from, last), last);
      // A closing counts only as far as it outlasts the delay that led the item into it: a night is nobody's queue.
      const slots = start - open + Math.max(0, open - alone[position]! - 2 * delay);
      const obstacle = { step, from, last, slots, full: start === never };
      if (slots > 0 && (worst === null || this.isWorse(timetable, obstacle, worst))) worst = obstacle;
      if (position === option.stabilisingAt && (start > lastInTime(option, position) || worst?.full === true)) break;
      from = (start === never ? Math.min(open, last) : start) + step.duration;
      fromAlone = alone[position]! + step.duration;
    }
    return worst;
  }

  private isWorse(timetable: Timetable, one: Obstacle, other: Obstacle): boolean {
    if (one.full !== other.full) return one.full;
    return one.full ? this.shareAt(timetable, one) >= this.shareAt(timetable, other) : one.slots >= other.slots;
  }

  private shareAt(timetable: Timetable, { step, last, from }: Obstacle): number {
    return shareOfKind(step, this.cause(timetable, step, last, from).blocker.kind, this.resources.horizon);
  }

  /**
   * The resource of a step that is free last when each is asked for alone, from slot `from` on and up to `last`; of those free at the same
   * time the one of which the step needs the largest share.
   */
  cause(timetable: Timetable, step: CompiledStep, last: number, from: number): Diagnosis {
    const alone = step.places === null ? this.handsOn(timetable, step, last, from) : this.drying(timetable, step, last, from);
    const { horizon } = this.resources;
    const [first, ...others] = alone;
    let latest = first!;
    for (const candidate of others) {
      const isScarcer = candidate.start === latest.start && shareOfKind(step, candidate.blocker.kind, horizon) > shareOfKind(step, latest.blocker.kind, horizon);
      if (candidate.start > latest.start || isScarcer) latest = candidate;
    }
    return { blocker: latest.blocker, step };
  }

  private handsOn(timetable: Timetable, step: CompiledStep, last: number, from: number): { start: number; blocker: Blocker }[] {
    const alone: { start: number; blocker: Blocker }[] = [];
    if (step.stations !== null) alone.push({ start: orLater(timetable.fitStations(step, from, last), last), blocker: { kind: 'station', what: step.kind } });
    if (step.coolFrom > from) alone.push({ start: Math.min(step.coolFrom, last + 1), blocker: { kind: 'heat', what: step.kind } });
    if (step.crewChoice !== null) alone.push(this.hands(timetable, step, step.crewChoice, last, from));
    if (step.freezers !== null) {
      const largest = step.freezers.rows.at(-1);
      const { freezers, row } = this.resources;
      const what = largest === undefined ? '' : freezers[largest - row.freezer]!.id;
      const roomy = timetable.fitFreezer({ ...step, company: NONE }, from, last);
      alone.push({ start: roomy, blocker: { kind: 'freezer', what } });
      if (step.company !== NONE) alone.push(...later(roomy, timetable.fitFreezer(step, from, last), what));
    }
    for (const service of step.services ?? []) {
      const { services, row } = this.resources;
      alone.push({ start: orLater(timetable.fitService(service, from, step.duration, last), last), blocker: { kind: 'service', what: services[service.row - row.service]!.id } });
    }
    return alone.length > 0 ? alone : [{ start: from, blocker: TIME.blocker }];
  }

  /**
   * When there are hands for the step. A missing fit or a restriction is what stands in the way where others with the skill would
   * be idle by then; where those are busy too, it is people that are short.
   */
  private hands(timetable: Timetable, step: CompiledStep, { able, unfitted, undeclared }: CrewChoice, last: number, from: number): { start: number; blocker: Blocker } {
    const startOf = (crew: CrewClass, of: Timetable): number => orLater(of.fitCrew(crew, step.crew, from, step.duration, last), last);
    const start = startOf(able, timetable);
    const areIdle = (others: CrewClass | null): boolean => {
      const sooner = others === null ? start : startOf(others, timetable);
      return others !== null && sooner < start && (start > last || sooner === startOf(others, this.empty));
    };
    const kind = areIdle(unfitted) ? 'respirator-fit' : areIdle(undeclared) ? 'restriction' : 'crew';
    return { start, blocker: { kind, what: step.skill } };
  }

  private drying(timetable: Timetable, step: CompiledStep, last: number, from: number): { start: number; blocker: Blocker }[] {
    const { rows, rooms } = step.places!;
    const { roomIds, placeRoom, row } = this.resources;
    const roomOf = (place: number | undefined): string => (place === undefined ? '' : roomIds[placeRoom[place - row.place]!]!);
    const startFor = (company: number): number => orLater(timetable.fitDrying(step.places!, { area: step.area, need: 0, company }, from, step.duration, last), last);
    const placeAt = (start: number): number | undefined => (start <= last ? timetable.found : rows.at(-1));
    const area = startFor(NONE);
    const place = placeAt(area);
    let air = { start: last + 1, room: rooms[0] };
    for (const room of rooms) {
      const start = orLater(timetable.fitRoomAir(room, step.need, from, step.duration, last), last);
      if (start < air.start) air = { start, room };
    }
    const inCompany = step.company === NONE ? area : startFor(step.company);
    return [
      { start: area, blocker: { kind: 'drying-area', what: roomOf(place) } },
      { start: air.start, blocker: { kind: 'room-air', what: air.room === undefined ? '' : roomIds[air.room]! } },
      ...later(area, inCompany, roomOf(placeAt(inCompany))),
    ];
  }
}

/** What lies there stands in the way where there would be room sooner. */
function later(roomy: number, inCompany: number, what: string): { start: number; blocker: Blocker }[] {
  return inCompany > roomy ? [{ start: inCompany, blocker: { kind: 'company', what } }] : [];
}

/** The longest wait for something closed when nothing else is planned, up to the step that is late; null when there is none. */
function longestClosing(release: number, option: CompiledOption, alone: readonly number[], late: number): Obstacle | null {
  let worst: Obstacle | null = null;
  let from = release;
  for (const [position, step] of option.steps.slice(0, late + 1).entries()) {
    const slots = alone[position]! - from;
    if (slots > (worst?.slots ?? 0)) worst = { step, from, last: lastInHorizon(option, position), slots, full: false };
    from = alone[position]! + step.duration;
  }
  return worst;
}

function orLater(start: number, last: number): number {
  return start === NONE ? last + 1 : start;
}
