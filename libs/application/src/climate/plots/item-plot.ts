/** The numbers of a plot of one thing. */
import { doseBand, thinPoints, type CalibrationValues, type PlotPoint } from '#climate';
import type { ItemClimateView, RoomView } from '../../ports/room-climate-store.js';
import type { WeighingRecord } from '../../ports/weighing-store.js';
import { DAY_MS } from '../durations.js';
import { bandShares, type BandShares } from '../room/fits.js';
import { dryMassKgEach, weighedX } from '../room/goods.js';
import { fromLastReading } from '../room/history.js';
import type { HungItem } from '../room/inputs.js';
import { moistures, slowIdOf, type RoomState } from '../room/state.js';
import { hoursAhead, type HourAhead } from './ahead.js';
import type { PlotAir } from './air-series.js';
import { momentsOf } from './moments.js';
import { affordable, replay, unhurried, type ReplayParts } from './replay.js';
import { airLook, reckonedAir, type AirLook, type ReckonedAir } from './room-plot.js';
import { moistureBand, type ThingMoisture } from './thing-band.js';

/** What a plot of a thing in a room is made from. */
export interface ItemRoomParts {
  climate: ItemClimateView;
  room: RoomView;
  fromMs: number;
  /** The newest reckoning, or when it was taken down. */
  asOfMs: number;
  toMs: number;
  air: PlotAir;
  weighings: WeighingRecord[];
  past: ReplayParts;
}

export interface ItemPlotParts {
  itemId: string;
  tagCode: string;
  timeZone: string;
  calibration: CalibrationValues;
  nowMs: number;
  /** null when nothing is reckoned of it: it never hung in a drying room, or has just been hung. */
  inRoom: ItemRoomParts | null;
}

export interface ItemRoomData extends Omit<ItemRoomParts, 'past'> {
  reckonedAir: ReckonedAir;
  /** Water above what counts as dry, kg, with its band. */
  waterKg: PlotPoint[];
  waterAheadKg: PlotPoint[];
  weighedKg: PlotPoint[];
  doubtedKg: PlotPoint[];
  /** Hours of the rule of practice that are used, with the ends that the sources span; null where mould cannot live on it. */
  clockH: PlotPoint[] | null;
  clockAheadH: PlotPoint[];
  everyMs: number | null;
}

export interface ItemPlotData extends Omit<ItemPlotParts, 'inRoom'> {
  inRoom: ItemRoomData | null;
}

/** Works the plot out: reckons, so outside of transactions. */
export async function itemPlotData({ inRoom, ...parts }: ItemPlotParts): Promise<ItemPlotData> {
  return { ...parts, inRoom: inRoom === null ? null : await inRoomData(inRoom, parts.calibration) };
}

interface ThingLook extends ThingMoisture {
  /** null where the moment does not tell. */
  dose: number | null;
  /** null for the moment at which it was taken down. */
  air: AirLook | null;
}

async function inRoomData({ past, ...parts }: ItemRoomParts, values: CalibrationValues): Promise<ItemRoomData> {
  const { climate: { standing, itemId }, asOfMs, toMs } = parts;
  const item = past.facts.items.find(({ id }) => id === itemId);
  const { air, everyMs } = affordable(past.air, past.facts.items.length);
  const jumps = past.facts.stays.filter((stay) => stay.itemId === itemId).flatMap((stay) => (stay.toMs === null ? [stay.fromMs] : [stay.fromMs, stay.toMs]));
  const moments = momentsOf({ fromMs: parts.fromMs, untilMs: asOfMs, air, jumps: [...jumps, ...(item?.weighings ?? []).map(({ atMs }) => atMs)] });
  const hangs = standing.takenAtMs === null;
  const looks = (await unhurried(replay({ ...past, air }, moments, new Set([itemId]), values), (moment) => lookAt(itemId, moment, values))).filter((look) => look !== null);
  const present = hangs ? fromLastReading(past.newest, asOfMs, { ...past.facts, observed: past.observed, elsewhere: past.elsewhere, readings: [], speeds: past.newest.speeds ?? [] }, values).state : null;
  const last = present === null ? standingLook(parts) : lookAt(itemId, { state: present, atMs: asOfMs, settled: true }, values);
  // What is stored counts at the end, also where the past could not be replayed from every reading.
  const history = last === null ? looks : [...looks.filter(({ atMs }) => atMs < asOfMs), last];
  const ahead = present !== null && toMs > asOfMs ? await unhurried(hoursAhead(present, past.weather, bandEndMs(standing.knownAtMs, toMs, asOfMs, sharesOf(standing, values)), values), (hour) => thingAhead(itemId, hour)) : [];
  return {
    ...parts, everyMs, reckonedAir: reckonedAir(history.flatMap(({ air: read }) => (read === null ? [] : [read])), ahead.map(({ hour }) => hour).filter(({ course }) => course.atMs <= toMs), (asOfMs - parts.fromMs) / 40),
    ...waterSeries(parts, item, history, ahead.map(({ water }) => water), values), ...clockSeries(standing.clock !== null, history, ahead.filter(({ water }) => water.atMs <= toMs), values),
  };
}

/** So far ahead is reckoned that the fast end of the band is known at the end of the plot; own choice: at most five days. */
function bandEndMs(knownAtMs: number, toMs: number, asOfMs: number, { fast }: BandShares): number {
  return Math.max(toMs, Math.min(knownAtMs + (toMs - knownAtMs) / fast, asOfMs + MOST_AHEAD_MS));
}
const sharesOf = ({ speedBand }: ItemClimateView['standing'], values: CalibrationValues): BandShares => speedBand ?? bandShares(null, values);
const MOST_AHEAD_MS = 5 * DAY_MS;

/** The thing at a moment of the past; null while it does not hang. Its clock is told at readings and when it is hung. */
function lookAt(itemId: string, { state, atMs, settled }: { state: RoomState; atMs: number; settled: boolean }, values: CalibrationValues): ThingLook | null {
  const hanging = state.hanging[itemId];
  const water = moistures(state.course).get(itemId);
  if (hanging === undefined || water === undefined) return null;
  return { atMs, ...water, dose: settled || atMs === hanging.hungAtMs ? (hanging.clock?.dose ?? null) : null, air: airLook(state, atMs, values) };
}

/** The thing as it was taken down. */
function standingLook({ climate: { standing }, asOfMs }: Pick<ItemRoomParts, 'climate' | 'asOfMs'>): ThingLook {
  const { moistureX, slowMoistureX, fastMoistureX = moistureX, clock } = standing;
  return { atMs: asOfMs, x: moistureX, mostX: slowMoistureX, leastX: fastMoistureX, dose: clock?.dose ?? null, air: null };
}

interface ThingAhead {
  water: ThingMoisture;
  dose: number;
  hour: HourAhead;
}

function thingAhead(itemId: string, hour: HourAhead): ThingAhead {
  const slow = hour.course.groups.find(({ id }) => id === slowIdOf(itemId)) ?? hour.course.groups.find(({ id }) => id === itemId);
  return { water: { atMs: hour.course.atMs, ...(moistures(hour.course).get(itemId) ?? { x: 0, mostX: 0, leastX: 0 }) }, dose: slow?.dose ?? 0, hour };
}

function waterSeries({ climate: { standing }, weighings, toMs }: Omit<ItemRoomParts, 'past'>, item: HungItem | undefined, history: readonly ThingLook[], ahead: readonly ThingMoisture[], values: CalibrationValues): Pick<ItemRoomData, 'waterKg' | 'waterAheadKg' | 'weighedKg' | 'doubtedKg'> {
  if (item === undefined) return { waterKg: [], waterAheadKg: [], weighedKg: [], doubtedKg: [] };
  const dryKg = dryMassKgEach(item) * item.count;
  const kgOf = (x: number): number => dryKg * Math.max(0, x - standing.targetX);
  const band = moistureBand([...history, ...ahead.slice(1)], standing.knownAtMs, standing.build !== 'thin', sharesOf(standing, values));
  const point = (water: ThingMoisture): PlotPoint => {
    const { lowX, highX } = band(water);
    return { atMs: water.atMs, value: kgOf(water.x), low: kgOf(lowX), high: kgOf(highX) };
  };
  const weighed = (state: WeighingRecord['state']): PlotPoint[] => thinPoints(weighings.filter((one) => one.state === state).map(({ weighedAtMs, massKg }) => ({ atMs: weighedAtMs, value: kgOf(weighedX(item, massKg)) })));
  return { waterKg: thinPoints(history.map(point)), waterAheadKg: ahead.filter(({ atMs }) => atMs <= toMs).map(point), weighedKg: weighed('accepted'), doubtedKg: weighed('doubtful') };
}

function clockSeries(hasClock: boolean, history: readonly ThingLook[], ahead: readonly ThingAhead[], values: CalibrationValues): Pick<ItemRoomData, 'clockH' | 'clockAheadH'> {
  if (!hasClock) return { clockH: null, clockAheadH: [] };
  const hours = values.mouldHoursAtReference;
  const point = (atMs: number, dose: number): PlotPoint => {
    const { lowest, highest } = doseBand(dose, values);
    return { atMs, value: dose * hours, low: lowest * hours, high: highest * hours };
  };
  return { clockH: thinPoints(history.flatMap(({ atMs, dose }) => (dose === null ? [] : [point(atMs, dose)]))), clockAheadH: ahead.map(({ water, dose }) => point(water.atMs, dose)) };
}
