/** What each step costs at given prices of the pools, for every slot at which it may begin. */
import type { BoundModel, RouteDrying, Shape } from './routes.js';

/** Costs at one set of prices; whole numbers throughout, so that no sum below 2^53 is rounded. */
export class PriceCosts {
  /** Per pool, what one unit costs from slot 0 up to each slot. */
  readonly upTo: Float64Array[];
  /** Per shape, by first slot; infinite where it cannot begin. */
  private readonly ofShape: (Float64Array | undefined)[] = [];

  /** @param prices per pool and block of `blockSlots` slots */
  constructor(private readonly model: BoundModel, prices: readonly Float64Array[], blockSlots: number) {
    const { slots } = model;
    this.upTo = prices.map((price) => {
      const sum = new Float64Array(slots + 1);
      for (let block = 0; block < price.length; block += 1) {
        const each = price[block]!;
        const to = Math.min(slots, (block + 1) * blockSlots);
        for (let slot = block * blockSlots; slot < to; slot += 1) sum[slot + 1] = sum[slot]! + each;
      }
      return sum;
    });
  }

  /** Cost of a step of the shape by its first slot. */
  shape(index: number): Float64Array {
    return (this.ofShape[index] ??= this.costsOf(this.model.shapes[index]!));
  }

  /** The pool of stations that is cheapest from that slot on. */
  cheapestStation({ stations, durationSlots }: Shape, slot: number): number {
    return cheapest(stations!, (station) => (station.starts[slot] === 1 ? this.span(station.pool, slot, slot + durationSlots) : Infinity)).pool;
  }

  /** Cost of drying from that slot on, in the cheapest room. */
  drying(drying: RouteDrying, durationSlots: number, slot: number): number {
    let least = Infinity;
    for (const room of drying.rooms) if (room.starts[slot] === 1) least = Math.min(least, this.inRoom(drying, room, durationSlots, slot));
    return least;
  }

  cheapestRoom(drying: RouteDrying, durationSlots: number, slot: number): RouteDrying['rooms'][number] {
    return cheapest(drying.rooms, (room) => (room.starts[slot] === 1 ? this.inRoom(drying, room, durationSlots, slot) : Infinity));
  }

  span(pool: number, from: number, to: number): number {
    const sum = this.upTo[pool]!;
    return sum[to]! - sum[from]!;
  }

  private inRoom({ areaDm2, loads }: RouteDrying, { area, air }: RouteDrying['rooms'][number], durationSlots: number, slot: number): number {
    const sum = this.upTo[air]!;
    let cost = areaDm2 * this.span(area, slot, slot + durationSlots);
    for (let k = 0; k < loads.length; k += 1) {
      const to = k + 1 < loads.length ? loads[k + 1]!.fromSlot : durationSlots;
      cost += loads[k]!.loadGPerSlot * (sum[slot + to]! - sum[slot + loads[k]!.fromSlot]!);
    }
    return cost;
  }

  private costsOf(shape: Shape): Float64Array {
    const { durationSlots, stations, crew, people, services, starts } = shape;
    const costs = new Float64Array(starts.length).fill(Infinity);
    const last = starts.length - 1 - durationSlots;
    for (let slot = 0; slot <= last; slot += 1) {
      if (starts[slot] !== 1) continue;
      let cost = 0;
      for (let k = 0; k < people.length; k += 1) cost += crew * this.span(people[k]!, slot, slot + durationSlots);
      if (stations !== null) cost += this.stationCost(stations, slot, durationSlots);
      cost = shareOf(cost, shape);
      for (let k = 0; k < services.length; k += 1) cost += services[k]!.units * this.span(services[k]!.pool, slot, slot + durationSlots);
      costs[slot] = cost;
    }
    return costs;
  }

  private stationCost(stations: NonNullable<Shape['stations']>, slot: number, durationSlots: number): number {
    let least = Infinity;
    for (const { pool, starts } of stations) if (starts[slot] === 1) least = Math.min(least, this.span(pool, slot, slot + durationSlots));
    return least;
  }
}

/** The share of a cost that one of several things bears, rounded down and one less, so that it is never too high. */
function shareOf(cost: number, { units, mostUnits }: Shape): number {
  return units === mostUnits ? cost : Math.max(0, Math.floor((cost / mostUnits) * units * (1 - 2 ** -40)) - 1);
}

function cheapest<T>(list: readonly T[], cost: (entry: T) => number): T {
  let best = list[0]!;
  let least = cost(best);
  for (let k = 1; k < list.length; k += 1) {
    const next = cost(list[k]!);
    if (next < least) { best = list[k]!; least = next; }
  }
  return best;
}
