/** The numbers of a plot of a drying room. */
import { thinPoints, type CalibrationValues, type PlotPoint } from '#climate';
import type { RoomView } from '../../ports/room-climate-store.js';
import { HOUR_MS } from '../durations.js';
import { fromLastReading } from '../room/history.js';
import type { RoomState } from '../room/state.js';
import { hoursAhead, roomWater, type HourAhead } from './ahead.js';
import type { PlotAir } from './air-series.js';
import { momentsOf } from './moments.js';
import { affordable, replay, unhurried, type ReplayParts } from './replay.js';

/** What a plot of a room is made from. */
export interface RoomPlotParts {
  room: RoomView;
  timeZone: string;
  calibration: CalibrationValues;
  fromMs: number;
  /** The newest reckoning; before the first one the present. */
  asOfMs: number;
  toMs: number;
  air: PlotAir;
  /** null before the first reckoning. */
  past: ReplayParts | null;
}

/** Rates in kg/h of water. */
export interface RoomFlows {
  evaporation: PlotPoint[];
  evaporationAhead: PlotPoint[];
  dehumidifiersAhead: PlotPoint[];
  /** Negative: outdoor air brings water in. */
  outdoorAirAhead: PlotPoint[];
}

/** Lines of the air: reckoned where nobody measured, and foreseen. */
export interface ReckonedAir {
  tempC: PlotPoint[];
  tempAheadC: PlotPoint[];
  humidityPct: PlotPoint[];
  humidityAheadPct: PlotPoint[];
  /** A longer pause lies between two times without readings, ms. */
  longestGapMs: number;
}

export interface RoomPlotData extends Omit<RoomPlotParts, 'past'> {
  reckonedAir: ReckonedAir;
  /** Water left in everything that hangs, kg; `high` where thick and closed things may hold more. */
  waterKg: PlotPoint[];
  waterAheadKg: PlotPoint[];
  flows: RoomFlows;
  /** The past is replayed from one reading in so many ms, because there are so many things and readings; null: from all. */
  everyMs: number | null;
}

interface RoomLook {
  atMs: number;
  kg: number;
  atMostKg: number;
  evaporatedKg: number;
  air: AirLook;
}

/** The air as the reckoning took it. */
export interface AirLook {
  atMs: number;
  tempC: number;
  humidityPct: number;
  measured: boolean;
}

/** The air of a state, and whether a reading stood for it. */
export function airLook({ course, reading }: RoomState, atMs: number, values: CalibrationValues): AirLook {
  return { atMs, tempC: course.forcing.airTempC, humidityPct: course.relativeHumidityPct, measured: atMs - reading.atMs <= values.readingHoldH * HOUR_MS };
}

/** Works the plot out: reckons, so outside of transactions. */
export async function roomPlotData({ past, ...parts }: RoomPlotParts): Promise<RoomPlotData> {
  if (past === null) return { ...parts, ...NOTHING_RECKONED };
  const { fromMs, asOfMs, toMs, calibration } = parts;
  const { air, everyMs } = affordable(past.air, past.facts.items.length);
  const moments = momentsOf({ fromMs, untilMs: asOfMs, air, jumps: jumpsOf(past) });
  const look = ({ state, atMs }: { state: RoomState; atMs: number }): RoomLook => ({ atMs, ...waterOf(state), evaporatedKg: state.course.water.evaporatedKg, air: airLook(state, atMs, calibration) });
  const looks = await unhurried(replay({ ...past, air }, moments.slice(0, -1), new Set(), calibration), look);
  const present = fromLastReading(past.newest, asOfMs, { ...past.facts, observed: past.observed, elsewhere: [], readings: [], speeds: past.newest.speeds ?? [] }, calibration).state;
  looks.push(look({ state: present, atMs: asOfMs }));
  const ahead = toMs > asOfMs ? await unhurried(hoursAhead(present, past.weather, toMs, calibration), (hour) => hour) : [];
  return {
    ...parts, everyMs, reckonedAir: reckonedAir(looks.map((one) => one.air), ahead, (asOfMs - fromMs) / 40),
    waterKg: thinPoints(looks.map((one) => withBand(one.atMs, one))), waterAheadKg: ahead.map(({ course }) => withBand(course.atMs, roomWater(course))),
    flows: { evaporation: thinPoints(ratesOf(looks, (asOfMs - fromMs) / 100)), ...flowsAhead(ahead) },
  };
}

const NOTHING_RECKONED: Omit<RoomPlotData, keyof Omit<RoomPlotParts, 'past'>> = {
  reckonedAir: { tempC: [], tempAheadC: [], humidityPct: [], humidityAheadPct: [], longestGapMs: 0 }, waterKg: [], waterAheadKg: [], everyMs: null,
  flows: { evaporation: [], evaporationAhead: [], dehumidifiersAhead: [], outdoorAirAhead: [] },
};

function waterOf({ course }: RoomState): { kg: number; atMostKg: number } {
  return roomWater(course);
}

function jumpsOf({ facts }: ReplayParts): number[] {
  return [...facts.stays.flatMap(({ fromMs, toMs }) => (toMs === null ? [fromMs] : [fromMs, toMs])), ...facts.items.flatMap(({ weighings }) => weighings.map(({ atMs }) => atMs))];
}

/** A gram is nothing in a room. */
function withBand(atMs: number, { kg, atMostKg }: { kg: number; atMostKg: number }): PlotPoint {
  return atMostKg > kg + 0.001 ? { atMs, value: kg, high: atMostKg } : { atMs, value: kg };
}

/** Mean rates between looks that are at least so far apart, each in the middle of its time. */
function ratesOf(looks: readonly RoomLook[], leastMs: number): PlotPoint[] {
  const rates: PlotPoint[] = [];
  let from = looks[0];
  for (const look of looks.slice(1)) {
    if (from === undefined || look.atMs - from.atMs < leastMs) continue;
    rates.push({ atMs: (from.atMs + look.atMs) / 2, value: ((look.evaporatedKg - from.evaporatedKg) * HOUR_MS) / (look.atMs - from.atMs) });
    from = look;
  }
  return rates;
}

function flowsAhead(ahead: readonly HourAhead[]): Omit<RoomFlows, 'evaporation'> {
  const rate = (of: (step: NonNullable<HourAhead['step']>) => number): PlotPoint[] => ahead.flatMap(({ course, step }) => (step === null ? [] : [{ atMs: course.atMs, value: of(step) }]));
  return { evaporationAhead: rate((step) => step.evaporationKgPerH), dehumidifiersAhead: rate((step) => step.dehumidifiersKgPerH), outdoorAirAhead: rate((step) => step.outdoorAirKgPerH) };
}

/** Lines of air that nobody measured; a measured look at either end of such a time ends the line. */
export function reckonedAir(looks: readonly AirLook[], ahead: readonly HourAhead[], longestGapMs: number): ReckonedAir {
  const unread = looks.filter(({ measured }) => !measured);
  const line = (of: (look: AirLook) => number): PlotPoint[] => thinPoints(unread.map((look) => ({ atMs: look.atMs, value: of(look) })));
  return {
    tempC: line(({ tempC }) => tempC), humidityPct: line(({ humidityPct }) => humidityPct), longestGapMs,
    tempAheadC: ahead.map(({ course }) => ({ atMs: course.atMs, value: course.forcing.airTempC })),
    humidityAheadPct: ahead.map(({ course }) => ({ atMs: course.atMs, value: course.relativeHumidityPct })),
  };
}
