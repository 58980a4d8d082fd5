/** Which resource stands in the way: of one step, and of an item that found no place. */
import type { CompiledItem, CompiledOption, CompiledStep } from './compile.js';
import type { Resources } from './resources.js';
import type { Blocker } from './types.js';
import { NONE, Timetable } from './timetable.js';

/** A blocker and the step that met it (`null` for time and route). */
export interface Diagnosis { blocker: Blocker; step: CompiledStep | null }

interface Obstacle { diagnosis: Diagnosis; slots: number }

/** Explains failures against a timetable; `empty` is the same calendar with nothing but the fixed uses. */
export class Diagnostician {
  private readonly empty: Timetable;

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

  /** Whether the item fits in no route even when nothing else is planned. */
  isHopeless(item: CompiledItem): boolean {
    return item.options.every((option) => {
      let from = item.release;
      return option.steps.some((step) => {
        const start = from > step.latest ? NONE : this.empty.fit(step, from, step.latest);
        from = start + step.duration;
        return start === NONE;
      });
    });
  }

  /** Why an item that `isHopeless` would have no place even if nothing else were planned. */
  hopeless(item: CompiledItem): Diagnosis {
    return this.item(this.empty, item);
  }

  /**
   * The resource that costs the item most when it goes through the route without regard to its deadline: the
   * longest queue behind others up to the stabilising step, or no place at all; without any queue the longest
   * wait for something closed; without that, time itself.
   */
  option(timetable: Timetable, release: number, option: CompiledOption): Diagnosis {
    let queue: Obstacle = { diagnosis: { blocker: { kind: 'time', what: '' }, step: null }, slots: 0 };
    if (release > option.steps[0]!.latest) return queue.diagnosis;
    let closed: Obstacle = queue;
    let from = release;
    for (const [position, step] of option.steps.entries()) {
      if (from > step.latestInHorizon) break;
      const undisturbed = this.empty.fit(step, from, step.latestInHorizon);
      if (undisturbed === NONE) return queue.slots > 0 ? queue.diagnosis : this.cause(this.empty, step, from);
      const start = timetable.fit(step, from, step.latestInHorizon);
      const queued = (start === NONE ? step.latestInHorizon + 1 : start) - undisturbed;
      if (queued > 0 && (start === NONE || queued >= queue.slots)) queue = { diagnosis: this.cause(timetable, step, from), slots: queued };
      if (undisturbed - from > closed.slots) closed = { diagnosis: this.cause(this.empty, step, from), slots: undisturbed - from };
      if (start === NONE || (position === option.stabilisingAt && start > step.latest)) break;
      from = start + step.duration;
    }
    return queue.slots > 0 ? queue.diagnosis : closed.diagnosis;
  }

  /** The resource of a step that is free last when each is asked for alone, from slot `from` on. */
  cause(timetable: Timetable, step: CompiledStep, from: number): Diagnosis {
    const alone = step.places === null ? this.handsOn(timetable, step, from) : this.drying(timetable, step, from);
    let latest = alone[0]!;
    for (const candidate of alone) if (candidate.start > latest.start) latest = candidate;
    return { blocker: latest.blocker, step };
  }

  private handsOn(timetable: Timetable, step: CompiledStep, from: number): { start: number; blocker: Blocker }[] {
    const last = step.latestInHorizon;
    const alone: { start: number; blocker: Blocker }[] = [
      { start: orLater(timetable.fitStations(step, from, last), last), blocker: { kind: 'station', what: step.kind } },
    ];
    if (step.crewClass !== null) {
      const start = orLater(timetable.fitCrew(step.crewClass, step.crew, from, step.duration, last), last);
      alone.push({ start, blocker: { kind: 'crew', what: step.skill } });
    }
    if (step.freezers !== null) {
      const largest = step.freezers.members.at(-1);
      const what = largest === undefined ? '' : this.resources.freezers[largest]!.id;
      alone.push({ start: timetable.fitFreezer(step, from, last), blocker: { kind: 'freezer', what } });
    }
    return alone;
  }

  private drying(timetable: Timetable, step: CompiledStep, from: number): { start: number; blocker: Blocker }[] {
    const { members, rooms } = step.places!;
    const { roomIds, placeRoom } = this.resources;
    const last = step.latestInHorizon;
    const area = orLater(timetable.fitDrying(step.places!, step.area, 0, from, step.duration, last), last);
    const place = area <= last ? timetable.found : members.at(-1);
    let air = { start: last + 1, room: rooms[0] };
    for (const room of rooms) {
      const start = orLater(timetable.fitRoomAir(room, step.load, from, step.duration, last), last);
      if (start < air.start) air = { start, room };
    }
    return [
      { start: area, blocker: { kind: 'drying-area', what: place === undefined ? '' : roomIds[placeRoom[place]!]! } },
      { start: air.start, blocker: { kind: 'room-air', what: air.room === undefined ? '' : roomIds[air.room]! } },
    ];
  }
}

function orLater(start: number, last: number): number {
  return start === NONE ? last + 1 : start;
}
