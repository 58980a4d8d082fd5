/** From the rows of the database to a planning problem. Pure and deterministic: everything in id order. */
import { DEFAULT_PEOPLE_CALIBRATION, type PeopleCalibration } from '#care';
import { DEFAULT_CALIBRATION, type CalibrationValues } from '#climate';
import type { PlanItem, PlanProblem } from '#planning';
import type { InputItem, InputRoom, PlanInput } from '../ports/plan-input.js';
import type { NotPlanned } from '../ports/plan-store.js';
import type { LapsedWish } from '../ports/plan-wish-store.js';
import { Benches } from './benches.js';
import { closenessOf, Companies } from './companies.js';
import { type AirNow, DryingOutlooks } from './drying-outlook.js';
import { HandsOfSteps } from './hands.js';
import { itemStandingOf, type Standing } from './item-standing.js';
import { planPeople } from './plan-people.js';
import { DEFAULT_PLANNING_VALUES, type PlanningValues } from './planning-calibration.js';
import type { Reckoning } from './plan-steps.js';
import { PresentUses } from './present-uses.js';
import { previousPlan } from './previous-plan.js';
import { Rides } from './rides.js';
import { roomRemovalGPerH } from './room-removal.js';
import { amount, byId, SlotGrid } from './slots.js';
import { WaysOfItems } from './ways.js';
import { Wishes } from './wishes.js';

/** How far and how finely to plan. */
export interface ProblemOptions {
  nowMs: number;
  /** Minutes of a slot; 15 when not given. */
  slotMinutes?: number;
  /** Hours in which work may be placed; three days when not given. */
  windowHours?: number;
  /** Hours after the window for what was hung late in it to dry out; two days when not given. Our own calibration. */
  tailHours?: number;
  /** The numbers of the climate library that the network works with; the defaults when not given. */
  climate?: CalibrationValues;
  /** The same for the numbers of the people checks. */
  people?: PeopleCalibration;
  /** The same for the hours that things take to dry in a plan, baths, and how firmly it keeps to the one before. */
  planning?: PlanningValues;
}

/** A problem with what the planner's objective cannot say. */
export interface BuiltProblem {
  problem: PlanProblem;
  /** Slots of the window; after it things only dry and lie frozen. */
  windowSlots: number;
  /** Items that are not safe and wait for people: no part of the problem. */
  leftOut: NotPlanned[];
  /** Items of the problem whose every deadline has passed. */
  late: Set<string>;
  /** Items of the problem that are only looked at, as they wait for their owner. */
  lookOnly: Set<string>;
  /** Pins that cannot hold any more. */
  lapsed: LapsedWish[];
}

/** Turns rows into a problem that `checkProblem` of the planning library finds sound, whatever the rows are. */
export function buildProblem(input: PlanInput, options: ProblemOptions): BuiltProblem {
  const { nowMs, slotMinutes = 15, windowHours = 72, tailHours = 48, climate = DEFAULT_CALIBRATION, people = DEFAULT_PEOPLE_CALIBRATION, planning = DEFAULT_PLANNING_VALUES } = options;
  const windowSlots = Math.max(1, Math.floor((windowHours * 60) / slotMinutes));
  const horizonSlots = windowSlots + Math.max(0, Math.floor((tailHours * 60) / slotMinutes));
  const grid = new SlotGrid(nowMs, slotMinutes, horizonSlots);
  const removal = new Map(input.rooms.map((room) => [room.id, roomRemovalGPerH(room, input, climate)]));
  const benches = new Benches(input, grid, windowSlots);
  const built: BuiltProblem = {
    problem: { originMs: grid.originMs, slotMinutes, horizonSlots, ...resourcesOf(input, grid, windowSlots, removal), people: planPeople(input, grid, windowSlots, people), items: [], fixed: [...benches.present()] },
    windowSlots, leftOut: [], late: new Set(), lookOnly: new Set(), lapsed: [],
  };
  const by: Reckoning = { grid, outlooks: new DryingOutlooks(climate, planning), hands: new HandsOfSteps(input, grid, { people, climate }), bathTakes: planning.bathTakes, companies: new Companies(), benches };
  const rides = new Rides(input, grid, windowSlots, { most: planning.ridesOffered, climate });
  const services = [...benches.services(), ...rides.services()];
  if (services.length > 0) built.problem.services = services;
  const ways = new WaysOfItems(built.problem, dryingAirs(input.rooms, removal, by), rides);
  const around: Omit<Around, 'fromSlot'> = { by, ways, uses: new PresentUses(input, by, nowMs), wishes: new Wishes(input, grid, built.problem), nowMs };
  for (const item of [...input.items].sort(byId)) {
    const arrival = rides.arrivalOf(item);
    enter(built, arrival === null ? item : { ...item, siteId: arrival.siteId }, { ...around, fromSlot: arrival?.atSlot ?? 0 });
  }
  built.lapsed = around.wishes.lapsed;
  built.problem.companies = by.companies.list();
  const previous = previousPlan(input.published, built.problem.items, grid, planning.holdMin);
  if (previous !== null) built.problem.previous = previous;
  return built;
}

/** What every item is looked at with. */
interface Around {
  by: Reckoning;
  ways: WaysOfItems;
  uses: PresentUses;
  wishes: Wishes;
  nowMs: number;
  /** First slot in which the item is where it is planned. */
  fromSlot: number;
}

function enter(built: BuiltProblem, item: InputItem, { by, ways, uses, wishes, nowMs, fromSlot }: Around): void {
  const { use, freeFromSlot, presentStep } = uses.of(item);
  if (use !== null) built.problem.fixed.push(use);
  const standing = wanted(itemStandingOf(item, presentStep, nowMs, by.benches.takersOf(item)), item, wishes);
  const weight = Math.max(1, amount(item.planningWeight));
  if (standing.kind === 'nothing-to-do') return;
  if (standing.kind === 'left-out') {
    built.leftOut.push({ itemId: item.id, weight, blockedBy: { kind: standing.why, what: '' } });
    return;
  }
  const planned: PlanItem = {
    id: item.id, siteId: item.siteId, releaseSlot: Math.max(freeFromSlot, fromSlot), deadlineSlot: by.grid.floor(standing.deadlineMs), weight, stabilised: standing.stabilised,
    options: ways.of(item, standing, by),
  };
  built.problem.items.push(wishes.heeded(planned));
  if (standing.late) built.late.add(item.id);
  if (standing.lookOnly) built.lookOnly.add(item.id);
}

/** Without the ways that people have ruled out. What is safe already is in no need of one. */
function wanted(standing: Standing, item: InputItem, wishes: Wishes): Standing {
  if (standing.kind !== 'to-plan') return standing;
  const routes = wishes.waysOf(item.id, standing.routes);
  if (routes.length > 0) return { ...standing, routes };
  return standing.stabilised && !standing.late ? { kind: 'nothing-to-do' } : { kind: 'left-out', why: 'wish' };
}

function resourcesOf(input: PlanInput, grid: SlotGrid, windowSlots: number, removal: ReadonlyMap<string, number>): Pick<PlanProblem, 'stations' | 'rooms' | 'places' | 'freezers'> {
  const whole = { from: 0, to: grid.horizonSlots };
  const roomIds = new Set(input.rooms.map(({ id }) => id));
  return {
    stations: [...input.stations].sort(byId).map(({ id, siteId, zone, steps, capacity, openings }) => ({
      id, siteId, zone, steps: [...steps].sort(), capacity: amount(capacity),
      open: openings.length === 0 ? [{ from: 0, to: windowSlots }] : grid.inside(openings, windowSlots),
    })),
    rooms: [...input.rooms].sort(byId).map(({ id, siteId }) => ({
      id, siteId, removalGPerSlot: [{ ...whole, limit: Math.floor((amount(removal.get(id) ?? 0) * grid.slotMinutes) / 60) }],
    })),
    places: [...input.places].filter(({ roomId }) => roomIds.has(roomId)).sort(byId).map((place) => ({ id: place.id, roomId: place.roomId, areaDm2: amount(place.areaDm2), open: [whole], closeness: closenessOf(place) })),
    freezers: [...input.freezers].sort(byId).map(({ id, siteId, volumeL, availableFromMs }) => ({ id, siteId, volumeCl: amount(volumeL * 100), open: grid.from(availableFromMs) })),
  };
}

/**
 * The air that drying hours of a site are reckoned in: that of its slowest room among those that take water at all, since
 * the planner is free to choose the room.
 */
function dryingAirs(rooms: readonly InputRoom[], removal: ReadonlyMap<string, number>, by: Reckoning): Map<string, AirNow> {
  const slowest = new Map<string, { air: AirNow; hours: number }>();
  for (const room of [...rooms].sort(byId)) {
    if ((removal.get(room.id) ?? 0) === 0) continue;
    const hours = by.outlooks.of({ sizeClass: 'garment', blotted: true }, room)?.planHours ?? 0;
    const known = slowest.get(room.siteId);
    if (known === undefined || hours > known.hours) slowest.set(room.siteId, { air: room, hours });
  }
  return new Map([...slowest].map(([siteId, { air }]) => [siteId, air]));
}
