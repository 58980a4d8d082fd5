/**
 * The bound by one resource at a time, as if work could be poured: the work of all that is due by a slot must fit into what the
 * resource offers up to that slot. These conditions are nested, so taking the items in order of weight per work, each as far as
 * it still fits, is optimal (greedy on a polymatroid); the best resource gives the bound. Of several routes the least work and
 * the latest end count. Work is in whole 4096ths, so all room left is exact; only the share of the last items is not.
 */
import type { BoundItem, BoundModel, RouteStep, Shape } from './routes.js';

/** A resource, or several that a step may choose from, with the work the items need of it. */
export interface FluidResource { name: string; capacity: Float64Array; demands: { item: BoundItem; work: number; due: number }[] }
export interface FluidBound { weight: number; resource: string | null }

const PARTS = 4096;
/** Far above what adding up the shares of a million items can lose, far below a unit of weight. */
const SHARE_ERROR = 1e-6;

/** Weight that no plan exceeds, from the resource that says so; all weight when there is none. */
export function fluidBound(model: BoundModel, resources: readonly FluidResource[] = fluidResources(model)): FluidBound {
  const all = model.items.reduce((sum, { weight }) => sum + weight, 0);
  let best: FluidBound = { weight: all, resource: null };
  for (const resource of resources) {
    const weight = Math.floor(all - leftOut(resource) + SHARE_ERROR);
    if (weight < best.weight) best = { weight, resource: resource.name };
  }
  return best;
}

/** All resources that somebody certainly needs. */
export function fluidResources(model: BoundModel): FluidResource[] {
  const resources = new Map<string, FluidResource>();
  for (const item of model.items) {
    for (const [name, { work, due, pools }] of certainDemands(model, item)) {
      let resource = resources.get(name);
      if (resource === undefined) resources.set(name, (resource = { name, capacity: together(model, pools), demands: [] }));
      resource.demands.push({ item, work, due });
    }
  }
  return [...resources.values()];
}

interface Demand { work: number; due: number; pools: readonly number[] }

/** What an item needs whichever of its routes it takes. */
function certainDemands(model: BoundModel, item: BoundItem): Map<string, Demand> {
  const [first, ...others] = item.routes.map((route) => demandsOf(model, route));
  for (const [name, demand] of first!) {
    for (const other of others) {
      const same = other.get(name);
      if (same === undefined) first!.delete(name);
      else { demand.work = Math.min(demand.work, same.work); demand.due = Math.max(demand.due, same.due); }
    }
  }
  return first!;
}

function demandsOf(model: BoundModel, route: readonly RouteStep[]): Map<string, Demand> {
  const demands = new Map<string, Demand>();
  for (const step of route) {
    const due = step.to + step.durationSlots;
    const add = (name: string, amount: number, pools: readonly number[]): void => {
      const work = Math.floor(amount * PARTS);
      const known = demands.get(name);
      if (known === undefined) demands.set(name, { work, due, pools });
      else { known.work += work; known.due = Math.max(known.due, due); }
    };
    addHands(model, model.shapes[step.shape]!, add);
    if (step.drying === null) continue;
    const { rooms, areaDm2, loads } = step.drying;
    const water = loads.reduce((sum, { fromSlot, loadGPerSlot }, k) => sum + loadGPerSlot * ((loads[k + 1]?.fromSlot ?? step.durationSlots) - fromSlot), 0);
    add(`area of ${step.siteId}`, areaDm2 * step.durationSlots, rooms.map(({ area }) => area));
    add(`air of ${step.siteId}`, water, rooms.map(({ air }) => air));
  }
  return demands;
}

function addHands(model: BoundModel, shape: Shape, add: (name: string, amount: number, pools: readonly number[]) => void): void {
  const share = shape.durationSlots * (shape.units / shape.mostUnits);
  if (shape.stations !== null) add(`stations for ${shape.stationGroup}`, share, shape.stations.map(({ pool }) => pool));
  for (const pool of shape.people) add(model.pools.list[pool]!.name, shape.crew * share, [pool]);
  for (const { pool, units } of shape.services) add(model.pools.list[pool]!.name, units * shape.durationSlots, [pool]);
}

function together(model: BoundModel, pools: readonly number[]): Float64Array {
  const sum = new Float64Array(model.slots);
  for (const pool of pools) model.pools.list[pool]!.capacity.forEach((amount, slot) => { sum[slot] = sum[slot]! + amount; });
  return sum;
}

/** Weight of what does not fit, in the best case. */
function leftOut({ capacity, demands }: FluidResource): number {
  const room = new PrefixRoom(capacity);
  const order = [...demands].sort((a, b) => a.work * b.item.weight - b.work * a.item.weight);
  let out = 0;
  for (const { item, work, due } of order) {
    if (work === 0) continue;
    const taken = Math.min(work, room.left(due));
    room.take(due, taken);
    if (taken < work) out += item.weight * (1 - taken / work);
  }
  return out;
}

/** Room left up to each slot; taking some by a slot takes it from every later one. Least over a suffix in O(log slots). */
class PrefixRoom {
  private readonly size: number;
  /** Least of the subtree, without what was added to its ancestors. */
  private readonly least: Float64Array;
  private readonly added: Float64Array;

  constructor(capacity: Float64Array) {
    this.size = 1;
    while (this.size < capacity.length + 1) this.size *= 2;
    this.least = new Float64Array(2 * this.size).fill(Infinity);
    this.added = new Float64Array(2 * this.size);
    let sum = 0;
    for (let slot = 0; slot <= capacity.length; slot += 1) {
      this.least[this.size + slot] = sum * PARTS;
      sum += capacity[slot] ?? 0;
    }
    for (let node = this.size - 1; node > 0; node -= 1) this.least[node] = Math.min(this.least[2 * node]!, this.least[2 * node + 1]!);
  }

  /** What still fits when it is due by that slot. */
  left(due: number): number {
    let node = this.size + due;
    let least = this.least[node]!;
    for (; node > 1; node >>= 1) {
      if ((node & 1) === 0) least = Math.min(least, this.least[node + 1]!);
      least += this.added[node >> 1]!;
    }
    return Math.max(0, least);
  }

  take(due: number, amount: number): void {
    let node = this.size + due;
    this.least[node] = this.least[node]! - amount;
    for (; node > 1; node >>= 1) {
      if ((node & 1) === 0) {
        this.least[node + 1] = this.least[node + 1]! - amount;
        this.added[node + 1] = this.added[node + 1]! - amount;
      }
      const parent = node >> 1;
      this.least[parent] = Math.min(this.least[2 * parent]!, this.least[2 * parent + 1]!) + this.added[parent]!;
    }
  }
}
