/** What is free of every resource in every slot, for plans that are made by following a list. Written from the problem statement alone. */
import { Lying } from './lying.js';
import type { FallingLoad, Interval, PlanProblem } from '#planning';

/** Free amount of one resource, slot by slot; negative where what has begun overdraws it. */
export class Supply {
  private readonly free: Float64Array;

  constructor(readonly horizon: number) {
    this.free = new Float64Array(horizon);
  }

  /** Overlapping intervals of a calendar are one. */
  open(intervals: readonly Interval[], amount: number): this {
    for (const { from, to } of intervals) this.free.fill(amount, Math.max(0, from), Math.max(0, Math.min(this.horizon, to)));
    return this;
  }

  take(from: number, to: number, amount: number): void {
    for (let slot = Math.max(0, from); slot < Math.min(this.horizon, to); slot += 1) this.free[slot]! -= amount;
  }

  /** The last slot of `[from, to)` in which there is less than `amount`; -1 when there is enough throughout. What needs nothing always has enough. */
  lastShort(from: number, to: number, amount: number): number {
    if (amount === 0) return -1;
    for (let slot = to - 1; slot >= from; slot -= 1) if (this.free[slot]! < amount) return slot;
    return -1;
  }
}

/** All resources of a problem with what has begun taken off. */
export interface Supplies {
  stations: Supply[];
  people: Supply[];
  places: Supply[];
  /** By room. */
  air: Supply[];
  freezers: Supply[];
  services: Supply[];
  /** What must not be joined. */
  lying: Lying;
  /** Position of a resource in its list, by id. */
  index: Record<'stations' | 'people' | 'places' | 'rooms' | 'freezers' | 'services', ReadonlyMap<string, number>>;
}

export function suppliesOf(problem: PlanProblem): Supplies {
  const { stations, people, places, rooms, freezers, services = [], horizonSlots } = problem;
  const supply = (open: readonly Interval[], amount: number): Supply => new Supply(horizonSlots).open(open, amount);
  const supplies: Supplies = {
    stations: stations.map(({ open, capacity }) => supply(open, capacity)),
    people: people.map(({ shifts }) => supply(shifts, 1)),
    places: places.map(({ open, areaDm2 }) => supply(open, areaDm2)),
    air: rooms.map(({ removalGPerSlot }) => removalGPerSlot.reduce((air, { from, to, limit }) => air.open([{ from, to }], limit), new Supply(horizonSlots))),
    freezers: freezers.map(({ open, volumeCl }) => supply(open, volumeCl)),
    services: services.map(({ open, capacity }) => supply(open, capacity)),
    lying: new Lying(problem),
    index: { stations: byId(stations), people: byId(people), places: byId(places), rooms: byId(rooms), freezers: byId(freezers), services: byId(services) },
  };
  takeBegun(problem, supplies);
  return supplies;
}

function takeBegun({ fixed, places }: PlanProblem, { index, ...supplies }: Supplies): void {
  for (const { interval: { from, to }, ...use } of fixed) {
    for (const id of use.personIds) supplies.people[index.people.get(id)!]!.take(from, to, 1);
    if (use.stationId !== null) supplies.stations[index.stations.get(use.stationId)!]!.take(from, to, 1);
    if (use.freezerId !== null) supplies.freezers[index.freezers.get(use.freezerId)!]!.take(from, to, use.volumeCl);
    if (use.dryingPlaceId === null) continue;
    const place = index.places.get(use.dryingPlaceId)!;
    supplies.places[place]!.take(from, to, use.areaDm2);
    const air = supplies.air[index.rooms.get(places[place]!.roomId)!]!;
    for (const stretch of stretchesOf(from, to, use.loadGPerSlot, use.falling)) air.take(stretch.from, stretch.to, stretch.loadG);
  }
}

/** The stretches of a drying with the water that it gives the air per slot in each. */
export function stretchesOf(from: number, to: number, loadGPerSlot: number, falling: readonly FallingLoad[] = []): (Interval & { loadG: number })[] {
  const starts = [{ fromSlot: 0, loadGPerSlot }, ...falling];
  return starts
    .map(({ fromSlot, loadGPerSlot: loadG }, i) => ({ from: from + fromSlot, to: Math.min(to, from + (starts[i + 1]?.fromSlot ?? to - from)), loadG }))
    .filter((stretch) => stretch.to > stretch.from);
}

function byId(list: readonly { id: string }[]): Map<string, number> {
  return new Map(list.map(({ id }, i) => [id, i]));
}
