import { arrangementFactor, itemsAcceptable, standardItem, type AcceptedGroup, type Acceptance, type CalibrationValues, type StandardItemKind } from '#climate';
import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { climateCalibrationInForce } from '../calibration/in-force.js';
import { FACTOR_MOST, speedFor, type FittedSpeed } from '../climate/room/fits.js';
import type { RoomForecast } from '../climate/room/forecast.js';
import { goodsOf, moistureAtHanging } from '../climate/room/goods.js';
import type { HungItem } from '../climate/room/inputs.js';
import { runningAt } from '../climate/room/machines.js';
import { isEndId, type RoomState } from '../climate/room/state.js';
import type { FreeArea, ItemClimateView, RoomView } from '../ports/room-climate-store.js';
import type { Stores } from '../ports/work.js';

/** A room as it stood at its newest reckoning, with its open alarms. */
export interface RoomStateView {
  room: RoomView;
  openAlarms: number;
}

async function roomOf(stores: Stores, dryingRoomId: string): Promise<RoomView> {
  const room = await stores.roomClimate.room(dryingRoomId);
  if (!room) throw notFound('drying room');
  return room;
}

/** Air, water and clocks of a drying room by the newest reckoning. */
export async function getRoomState(stores: Stores, _call: UseCaseCall, input: { dryingRoomId: string }): Promise<RoomStateView> {
  const room = await roomOf(stores, input.dryingRoomId);
  return { room, openAlarms: await stores.alarms.countOpen([room.id]) };
}

/** What comes in a drying room; null before the first reckoning. */
export async function getRoomForecast(stores: Stores, _call: UseCaseCall, input: { dryingRoomId: string }): Promise<{ room: RoomView; forecast: RoomForecast | null }> {
  const room = await roomOf(stores, input.dryingRoomId);
  return { room, forecast: await stores.roomClimate.forecast(room.id) };
}

/** Water and clock of a thing in the room where it hangs or hung last; null when it never hung. */
export async function getItemClimate(stores: Stores, _call: UseCaseCall, input: { itemId: string }): Promise<{ itemId: string; tagCode: string; climate: ItemClimateView | null }> {
  const item = await stores.items.find(input.itemId);
  if (!item) throw notFound('item');
  return { itemId: item.id, tagCode: item.tagCode, climate: await stores.roomClimate.item(item.id) };
}

/** What hangs in a room, thing by thing. */
export async function listRoomItems(stores: Stores, _call: UseCaseCall, input: { dryingRoomId: string; limit: number; after: string | null }): Promise<ItemClimateView[]> {
  const room = await roomOf(stores, input.dryingRoomId);
  return stores.roomClimate.itemPage(room.id, input.limit, input.after);
}

/** What an answer about more things is reckoned from. */
export interface AcceptanceParts {
  room: RoomView;
  state: RoomState | null;
  running: ReturnType<typeof runningAt>;
  free: FreeArea;
  calibration: CalibrationValues;
}

/** Loads what `acceptanceOf` reckons with; that is done outside the transaction. */
export async function getRoomAcceptance(stores: Stores, call: UseCaseCall, input: { dryingRoomId: string }): Promise<AcceptanceParts> {
  const room = await roomOf(stores, input.dryingRoomId);
  const calibration = await climateCalibrationInForce(stores);
  const facts = await stores.roomClimate.facts(room.id);
  return { room, state: await stores.roomClimate.newestState(room.id), running: runningAt(facts?.machines ?? [], call.env.nowMs, calibration), free: await stores.roomClimate.freeArea(room.id), calibration };
}

/** The factor that things of a kind are reckoned with here, with the ends between which it most likely lies, and how many weighings it rests on: none for the general one. */
export interface KindSpeed {
  factor: number;
  low: number;
  high: number;
  weighings: number;
}

/** How many more of one standard kind; null where the air is outside what the drying model answers for. */
export interface KindAcceptance {
  kind: StandardItemKind;
  acceptance: Acceptance | null;
  /** The fewest at either end of the band of the speed: fast ones wet the air sooner, slow ones are wet for longer. */
  atLeast: number;
  speed: KindSpeed;
}

/** Steps of an hour: a plan for people, not a proof. Own choice. */
const ACCEPTANCE_STEP_H = 1;
/** Doses are told apart so finely when things are put together. */
const DOSE_BANDS = 4;

/** How many more things of each kind the room can take now, each kind by itself; empty before the first reckoning. */
export function acceptanceOf({ room, state, running, free, calibration }: AcceptanceParts, kinds: readonly StandardItemKind[], withinH: number): KindAcceptance[] {
  if (state === null) return [];
  const { forcing, relativeHumidityPct, volumeM3 } = state.course;
  const air = {
    volumeM3, airTempC: forcing.airTempC, airChangesPerH: forcing.airChangesPerH, outdoorTempC: forcing.outdoorTempC, outdoorRelativeHumidityPct: forcing.outdoorRelativeHumidityPct,
    dehumidifiers: running, startRelativeHumidityPct: relativeHumidityPct,
  };
  const existing = hangingNow(state, calibration);
  const freeRackM2 = Math.max(0, free.areaDm2 - free.takenDm2) / 100;
  return kinds.map((kind) => {
    const { item, speed } = freshGroup(kind, free.arrangement, room.standing?.speeds ?? [], calibration);
    const question = { room: air, existing, withinH, capPct: room.humidityCapPct, freeRackM2, rackM2PerItem: standardItem(kind).areaDm2 / 100, stepH: ACCEPTANCE_STEP_H };
    const most = (arrangementFactor: number, itemsMax?: number) => itemsAcceptable({ ...question, item: { ...item, arrangementFactor }, ...(itemsMax === undefined ? {} : { itemsMax }) }, calibration);
    try {
      const acceptance = most(speed.factor);
      const ends = acceptance.items === 0 ? [] : [speed.low, speed.high].map((factor) => most(factor, acceptance.items).items);
      return { kind, acceptance, atLeast: Math.min(acceptance.items, ...ends), speed };
    } catch (error) {
      if (error instanceof RangeError) return { kind, acceptance: null, atLeast: 0, speed };
      throw error;
    }
  });
}

/** A thing of a kind as it is hung after rinsing and blotting, from river water, where most room is. */
function freshGroup(kind: StandardItemKind, arrangement: FreeArea['arrangement'], speeds: readonly FittedSpeed[], calibration: CalibrationValues): { item: Omit<AcceptedGroup, 'count'>; speed: KindSpeed } {
  const { material, dryMassKg } = standardItem(kind);
  const item: HungItem = {
    id: kind, tagCode: '', householdId: '', count: 1, sizeClass: kind, dryMassG: dryMassKg * 1000, materialClass: material === 'paper' ? 'paper-uncoated' : 'textile-everyday', fibre: 'unknown', water: 'black', soil: 'unknown',
    wettedAtMs: 0, weighings: [], doubtedMs: [], lotSplitMs: null, wetSteps: [{ step: 'blot', atMs: 0 }], looks: [], earlier: [], left: [],
  };
  const { moistureX } = moistureAtHanging(item, 0, calibration);
  const fitted = speedFor(speeds, item, arrangement);
  const { id: _id, count: _count, airReach, ...goods } = goodsOf(item, arrangement, { moistureX, dose: 0 }, calibration);
  return { item: { ...goods, startX: moistureX }, speed: fitted ?? generalSpeed(arrangementFactor(airReach === undefined ? {} : { airReach }, calibration), calibration) };
}

function generalSpeed(factor: number, { thinErrorFraction }: CalibrationValues): KindSpeed {
  return { factor, low: factor * (1 - thinErrorFraction), high: Math.min(FACTOR_MOST, factor / (1 - thinErrorFraction)), weighings: 0 };
}

/**
 * The wet things that hang, put together by what dries alike and by how far their clocks are, so that a full room is asked as
 * quickly as an empty one. A clock that has run out cannot be saved by hanging less, so it binds nothing.
 */
function hangingNow({ course, hanging }: RoomState, { redDose }: CalibrationValues): AcceptedGroup[] {
  const groups = new Map<string, AcceptedGroup>();
  for (const group of course.groups) {
    if (isEndId(group.id) || group.moistureX <= group.targetX) continue;
    const dose = hanging[group.id]?.clock?.dose ?? 0;
    const binding = dose < redDose ? dose : 0;
    const key = JSON.stringify([group.material, group.build, group.airReach, group.arrangementFactor, group.mouldClass, dose < redDose ? Math.floor((binding / redDose) * DOSE_BANDS) : -1]);
    const known = groups.get(key);
    const massKg = group.count * group.dryMassKg;
    const one: AcceptedGroup = { ...group, count: 1, dryMassKg: massKg, exposedAreaM2: group.count * group.exposedAreaM2, startX: group.moistureX, startDose: binding };
    groups.set(key, known === undefined ? one : together(known, one));
  }
  return [...groups.values()];
}

function together(a: AcceptedGroup, b: AcceptedGroup): AcceptedGroup {
  const dryMassKg = a.dryMassKg + b.dryMassKg;
  return { ...a, dryMassKg, exposedAreaM2: a.exposedAreaM2 + b.exposedAreaM2, startX: (a.startX * a.dryMassKg + b.startX * b.dryMassKg) / dryMassKg, startDose: Math.max(a.startDose ?? 0, b.startDose ?? 0) };
}

