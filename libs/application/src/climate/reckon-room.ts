/**
 * A room from its rows to what is stored of it: from the newest checkpoint whose basis still stands, through the readings since, to
 * now and ahead. Pure; the rows are loaded by `load-room`.
 */
import type { ClockReading, CalibrationValues } from '#climate';
import { airSigns, clockSigns, machineSigns, type AlarmValues, type AnySign, type Reporting } from './alarms/index.js';
import { HOUR_MS } from './durations.js';
import type { CheckpointMark, RoomResult } from '../ports/room-climate-store.js';
import { basisOf, digestWith, type ReadingsDigest } from './room/basis.js';
import type { FittedSpeed } from './room/fits.js';
import { forecastRoom } from './room/forecast.js';
import { fromLastReading, startRoom, throughReadings } from './room/history.js';
import type { InputPlaceReading, InputReading, OutdoorAir, RoomFacts } from './room/inputs.js';
import { stateAt } from './room/machines.js';
import { watchVerdict } from './room/machine-watch.js';
import { weighedStandings } from './room/weighed.js';
import { standItems, standLeft, standRoom, type ItemStanding, type RoomStanding } from './room/standing.js';
import type { LeftItem, RoomState } from './room/state.js';

/** Everything that one reckoning of a room is made from. */
export interface LoadedRoom {
  facts: RoomFacts;
  observed: OutdoorAir[];
  forecast: OutdoorAir[];
  calibration: CalibrationValues;
  alarms: AlarmValues;
  /** How the room is read. */
  reporting: Reporting;
  /** Factors that weighings have fitted, and the air over those weighings. */
  speeds: FittedSpeed[];
  fitAir: ClockReading[];
  /** To go on from; null to reckon from the first reading. */
  from: { state: RoomState; mark: CheckpointMark } | null;
  /** Readings after the checkpoint, all rows. */
  readings: InputReading[];
  elsewhere: InputPlaceReading[];
  /** The room's readings up to the checkpoint, and the digest of other air at the moments of the checkpoints to come. */
  digest: ReadingsDigest;
  elsewhereAt: ReadonlyMap<number, ReadingsDigest>;
  /** Moments of the checkpoints that are kept, of those up to the one to go on from. */
  kept: number[];
}

/** What one reckoning came to. */
export interface ReckonedRoom {
  result: RoomResult;
  signs: AnySign[];
  /** Pieces of the past that were reckoned. */
  cuts: number;
}

/** One reading at a moment: of two the damper, which is the cautious side. */
export function airOf(rows: readonly InputReading[]): ClockReading[] {
  const byMoment = new Map<number, InputReading>();
  for (const row of rows) {
    const known = byMoment.get(row.atMs);
    if (known === undefined || (row.relativeHumidityPct ?? 0) > (known.relativeHumidityPct ?? 0)) byMoment.set(row.atMs, row);
  }
  return [...byMoment.values()].sort((a, b) => a.atMs - b.atMs).map(({ atMs, airTempC, relativeHumidityPct }) => ({ atMs, airTempC, relativeHumidityPct }));
}

/** The grid on which checkpoints are thinned, h: the finer the newer. Own choice: eight or so are kept. */
function cellOf(atMs: number, lastMs: number): string {
  const ageH = (lastMs - atMs) / HOUR_MS;
  const cellH = ageH < 1 ? 0.5 : ageH < 6 ? 3 : ageH < 24 ? 12 : 48;
  return `${cellH}/${Math.floor(atMs / (cellH * HOUR_MS))}`;
}

/** Of moments in order of time the newest of each cell, and the newest of all. */
export function thinned(moments: readonly number[]): number[] {
  const lastMs = moments.at(-1);
  if (lastMs === undefined) return [];
  const newest = new Map(moments.map((atMs) => [cellOf(atMs, lastMs), atMs]));
  return [...new Set([...newest.values(), lastMs])].sort((a, b) => a - b);
}

/** The moments at which checkpoints will stand: kept ones and new ones. */
export function checkpointMoments(kept: readonly number[], readings: readonly ClockReading[]): { keep: number[]; make: number[] } {
  const fresh = readings.map(({ atMs }) => atMs);
  const all = thinned([...kept, ...fresh].sort((a, b) => a - b));
  const isNew = new Set(fresh);
  return { keep: all.filter((ms) => !isNew.has(ms)), make: all.filter((ms) => isNew.has(ms)) };
}

/** Reckons the room; null when nobody has ever read it. */
export function reckonRoom(loaded: LoadedRoom, nowMs: number): ReckonedRoom | null {
  const { facts, calibration } = loaded;
  const air = airOf(loaded.readings);
  const input = { ...facts, readings: air, observed: loaded.observed, elsewhere: loaded.elsewhere, speeds: loaded.speeds, alarms: loaded.alarms };
  const start = loaded.from?.state ?? startRoom(input, calibration);
  if (start === null) return null;
  const { keep, make } = checkpointMoments(loaded.kept, air);
  const past = { state: start, left: [] as LeftItem[], cuts: 0 };
  const checkpoints: RoomResult['checkpoints'] = [];
  for (const atMs of make) {
    const part = throughReadings(past.state, { ...input, readings: air.filter((reading) => reading.atMs > past.state.atMs && reading.atMs <= atMs) }, calibration);
    past.state = part.state;
    past.left.push(...part.left);
    past.cuts += part.cuts;
    checkpoints.push({ mark: { atMs, basis: basisAt(loaded, atMs) }, state: part.state });
  }
  const now = fromLastReading(past.state, nowMs, { ...input, readings: [] }, calibration);
  return { ...present(loaded, now.state, [...past.left, ...now.left], { keep, checkpoints, lastReading: past.state }), cuts: past.cuts + now.cuts };
}

function basisAt({ facts, digest, readings, elsewhereAt, observed, speeds, calibration, alarms }: LoadedRoom, atMs: number): string {
  return basisOf({ facts, observed, room: digestWith(digest, readings.filter((row) => row.atMs <= atMs)), elsewhere: elsewhereAt.get(atMs) ?? null, speeds, atMs, values: calibration, alarms });
}

interface Past {
  keep: number[];
  checkpoints: RoomResult['checkpoints'];
  lastReading: RoomState;
}

/** What is stored and what is alarming, from the room as it stands now. */
function present(loaded: LoadedRoom, now: RoomState, left: readonly LeftItem[], { keep, checkpoints, lastReading }: Past): Omit<ReckonedRoom, 'cuts'> {
  const { facts, calibration } = loaded;
  const items = new Map(facts.items.map((item) => [item.id, item]));
  const forecast = forecastRoom(now, { humidityCapPct: facts.room.humidityCapPct, weather: loaded.forecast, speeds: loaded.speeds }, calibration);
  const standings = standItems(now, forecast, items, { speeds: loaded.speeds, weighed: weighedStandings(facts, now, loaded.fitAir, loaded.speeds, calibration) }, calibration);
  const room: RoomStanding = { ...standRoom(now, forecast, standings, facts, calibration), speeds: loaded.speeds };
  const hangs = new Set(standings.map(({ itemId }) => itemId));
  // Of a thing that came and went more than once the last time counts.
  const lastOf = new Map(left.map((one) => [one.itemId, one]));
  const gone = [...lastOf.values()].flatMap((one) => {
    const item = items.get(one.itemId);
    return item === undefined || hangs.has(one.itemId) ? [] : [{ item, left: one }];
  });
  const result: RoomResult = {
    asOfMs: now.atMs,
    basis: checkpoints.at(-1)?.mark.basis ?? loaded.from?.mark.basis ?? '',
    standing: room,
    forecast,
    items: [
      ...standings.map((standing) => ({ standing, clockState: now.hanging[standing.itemId]?.clock ?? null })),
      ...gone.map(({ item, left: one }) => ({ standing: standLeft(one, item, calibration), clockState: one.clock })),
    ],
    everHung: [...new Set(facts.stays.map(({ itemId }) => itemId))],
    checkpoints,
    keep,
  };
  return { result, signs: signsOf(loaded, now, lastReading, standings, room) };
}

function signsOf({ facts, calibration, alarms, reporting }: LoadedRoom, now: RoomState, lastReading: RoomState, standings: readonly ItemStanding[], room: RoomStanding): AnySign[] {
  const { reading } = now;
  const items = new Map(facts.items.map((item) => [item.id, item]));
  const clocks = standings.flatMap(({ itemId, clock }) => {
    const item = items.get(itemId);
    return clock === null || item === undefined ? [] : [{ itemId, tagCode: item.tagCode, householdId: item.householdId, state: clock.state, hoursToRed: clock.hoursLeft }];
  });
  const machines = facts.machines.map((machine) => ({ ...machine, sinceMs: machine.changes.at(-1)?.atMs ?? null, state: machine.changes.length > 0 ? stateAt(machine, now.atMs) : machine.state }));
  // Machines that do not run cannot fall short of their labels.
  const watched = machines.every(({ state }) => state !== 'running') ? nothingRuns(lastReading, room) : watchVerdict(lastReading.watch, calibration, alarms);
  return [
    ...airSigns({ id: facts.room.id, humidityCapPct: facts.room.humidityCapPct, air: { airTempC: reading.airTempC, relativeHumidityPct: reading.relativeHumidityPct ?? 100, measuredAtMs: reading.atMs }, inUse: room.things > 0, reporting }, now.atMs, calibration.readingGapInterpolatedMaxH, alarms),
    ...clockSigns(facts.room.id, clocks, alarms),
    ...machineSigns(facts.room.id, machines),
    ...(watched === null ? [] : [{ kind: 'dehumidifier-short' as const, subject: { kind: 'drying-room' as const, id: facts.room.id }, severity: 'warning' as const, ...watched }]),
  ];
}

function nothingRuns({ atMs }: RoomState, { relativeHumidityPct }: RoomStanding): Pick<Extract<AnySign, { kind: 'dehumidifier-short' }>, 'verdict' | 'evidence'> {
  return { verdict: 'off', evidence: { fromMs: atMs, toMs: atMs, running: 0, expectedKg: 0, atMostKg: 0, relativeHumidityPct } };
}
