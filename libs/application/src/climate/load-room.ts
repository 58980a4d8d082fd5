import type { CalibrationValues, ClockReading } from '#climate';
import { alarmCalibrationInForce, climateCalibrationInForce } from '../calibration/in-force.js';
import type { AlarmValues } from './alarms/calibration.js';
import type { CheckpointMark } from '../ports/room-climate-store.js';
import type { Stores } from '../ports/work.js';
import { HOUR_MS } from './durations.js';
import { airOf, checkpointMoments, type LoadedRoom } from './reckon-room.js';
import { basisOf, NO_READINGS, placesBefore, type ReadingsDigest } from './room/basis.js';
import { airNeededFrom, fitRoom, speedsOf, type FittedSpeed } from './room/fits.js';
import { FORECAST_H } from './room/forecast.js';
import type { OutdoorAir, RoomFacts } from './room/inputs.js';

/**
 * Loads what a reckoning needs. A digest is always taken before the rows that are reckoned with: whatever is written in between is
 * then at most reckoned with and not in the digest, and the next look begins further back. Never the other way round.
 */
export async function loadRoom(stores: Stores, roomId: string, nowMs: number): Promise<LoadedRoom | null> {
  const facts = await stores.roomClimate.facts(roomId);
  if (facts === null) return null;
  const calibration = await climateCalibrationInForce(stores);
  const alarms = await alarmCalibrationInForce(stores);
  const { siteId, incidentId } = facts.room;
  const observed = (await stores.roomClimate.observed(incidentId, siteId)).filter(({ atMs }) => atMs <= nowMs);
  const forecast = (await stores.weather.forecast(siteId, nowMs, nowMs + FORECAST_H * HOUR_MS)).map(toOutdoor);
  const fitAir = await loadFitAir(stores, facts, nowMs, calibration);
  const speeds = speedsOf(fitRoom(facts, fitAir, nowMs, calibration));
  const base = await newestStanding(stores, { facts, observed, speeds, values: calibration, alarms });
  const readings = (await stores.roomClimate.readings(roomId, base?.mark.atMs ?? null)).filter(({ atMs }) => atMs <= nowMs);
  const kept = base?.kept ?? [];
  const elsewhereAt = new Map<number, ReadingsDigest>();
  for (const atMs of checkpointMoments(kept, airOf(readings)).make) {
    const places = placesBefore(facts, atMs);
    if (places.length > 0) elsewhereAt.set(atMs, await stores.roomClimate.digestElsewhere(places, atMs));
  }
  const elsewhere = await readingsBefore(stores, facts, base?.mark.atMs ?? null, nowMs);
  const state = base === null ? null : await stores.roomClimate.checkpoint(roomId, base.mark.atMs);
  if (base !== null && state === null) throw new Error('a checkpoint went while the room was loaded');
  return { facts, observed, forecast, calibration, alarms, reporting: await stores.roomClimate.reporting('drying-room', roomId), speeds, fitAir, from: base && state && { state, mark: base.mark }, readings, elsewhere, digest: base?.digest ?? NO_READINGS, elsewhereAt, kept };
}

/**
 * The air that the room's factors are fitted with. They go into the basis by their value, so it does not matter what is written
 * beside it: a checkpoint that was made with other factors is not gone on from.
 */
export async function loadFitAir(stores: Stores, facts: RoomFacts, nowMs: number, values: CalibrationValues): Promise<ClockReading[]> {
  const fromMs = airNeededFrom(facts, nowMs, values);
  return fromMs === null ? [] : airOf((await stores.roomClimate.readings(facts.room.id, fromMs)).filter(({ atMs }) => atMs <= nowMs));
}

function toOutdoor({ validAtMs, airTempC, relativeHumidityPct }: { validAtMs: number; airTempC: number; relativeHumidityPct: number }): OutdoorAir {
  return { atMs: validAtMs, airTempC, relativeHumidityPct };
}

interface Base {
  mark: CheckpointMark;
  digest: ReadingsDigest;
  /** Moments of the checkpoints up to this one. */
  kept: number[];
}

/** The newest checkpoint whose basis is still what it was. Late readings and corrections push it back. */
async function newestStanding(stores: Stores, about: { facts: RoomFacts; observed: readonly OutdoorAir[]; speeds: readonly FittedSpeed[]; values: CalibrationValues; alarms: AlarmValues }): Promise<Base | null> {
  const { facts } = about;
  const marks = await stores.roomClimate.checkpoints(facts.room.id);
  for (const [index, mark] of marks.entries()) {
    const places = placesBefore(facts, mark.atMs);
    const digest = await stores.roomClimate.digest(facts.room.id, mark.atMs);
    const elsewhere = places.length === 0 ? null : await stores.roomClimate.digestElsewhere(places, mark.atMs);
    if (basisOf({ ...about, room: digest, elsewhere, atMs: mark.atMs }) === mark.basis) return { mark, digest, kept: marks.slice(index).map(({ atMs }) => atMs).sort((a, b) => a - b) };
  }
  return null;
}

/** Air at the places where things were that were hung after the checkpoint, from when they were wetted. */
async function readingsBefore(stores: Stores, facts: RoomFacts, afterMs: number | null, nowMs: number) {
  const hung = new Set(facts.stays.filter(({ fromMs }) => afterMs === null || fromMs > afterMs).map(({ itemId }) => itemId));
  const items = facts.items.filter(({ id }) => hung.has(id));
  const places = [...new Set(items.flatMap(({ earlier }) => earlier.flatMap(({ placeId }) => (placeId === null ? [] : [placeId]))))];
  if (places.length === 0) return [];
  const fromMs = Math.min(...items.map(({ wettedAtMs }) => wettedAtMs)) - 48 * HOUR_MS;
  return stores.roomClimate.elsewhere(places, fromMs, nowMs);
}
