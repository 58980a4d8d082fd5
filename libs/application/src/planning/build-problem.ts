/** From the rows of the database to a planning problem. Pure and deterministic: everything in id order. */
import { DEFAULT_PEOPLE_CALIBRATION, type PeopleCalibration } from '#care';
import { DEFAULT_CALIBRATION, type CalibrationValues } from '#climate';
import type { PlanItem, PlanProblem } from '#planning';
import type { InputItem, InputRoom, PlanInput } from '../ports/plan-input.js';
import type { NotPlanned } from '../ports/plan-store.js';
import { type AirNow, DRYING_CALIBRATION, DryingOutlooks } from './drying-outlook.js';
import { HandsOfSteps } from './hands.js';
import { itemStandingOf } from './item-standing.js';
import { planPeople } from './plan-people.js';
import { type Reckoning, toPlanOption } from './plan-steps.js';
import { PresentUses } from './present-uses.js';
import { roomRemovalGPerH } from './room-removal.js';
import { amount, byId, SlotGrid } from './slots.js';

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
}

/** Turns rows into a problem that `checkProblem` of the planning library finds sound, whatever the rows are. */
export function buildProblem(input: PlanInput, options: ProblemOptions): BuiltProblem {
  const { nowMs, slotMinutes = 15, windowHours = 72, tailHours = 48, climate = DEFAULT_CALIBRATION, people = DEFAULT_PEOPLE_CALIBRATION } = options;
  const windowSlots = Math.max(1, Math.floor((windowHours * 60) / slotMinutes));
  const horizonSlots = windowSlots + Math.max(0, Math.floor((tailHours * 60) / slotMinutes));
  const grid = new SlotGrid(nowMs, slotMinutes, horizonSlots);
  const removal = new Map(input.rooms.map((room) => [room.id, roomRemovalGPerH(room, input, climate)]));
  const built: BuiltProblem = {
    problem: { originMs: grid.originMs, slotMinutes, horizonSlots, ...resourcesOf(input, grid, windowSlots, removal), people: planPeople(input, grid, windowSlots, people), items: [], fixed: [] },
    windowSlots, leftOut: [], late: new Set(), lookOnly: new Set(),
  };
  const by: Reckoning = { grid, outlooks: new DryingOutlooks(climate), hands: new HandsOfSteps(input, grid, { people, climate }) };
  const airs = dryingAirs(input.rooms, removal, by);
  const uses = new PresentUses(input, by, nowMs);
  for (const item of [...input.items].sort(byId)) enter(built, item, uses, airs.get(item.siteId) ?? DRYING_CALIBRATION.nominalAir, by, nowMs);
  return built;
}

function enter(built: BuiltProblem, item: InputItem, uses: PresentUses, air: AirNow, by: Reckoning, nowMs: number): void {
  const { use, freeFromSlot, presentStep } = uses.of(item);
  if (use !== null) built.problem.fixed.push(use);
  const standing = itemStandingOf(item, presentStep, nowMs);
  const weight = Math.max(1, amount(item.planningWeight));
  if (standing.kind === 'nothing-to-do') return;
  if (standing.kind === 'left-out') {
    built.leftOut.push({ itemId: item.id, weight, blockedBy: { kind: standing.why, what: '' } });
    return;
  }
  const planned: PlanItem = {
    id: item.id, siteId: item.siteId, releaseSlot: freeFromSlot, deadlineSlot: by.grid.floor(standing.deadlineMs), weight, stabilised: standing.stabilised,
    options: standing.routes.map((route) => toPlanOption(item, route, air, by)),
  };
  built.problem.items.push(planned);
  if (standing.late) built.late.add(item.id);
  if (standing.lookOnly) built.lookOnly.add(item.id);
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
    places: [...input.places].filter(({ roomId }) => roomIds.has(roomId)).sort(byId).map(({ id, roomId, areaDm2 }) => ({ id, roomId, areaDm2: amount(areaDm2), open: [whole] })),
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
    const hours = by.outlooks.of('garment', true, room)?.planHours ?? 0;
    const known = slowest.get(room.siteId);
    if (known === undefined || hours > known.hours) slowest.set(room.siteId, { air: room, hours });
  }
  return new Map([...slowest].map(([siteId, { air }]) => [siteId, air]));
}
