/** The earliest place for one step, and its booking. */
import type { PlanAssignment, PlanProblem, PlanStep } from '#planning';
import { stretchesOf, type Supplies } from './supply.js';

/** Where and when a step is done. Its freezer is told later, when it is known how long it lies there. */
export interface StepPlace { start: number; end: number; station: number | null; people: number[]; place: number | null; batch: OpenBatch | null }

/** Things that are done together; more may join while there is room. */
export interface OpenBatch { id: string; step: PlanStep; siteId: string; start: number; station: number | null; people: number[]; units: number; mostUnits: number }

/** As somebody would who takes one thing after the other and gives it the first place that is free. */
export class StepPlaces {
  private readonly batches = new Map<string, OpenBatch[]>();
  private batchCount = 0;

  constructor(private readonly problem: PlanProblem, private readonly supplies: Supplies) {}

  /** The earliest place at or after a slot; null when there is none within the horizon. A batch that is open comes before a place of its own at the same time. */
  earliest(step: PlanStep, from: number, siteId: string): StepPlace | null {
    const first = Math.max(from, step.coolFromSlot ?? 0);
    const last = Math.min(this.problem.horizonSlots - step.durationSlots, step.notAfterSlot ?? Infinity);
    if (step.drying !== null) return this.dryingPlace(step, step.drying, first, last, siteId);
    const alone = this.handsOn(step, first, last, siteId);
    const joined = step.batch === undefined ? null : this.openBatch(step, step.batch, first, Math.min(last, alone?.start ?? last), siteId);
    return joined ?? alone;
  }

  book(step: PlanStep, found: StepPlace, siteId: string): { batchId: string | null } {
    const { supplies } = this;
    const { start, end, batch } = found;
    for (const { serviceId, units } of step.services ?? []) supplies.services[supplies.index.services.get(serviceId)!]!.take(start, end, units);
    if (batch !== null && step.batch !== undefined) {
      batch.units += step.batch.units;
      batch.mostUnits = Math.min(batch.mostUnits, step.batch.mostUnits);
      return { batchId: batch.id };
    }
    if (found.station !== null) supplies.stations[found.station]!.take(start, end, 1);
    for (const person of found.people) supplies.people[person]!.take(start, end, 1);
    if (found.place !== null && step.drying !== null) {
      supplies.places[found.place]!.take(start, end, step.drying.areaDm2);
      supplies.lying.put('place', found.place, step.company, start, end);
      const air = supplies.air[this.roomOf(found.place)]!;
      for (const { from, to, loadG } of stretchesOf(start, end, step.drying.loadGPerSlot, step.drying.falling)) air.take(from, to, loadG);
    }
    return { batchId: step.batch === undefined ? null : this.begin(step, found, siteId).id };
  }

  private begin(step: PlanStep, { start, station, people }: StepPlace, siteId: string): OpenBatch {
    this.batchCount += 1;
    const batch = { id: `list-${this.batchCount}`, step, siteId, start, station, people, units: step.batch!.units, mostUnits: step.batch!.mostUnits };
    const key = keyOf(step, siteId);
    this.batches.set(key, [...(this.batches.get(key) ?? []), batch]);
    return batch;
  }

  private openBatch(step: PlanStep, { units }: NonNullable<PlanStep['batch']>, first: number, last: number, siteId: string): StepPlace | null {
    const open = (this.batches.get(keyOf(step, siteId)) ?? []).filter((batch) =>
      batch.start >= first && batch.start <= last && batch.units + units <= Math.min(batch.mostUnits, step.batch!.mostUnits) &&
      !(batch.station !== null && step.barredStationIds?.includes(this.problem.stations[batch.station]!.id)) &&
      batch.people.every((person) => this.isAble(person, step, siteId) && this.isFit(person, step, batch.start)) &&
      this.servicesShort(step, batch.start) < 0);
    const [soonest] = open.sort((a, b) => a.start - b.start);
    return soonest === undefined ? null : { start: soonest.start, end: soonest.start + step.durationSlots, station: soonest.station, people: soonest.people, place: null, batch: soonest };
  }

  private handsOn(step: PlanStep, first: number, last: number, siteId: string): StepPlace | null {
    const stations = step.noStation === true ? null : this.indices(this.problem.stations, (station) =>
      station.siteId === siteId && station.zone === step.zone && station.steps.some((kind) => kind === step.step) && step.barredStationIds?.includes(station.id) !== true);
    const able = this.indices(this.problem.people, (_, i) => this.isAble(i, step, siteId)).sort((a, b) => this.problem.people[a]!.skills.length - this.problem.people[b]!.skills.length || a - b);
    for (let start = first; start <= last; ) {
      const end = start + step.durationSlots;
      const away = this.servicesShort(step, start);
      if (away >= 0) { start = away + 1; continue; }
      const station = stations === null ? null : (stations.find((i) => this.supplies.stations[i]!.lastShort(start, end, 1) < 0) ?? -1);
      const people = station === -1 ? [] : this.crewAt(able, step, start, end);
      if (station !== -1 && people.length === step.crew) return { start, end, station, people, place: null, batch: null };
      start += 1;
    }
    return null;
  }

  /** Who can do least else comes first, so that the others stay free. */
  private crewAt(able: readonly number[], step: PlanStep, start: number, end: number): number[] {
    const crew: number[] = [];
    for (const person of able) {
      if (crew.length === step.crew) break;
      if (this.isFit(person, step, start) && this.supplies.people[person]!.lastShort(start, end, 1) < 0) crew.push(person);
    }
    return crew;
  }

  private dryingPlace(step: PlanStep, drying: NonNullable<PlanStep['drying']>, first: number, last: number, siteId: string): StepPlace | null {
    let best: { place: number; start: number } | null = null;
    this.problem.places.forEach((_, place) => {
      const room = this.roomOf(place);
      if (this.problem.rooms[room]!.siteId !== siteId) return;
      const start = this.earliestDrying(step, drying, { place, room, first, last: Math.min(last, (best?.start ?? Infinity) - 1) });
      if (start !== null) best = { place, start };
    });
    const found = best as { place: number; start: number } | null;
    return found && { start: found.start, end: found.start + step.durationSlots, station: null, people: [], place: found.place, batch: null };
  }

  /** Later starts do not lighten the load in a slot, so after a slot that is short the search goes on behind it. */
  private earliestDrying(step: PlanStep, drying: NonNullable<PlanStep['drying']>, { place, room, first, last }: { place: number; room: number; first: number; last: number }): number | null {
    for (let start = first; start <= last; ) {
      const end = start + step.durationSlots;
      const short = Math.max(this.supplies.places[place]!.lastShort(start, end, drying.areaDm2), this.supplies.lying.lastMet('place', place, step.company, start, end),
        ...stretchesOf(start, end, drying.loadGPerSlot, drying.falling).map(({ from, to, loadG }) => this.supplies.air[room]!.lastShort(from, to, loadG)));
      if (short < 0) return start;
      start = short + 1;
    }
    return null;
  }

  private isAble(index: number, step: PlanStep, siteId: string): boolean {
    const person = this.problem.people[index]!;
    return person.siteId === siteId && (step.skill === null || person.skills.includes(step.skill)) && !step.barredRestrictions.some((one) => person.restrictions.includes(one));
  }

  private isFit(index: number, step: PlanStep, start: number): boolean {
    return step.needsFit !== true || start < (this.problem.people[index]!.fitUntilSlot ?? 0);
  }

  private servicesShort({ services = [], durationSlots }: PlanStep, start: number): number {
    const { services: supplies, index } = this.supplies;
    return Math.max(-1, ...services.map(({ serviceId, units }) => supplies[index.services.get(serviceId)!]!.lastShort(start, start + durationSlots, units)));
  }

  private roomOf(place: number): number {
    return this.supplies.index.rooms.get(this.problem.places[place]!.roomId)!;
  }

  private indices<T>(list: readonly T[], wanted: (entry: T, index: number) => boolean): number[] {
    return list.flatMap((entry, i) => (wanted(entry, i) ? [i] : []));
  }
}

/** Whose things may be done together. */
function keyOf({ batch, step, zone, crew, durationSlots }: PlanStep, siteId: string): string {
  return JSON.stringify([batch?.group, step, zone, crew, durationSlots, siteId]);
}

/** As the plan names it. */
export function assignmentOf(problem: PlanProblem, { start, end, station, people, place }: StepPlace, what: Pick<PlanAssignment, 'itemId' | 'option' | 'position' | 'step' | 'disposition' | 'batchId' | 'freezerId'>): PlanAssignment {
  return {
    ...what, startSlot: start, endSlot: end,
    stationId: station === null ? null : problem.stations[station]!.id, personIds: people.map((i) => problem.people[i]!.id), dryingPlaceId: place === null ? null : problem.places[place]!.id,
  };
}
