/** Rides of vehicles between sites, as the planner takes them: when each leaves, what it takes, and which things may go with it. Pure. */
import type { CalibrationValues } from '#climate';
import type { Interval, PlanService, PlanStep } from '#planning';
import { liftOf } from '../care/hands-on.js';
import type { InputItem, InputRide, InputVehicle, PlanInput } from '../ports/plan-input.js';
import { amount, byId, type SlotGrid } from './slots.js';

/** A ride that a thing may take. */
export interface RideTaken {
  id: string;
  toSiteId: string;
  slots: number;
  /** What the thing is reckoned to weigh as wet as it was last seen, in whole kg and at least 1. Nobody has weighed it. */
  kg: number;
}

interface KnownRide extends InputRide {
  vehicleId: string;
  slots: number;
  maxLoadKg: number;
  open: Interval[];
}

/** Rides of those vehicles of which it is known what they carry. */
export class Rides {
  private readonly known: readonly KnownRide[];

  /** @param numbers most rides that are offered to a thing (0 for none), and those by which wet things are reckoned */
  constructor({ vehicles = [] }: Pick<PlanInput, 'vehicles'>, private readonly grid: SlotGrid, windowSlots: number, private readonly numbers: { most: number; climate: CalibrationValues }) {
    this.known = [...vehicles].sort(byId).flatMap((vehicle) => ridesOf(vehicle, grid, windowSlots));
  }

  /** One for each ride, in the order of vehicles and of their rides; units are kilograms. */
  services(): PlanService[] {
    return this.known.map(({ id, maxLoadKg, open }) => ({ id, kind: 'courier', capacity: maxLoadKg, open }));
  }

  /**
   * Where an item that is in a vehicle gets down; null for one that is in none, and for a ride of which nothing is known. One that is being
   * loaded leaves at once; one that should be there by now is taken to be there.
   */
  arrivalOf({ riding }: Pick<InputItem, 'riding'>): Arrival | null {
    const ride = riding && this.known.find(({ vehicleId, fromSiteId, toSiteId }) => vehicleId === riding.vehicleId && fromSiteId === riding.fromSiteId && toSiteId === riding.toSiteId);
    if (ride === undefined) return null;
    const leftAt = riding?.departedAtMs == null ? 0 : this.grid.ceil(riding.departedAtMs);
    return { siteId: ride.toSiteId, atSlot: Math.max(0, leftAt + ride.slots) };
  }

  /**
   * Rides that an item may take from where it waits: the fastest to each other site, fewest minutes first, then second ones. None for
   * what carrying could harm or endanger, for what is in hand or lies where it is to lie, and for what is heavier than the vehicle takes:
   * our own choice. Inside a container it goes where the container goes.
   */
  of(item: InputItem): RideTaken[] {
    const { most, climate } = this.numbers;
    if (this.known.length === 0 || most === 0 || !mayBeCarried(item)) return [];
    const kg = reckonedKg(item, climate);
    if (kg === null) return [];
    const open = this.known.filter(({ fromSiteId, maxLoadKg, open: departures }) => fromSiteId === item.siteId && kg <= maxLoadKg && departures.length > 0);
    const ranked = [...open].sort(byMinutes).map((ride, at, all) => ({ ride, rank: all.slice(0, at).filter(({ toSiteId }) => toSiteId === ride.toSiteId).length }));
    return ranked.sort((a, b) => a.rank - b.rank || byMinutes(a.ride, b.ride)).slice(0, most).map(({ ride: { id, toSiteId, slots } }) => ({ id, toSiteId, slots, kg }));
  }
}

/** Where a thing that is on a ride gets down, and when as it is reckoned. */
export interface Arrival {
  siteId: string;
  atSlot: number;
}

/** The step that takes an item to another site: nobody of the hall is counted for it, as loading is the driver's and the crew's. */
export function carryStep({ id, slots, kg }: RideTaken, zone: PlanStep['zone']): PlanStep {
  return { step: 'carry', zone, durationSlots: slots, noStation: true, services: [{ serviceId: id, units: kg }], crew: 0, skill: null, barredRestrictions: [], drying: null, freezer: null, stabilises: null };
}

/** Of the whole lot, in whole kg and at least 1; null where it is outside what the climate library answers for. */
export function reckonedKg(item: Pick<InputItem, 'count' | 'sizeClass' | 'dryMassG' | 'wetState'>, climate: CalibrationValues): number | null {
  try {
    return Math.max(1, amount(liftOf('pack', item, item.wetState, climate).loadKg * item.count));
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

const WAITS_AT: ReadonlySet<InputItem['keeper']['kind']> = new Set(['holding', 'shelf', 'station']);

/** What waits, and neither carries mould that lives nor anything that is a hazard to people. */
export function mayBeCarried({ stage, keeper, mould, company, stabilisedAtMs }: InputItem): boolean {
  return stage === 'waiting' && WAITS_AT.has(keeper.kind) && mould !== 'active' && (company?.hazards ?? []).length === 0 && stabilisedAtMs === null;
}

function byMinutes(a: KnownRide, b: KnownRide): number {
  return a.minutes - b.minutes || byId(a, b);
}

/**
 * A vehicle makes its rides one after the other in the order in which they were given, again and again while it runs. Where the next
 * begins at another site than the last has ended at, it rides there empty, in the minutes of its ride between the two (either way), or
 * else in those of the ride it has just made. So it is never in two places, and all that leave together share one load. Our own choice.
 */
function ridesOf({ id: vehicleId, rides, runs, maxLoadKg }: InputVehicle, grid: SlotGrid, windowSlots: number): KnownRide[] {
  let cycle = 0;
  const legs = rides.map((ride, at) => {
    const leg = { ride, offset: cycle, slots: grid.taking(ride.minutes) };
    cycle += leg.slots + emptyLegSlots(rides, ride, rides[(at + 1) % rides.length] ?? ride, grid);
    return leg;
  });
  const spans = runs.length === 0 ? [wholeWindow(grid, windowSlots, cycle)] : joined(runs.map(({ fromMs, toMs }) => ({ from: grid.ceil(fromMs), to: Math.min(windowSlots, grid.floor(toMs)) })));
  return legs.map(({ ride, offset, slots }) => ({
    ...ride, vehicleId, slots, maxLoadKg: amount(maxLoadKg), open: spans.flatMap((span) => departures(span, { first: span.from + offset, every: cycle, slots })),
  }));
}

function emptyLegSlots(rides: readonly InputRide[], made: InputRide, next: InputRide, grid: SlotGrid): number {
  if (made.toSiteId === next.fromSiteId) return 0;
  const between = (from: string, to: string): InputRide | undefined => rides.find(({ fromSiteId, toSiteId }) => fromSiteId === from && toSiteId === to);
  return grid.taking((between(made.toSiteId, next.fromSiteId) ?? between(next.fromSiteId, made.toSiteId) ?? made).minutes);
}

/** Without stated times the rounds are counted from a moment that every plan finds again, or each would have the vehicle leave at other times. */
function wholeWindow(grid: SlotGrid, windowSlots: number, cycle: number): Interval {
  return { from: -((grid.originMs / grid.slotMs) % cycle), to: windowSlots };
}

/** Spans in order, those that meet as one: a ride goes on where one follows at once. */
function joined(spans: readonly Interval[]): Interval[] {
  const all: Interval[] = [];
  for (const span of [...spans].filter(({ from, to }) => to > from).sort((a, b) => a.from - b.from || a.to - b.to)) {
    const last = all.at(-1);
    if (last !== undefined && span.from <= last.to) last.to = Math.max(last.to, span.to);
    else all.push({ ...span });
  }
  return all;
}

/** Rides that are made whole within the span, from now on. */
function departures({ to }: Interval, { first, every, slots }: { first: number; every: number; slots: number }): Interval[] {
  const open: Interval[] = [];
  const skipped = first < 0 ? Math.ceil(-first / every) : 0;
  for (let from = first + skipped * every; from + slots <= to; from += every) open.push({ from, to: from + slots });
  return open;
}
