import { notFound } from '#contracts';
import type { CalibrationValues } from '#climate';
import type { UseCaseCall } from '../call.js';
import { climateCalibrationInForce } from '../calibration/in-force.js';
import { plotAir, type PlotAir } from '../climate/plots/air-series.js';
import type { ItemPlotParts, ItemRoomParts } from '../climate/plots/item-plot.js';
import type { ReplayParts } from '../climate/plots/replay.js';
import type { RoomPlotParts } from '../climate/plots/room-plot.js';
import { airOf } from '../climate/reckon-room.js';
import { FORECAST_H } from '../climate/room/forecast.js';
import { HOUR_MS } from '../climate/durations.js';
import type { InputPlaceReading, RoomFacts } from '../climate/room/inputs.js';
import type { RoomState } from '../climate/room/state.js';
import type { RoomView } from '../ports/room-climate-store.js';
import type { Stores } from '../ports/work.js';

/** How far a plot reaches back from the newest reckoning, and ahead of it. */
export interface PlotHours {
  hoursBack: number;
  hoursAhead: number;
}

/** What a plot of a room is made from; `roomPlotData` works it out. */
export async function getRoomPlot(stores: Stores, call: UseCaseCall, { dryingRoomId, hoursBack, hoursAhead }: PlotHours & { dryingRoomId: string }): Promise<RoomPlotParts> {
  const room = await stores.roomClimate.room(dryingRoomId);
  if (!room) throw notFound('drying room');
  const calibration = await climateCalibrationInForce(stores);
  const asOfMs = room.standing?.asOfMs ?? call.env.nowMs;
  const fromMs = asOfMs - hoursBack * HOUR_MS;
  const past = room.standing === null ? null : await loadPast(stores, room, { fromMs, asOfMs, itemId: null });
  return {
    room, calibration, timeZone: await stores.imports.timeZone(), fromMs, asOfMs, toMs: past === null ? asOfMs : asOfMs + hoursAhead * HOUR_MS,
    air: await loadAir(stores, room, fromMs, asOfMs, calibration), past,
  };
}

/** What a plot of a thing is made from; `itemPlotData` works it out. */
export async function getItemPlot(stores: Stores, call: UseCaseCall, { itemId, ...hours }: PlotHours & { itemId: string }): Promise<ItemPlotParts> {
  const item = await stores.items.find(itemId);
  if (!item) throw notFound('item');
  const calibration = await climateCalibrationInForce(stores);
  return { itemId: item.id, tagCode: item.tagCode, calibration, timeZone: await stores.imports.timeZone(), nowMs: call.env.nowMs, inRoom: await loadItemInRoom(stores, item.id, hours, calibration) };
}

async function loadItemInRoom(stores: Stores, itemId: string, { hoursBack, hoursAhead }: PlotHours, calibration: CalibrationValues): Promise<ItemRoomParts | null> {
  const climate = await stores.roomClimate.item(itemId);
  const room = climate === null ? null : await stores.roomClimate.room(climate.roomId);
  if (climate === null || room === null) return null;
  const { takenAtMs, asOfMs: reckonedMs } = climate.standing;
  const asOfMs = takenAtMs ?? reckonedMs;
  const fromMs = asOfMs - hoursBack * HOUR_MS;
  const past = await loadPast(stores, room, { fromMs, asOfMs, itemId });
  if (past === null) return null;
  const weighings = (await stores.weighings.ofItem(itemId)).filter(({ weighedAtMs }) => weighedAtMs >= fromMs && weighedAtMs <= asOfMs);
  return { climate, room, fromMs, asOfMs, toMs: takenAtMs === null ? asOfMs + hoursAhead * HOUR_MS : asOfMs, air: await loadAir(stores, room, fromMs, asOfMs, calibration), weighings, past };
}

/** Readings of one plot; what is older is left out and said to be. Own choice: two sensors every minute for a week. */
const MOST_READINGS = 20_000;

async function loadAir(stores: Stores, room: RoomView, fromMs: number, asOfMs: number, calibration: CalibrationValues): Promise<PlotAir> {
  const place = { kind: 'drying-room' as const, id: room.id };
  const newestFirst = await stores.climateRecords.page(room.incidentId, { place, fromMs, toMs: asOfMs + 1 }, MOST_READINGS, null);
  const sensors = await stores.climateRecords.sensorPage(room.incidentId, { place }, 1000, null);
  return plotAir(newestFirst.reverse(), new Map(sensors.map(({ id, code }) => [id, code])), newestFirst.length === MOST_READINGS, calibration);
}

/** From the newest checkpoint before the time shown on; null when none is kept, which is before the first reckoning. */
async function loadPast(stores: Stores, room: RoomView, { fromMs, asOfMs, itemId }: { fromMs: number; asOfMs: number; itemId: string | null }): Promise<ReplayParts | null> {
  const facts = await stores.roomClimate.facts(room.id);
  const newest = await stores.roomClimate.newestState(room.id);
  if (facts === null || newest === null) return null;
  const mark = (await stores.roomClimate.checkpoints(room.id)).find(({ atMs }) => atMs <= fromMs);
  const base = mark === undefined ? null : await stores.roomClimate.checkpoint(room.id, mark.atMs);
  const rows = await stores.roomClimate.readings(room.id, base?.atMs ?? null);
  return {
    facts, base, newest, observed: (await stores.roomClimate.observed(room.incidentId, room.siteId)).filter(({ atMs }) => atMs <= asOfMs),
    air: airOf(rows.filter(({ atMs }) => atMs <= asOfMs)),
    weather: (await stores.weather.forecast(room.siteId, asOfMs, asOfMs + FORECAST_H * HOUR_MS)).map(({ validAtMs, airTempC, relativeHumidityPct }) => ({ atMs: validAtMs, airTempC, relativeHumidityPct })),
    elsewhere: itemId === null ? [] : await readBefore(stores, facts, base, itemId, asOfMs),
  };
}

/** Air where the thing was before it was hung, unless the checkpoint knows its clock already. */
async function readBefore(stores: Stores, facts: RoomFacts, base: RoomState | null, itemId: string, asOfMs: number): Promise<InputPlaceReading[]> {
  const item = facts.items.find(({ id }) => id === itemId);
  if (item === undefined || base?.hanging[itemId] !== undefined) return [];
  const places = [...new Set(item.earlier.flatMap(({ placeId }) => (placeId === null ? [] : [placeId])))];
  return places.length === 0 ? [] : stores.roomClimate.elsewhere(places, item.wettedAtMs - 48 * HOUR_MS, asOfMs);
}
