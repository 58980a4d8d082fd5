/** How a room and its things stand at a moment, from the state of then and what is foreseen. Plain JSON, as it is stored and read. */
import { advanceRoomCourse, dehumidifierRemovalKgPerH, dryingLaw, humidityRatio, moistAir, mouldClock, roomState, roomSteadyState, specificVolumeM3PerKg, surfaceConditions, type CalibrationValues, type CourseGroup, type Dehumidifier, type DryingLaw, type MouldClock, type RoomClimate, type RoomCourseState } from '#climate';
import { bandShares, speedFor, type BandShares, type FittedSpeed } from './fits.js';
import type { RoomForecast, ItemForecast } from './forecast.js';
import { waterLeftKg } from './forecast.js';
import { clockThingOf, dryMassKgEach, standardOf, type MoistureBasis } from './goods.js';
import { HOUR_MS, MINUTE_MS } from '../durations.js';
import type { HungItem, RoomFacts } from './inputs.js';
import { machineOf, isReckonable } from './machines.js';
import type { WeighedStanding } from './weighed.js';
import { isEndId, moistures, type HangingState, type LeftItem, type RoomState, type ThingWater } from './state.js';

/** The clock of a thing, on what it rests, and when it gets where. */
export interface ItemClock {
  dose: number;
  state: MouldClock['state'];
  paused: boolean;
  hoursLeft: number | null;
  hoursLeftBand: { shortest: number; longest: number } | null;
  /** Part of the dose that rests on assumptions, 0 to 1. */
  assumedShare: number;
  measuredH: number;
  interpolatedH: number;
  assumedH: number;
  amberMs: number | null;
  redMs: number | null;
}

/** A thing in its room. */
export interface ItemStanding {
  itemId: string;
  hungAtMs: number;
  takenAtMs: number | null;
  asOfMs: number;
  /** kg water per kg dry, by the thin-goods model and the mass of its class, and at the ends of its band. The fast end is absent in what was stored before there was one. */
  moistureX: number;
  slowMoistureX: number;
  fastMoistureX?: number;
  targetX: number;
  /** Water above what counts as dry, kg: expected, at most, at least. */
  waterKg: number;
  slowWaterKg: number;
  fastWaterKg?: number;
  moistureBasis: MoistureBasis;
  knownAtMs: number;
  /** On what the speed rests that it dries with, and on how many weighings. Absent when it hangs no longer, and in what was stored before there was a choice. */
  speedBasis?: 'general' | 'fitted';
  speedWeighings?: number;
  /** The ends of its band, in parts of the time expected; absent for the general error. */
  speedBand?: BandShares;
  build: 'thin' | 'thick' | 'closed';
  /** What its weighings say since it hangs so; null where it was not weighed. Absent in what was stored before it was asked, and when it hangs no longer. */
  weighed?: WeighedStanding | null;
  /** Dry by the late end of its band, or ready by weight. */
  dry: boolean;
  dryEarliestMs: number | null;
  dryExpectedMs: number | null;
  dryLatestMs: number | null;
  /** As in the forecast: the moment of the thin-goods model. Absent when it hangs no longer. */
  modelDryMs?: number | null;
  /** How it dries in the air of the room now; null outside what the drying model answers for. Absent when it hangs no longer, and in what was stored before plans asked. */
  law?: DryingLaw | null;
  /** null where mould cannot live on it. */
  clock: ItemClock | null;
}

/** The room as a whole. */
export interface RoomStanding {
  asOfMs: number;
  airTempC: number;
  relativeHumidityPct: number;
  /** False when the last reading is too old and the air is reckoned from it. */
  measured: boolean;
  readingAtMs: number;
  outdoorTempC: number;
  outdoorRelativeHumidityPct: number;
  humidityCapPct: number;
  state: RoomClimate['state'];
  things: number;
  waterKg: number;
  evaporationKgPerH: number;
  /** Negative: outdoor air brings water in. */
  outdoorAirKgPerH: number;
  dehumidifiersKgPerH: number;
  machinesRunning: number;
  machinesTripped: number;
  /** To hold the temperature while all is wet; null where it cannot be reckoned. */
  heatToHoldKw: number | null;
  clocks: { inTime: number; amber: number; red: number; none: number };
  /** Factors that weighings have fitted, with which it was reckoned. Absent in what was stored before others asked. */
  speeds?: readonly FittedSpeed[];
  dryThings: number;
  nextDryMs: number | null;
  allDryLatestMs: number | null;
  peakRelativeHumidityPct: number;
  peakAtMs: number;
  overCapMs: number | null;
}

/** What weighings have told: of speeds, and of single things. */
export interface KnownOfThings {
  speeds: readonly FittedSpeed[];
  weighed: ReadonlyMap<string, WeighedStanding>;
}

/** What there is to know of the things that hang. */
export function standItems(state: RoomState, forecast: RoomForecast, items: ReadonlyMap<string, HungItem>, { speeds, weighed }: KnownOfThings, values: CalibrationValues): ItemStanding[] {
  const wet = moistures(state.course);
  const groups = new Map(state.course.groups.map((group) => [group.id, group]));
  const air = { airTempC: state.course.forcing.airTempC, relativeHumidityPct: state.course.relativeHumidityPct };
  const foreseen = new Map(forecast.items.map((one) => [one.itemId, one]));
  return Object.entries(state.hanging).flatMap(([itemId, hanging]) => {
    const item = items.get(itemId);
    const water = wet.get(itemId);
    const group = groups.get(itemId);
    if (item === undefined || water === undefined || group === undefined) return [];
    const { targetX } = group;
    const ahead = foreseen.get(itemId) ?? NOTHING_AHEAD;
    const byWeight = weighed.get(itemId) ?? null;
    return [{ ...standingOf(item, hanging, water, targetX, state.atMs), ...speedOn(speedFor(speeds, item, hanging.arrangement), values), ...drying(ahead), modelDryMs: ahead.modelDryMs ?? null, law: lawOf(group, air, values), weighed: byWeight, dry: isDry(water.slowX <= targetX, ahead, byWeight, state.atMs), clock: clockOf(item, hanging, water.slowX, air, ahead, values) }];
  });
}

/**
 * Whoever packs a thing that is called dry and is not, packs mould: so the late end of its band must have passed too. The scale
 * alone may call it ready sooner.
 */
function isDry(reckonedDry: boolean, { dryLatestMs }: Omit<ItemForecast, 'itemId'>, byWeight: WeighedStanding | null, atMs: number): boolean {
  if (byWeight?.decision === 'ready') return true;
  return reckonedDry && dryLatestMs !== null && dryLatestMs <= atMs;
}

function lawOf(group: CourseGroup, air: { airTempC: number; relativeHumidityPct: number }, values: CalibrationValues): DryingLaw | null {
  try {
    return dryingLaw({ ...group, ...air }, values);
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

/** A thing as it left the room. */
export function standLeft(left: LeftItem, item: HungItem, values: CalibrationValues): ItemStanding {
  const hanging: HangingState = { hungAtMs: left.hungAtMs, moistureBasis: left.moistureBasis, knownAtMs: left.knownAtMs, arrangement: 'rack', clock: left.clock };
  const { water } = left;
  const clock = left.clock === null ? null : clockOf(item, hanging, water.slowX, { airTempC: 20, relativeHumidityPct: 50 }, NOTHING_AHEAD, values);
  return { ...standingOf(item, hanging, water, left.targetX, left.takenAtMs), takenAtMs: left.takenAtMs, ...drying(NOTHING_AHEAD), clock: clock && { ...clock, paused: false, hoursLeft: null, hoursLeftBand: null } };
}

const NOTHING_AHEAD: Omit<ItemForecast, 'itemId'> = { dryEarliestMs: null, dryExpectedMs: null, dryLatestMs: null, amberMs: null, redMs: null };

function standingOf(item: HungItem, hanging: HangingState, { x, slowX, fastX, mostX, leastX }: ThingWater, targetX: number, atMs: number) {
  const dryKg = dryMassKgEach(item) * item.count;
  return {
    itemId: item.id, hungAtMs: hanging.hungAtMs, takenAtMs: null, asOfMs: atMs, moistureX: x, slowMoistureX: slowX, fastMoistureX: fastX, targetX,
    waterKg: dryKg * Math.max(0, x - targetX), slowWaterKg: dryKg * Math.max(0, mostX - targetX), fastWaterKg: dryKg * Math.max(0, leastX - targetX),
    moistureBasis: hanging.moistureBasis, knownAtMs: hanging.knownAtMs, build: standardOf(item.sizeClass).build, dry: slowX <= targetX,
  };
}

function speedOn(speed: FittedSpeed | null, values: CalibrationValues): Pick<ItemStanding, 'speedBasis' | 'speedWeighings' | 'speedBand'> {
  return speed === null ? { speedBasis: 'general', speedWeighings: 0 } : { speedBasis: 'fitted', speedWeighings: speed.weighings, speedBand: bandShares(speed, values) };
}

function drying({ dryEarliestMs, dryExpectedMs, dryLatestMs }: Omit<ItemForecast, 'itemId'>) {
  return { dryEarliestMs, dryExpectedMs, dryLatestMs };
}

function clockOf(item: HungItem, { clock }: HangingState, slowX: number, air: { airTempC: number; relativeHumidityPct: number }, ahead: Omit<ItemForecast, 'itemId'>, values: CalibrationValues): ItemClock | null {
  if (clock === null) return null;
  const thing = clockThingOf(item);
  const { dose, state, paused, hoursLeft, hoursLeftBand } = mouldClock(clock.dose, surfaceConditions(air, thing.material, Math.min(20, slowX), values), thing.mouldClass, values);
  return {
    dose, state, paused, hoursLeft, hoursLeftBand, assumedShare: dose === 0 ? 0 : clock.doseBy.assumed / dose,
    measuredH: clock.hoursBy.measured, interpolatedH: clock.hoursBy.interpolated, assumedH: clock.hoursBy.assumed, amberMs: ahead.amberMs, redMs: ahead.redMs,
  };
}

/** The room with what it can do now. */
export function standRoom(state: RoomState, forecast: RoomForecast, items: readonly ItemStanding[], facts: RoomFacts, values: CalibrationValues): RoomStanding {
  const { course } = state;
  // Humidity goes through the humidity ratio and back; at the cap a rounding error must not decide.
  const air = { airTempC: course.forcing.airTempC, relativeHumidityPct: Math.round(course.relativeHumidityPct * 1e6) / 1e6 };
  const flows = flowsNow(state, facts, values);
  const clocks = { inTime: 0, amber: 0, red: 0, none: 0 };
  for (const { clock } of items) clocks[clock === null ? 'none' : clock.state === 'in-time' ? 'inTime' : clock.state] += 1;
  const wet = items.filter(({ dry }) => !dry);
  const known = <T>(list: (T | null)[]): T[] => list.filter((one): one is T => one !== null);
  const latest = wet.map(({ dryLatestMs }) => dryLatestMs);
  return {
    asOfMs: state.atMs, ...air, measured: state.atMs - state.reading.atMs <= values.readingHoldH * HOUR_MS, readingAtMs: state.reading.atMs,
    outdoorTempC: course.forcing.outdoorTempC, outdoorRelativeHumidityPct: course.forcing.outdoorRelativeHumidityPct, humidityCapPct: facts.room.humidityCapPct,
    state: roomState({ ...air, capPct: facts.room.humidityCapPct }, values).state,
    things: items.length, waterKg: waterLeftKg(course), ...flows, clocks,
    machinesRunning: facts.machines.filter((machine) => machine.state === 'running').length, machinesTripped: facts.machines.filter((machine) => machine.state === 'tripped').length,
    dryThings: items.length - wet.length,
    nextDryMs: earliest(known(wet.map(({ dryEarliestMs }) => dryEarliestMs))),
    allDryLatestMs: latest.includes(null) || latest.length === 0 ? null : Math.max(...known(latest)),
    peakRelativeHumidityPct: forecast.peak.relativeHumidityPct, peakAtMs: forecast.peak.atMs, overCapMs: forecast.overCapMs,
  };
}

function earliest(moments: readonly number[]): number | null {
  return moments.length === 0 ? null : Math.min(...moments);
}

/** Where water comes from and goes at this moment, kg/h, and the heat to hold the temperature. */
function flowsNow({ course }: RoomState, facts: RoomFacts, values: CalibrationValues): Pick<RoomStanding, 'evaporationKgPerH' | 'outdoorAirKgPerH' | 'dehumidifiersKgPerH' | 'heatToHoldKw'> {
  const { forcing, relativeHumidityPct } = course;
  const air = moistAir({ airTempC: forcing.airTempC, relativeHumidityPct });
  const machines = facts.machines.filter((machine) => machine.state === 'running').map(machineOf).filter((machine) => isReckonable(machine, values));
  const outdoorW = humidityRatio(moistAir({ airTempC: forcing.outdoorTempC, relativeHumidityPct: forcing.outdoorRelativeHumidityPct }));
  return {
    evaporationKgPerH: evaporationNow(course, values),
    outdoorAirKgPerH: (course.volumeM3 / specificVolumeM3PerKg(air)) * forcing.airChangesPerH * (course.humidityRatio - outdoorW),
    dehumidifiersKgPerH: machines.reduce((sum, machine) => sum + dehumidifierRemovalKgPerH(machine, air, false, values), 0),
    heatToHoldKw: heatNow(course, machines, values),
  };
}

/** Over the minute that comes, which changes nothing. */
function evaporationNow(course: RoomCourseState, values: CalibrationValues): number {
  return advanceRoomCourse({ ...course, resume: null }, course.atMs + MINUTE_MS, { air: 'measured' }, values).steps[0]?.evaporationKgPerH ?? 0;
}

/** While all that is wet stays wet; null when nothing is, and outside what the drying model answers for. */
function heatNow({ groups, forcing, volumeM3 }: RoomCourseState, dehumidifiers: Dehumidifier[], values: CalibrationValues): number | null {
  const wet = groups.filter(({ id, moistureX, targetX }) => !isEndId(id) && moistureX > targetX).map((group) => ({ ...group, startX: group.moistureX, startDose: group.dose }));
  if (wet.length === 0) return null;
  try {
    const room = { volumeM3, airTempC: forcing.airTempC, airChangesPerH: forcing.airChangesPerH, outdoorTempC: forcing.outdoorTempC, outdoorRelativeHumidityPct: forcing.outdoorRelativeHumidityPct, dehumidifiers };
    return roomSteadyState(room, wet, {}, values).heatToHoldKw;
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}
