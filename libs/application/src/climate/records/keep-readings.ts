/**
 * Keeps readings: each once, judged against its neighbours in time, whatever the order in which they come. Afterwards the air
 * that plans reckon with is that of the newest believed reading, a plan is asked for where it matters, and the work that watches
 * rooms and freezers is rung for.
 */
import { doubtsOf, doubtSpanH, type CalibrationValues } from '#climate';
import type { UseCaseCall } from '../../call.js';
import type { AirNow } from '../../planning/drying-outlook.js';
import { airReason, PLAN_REASONS } from '../../planning/plan-reasons.js';
import { requestPlan } from '../../planning/request-plan.js';
import { AIR_CHANGE, changesPlan } from '../../planning/room-change.js';
import type { ClimatePlace, ClimateReadingRecord, NewReading, OutdoorAirChange, CurrentRoomAir, SensorSpan } from '../../ports/climate-records-store.js';
import type { Stores } from '../../ports/work.js';
import { HOUR_MS } from '../durations.js';
import { ringRead, ringSite } from '../ring-room.js';

/** What became of one reading. */
export interface KeptReading {
  outcome: 'accepted' | 'doubtful' | 'duplicate' | 'conflicting';
  /** The reading as it is kept; of a duplicate or a conflict the one that was there. */
  record: ClimateReadingRecord;
  /** A later one of the same place was there already. */
  late: boolean;
  /** It is the newest believed air of its place now. */
  becameCurrent: boolean;
}

const keyOf = (place: ClimatePlace) => `${place.kind}:${place.id}`;
/** One sensor has one value at a moment; by hand two people may write down two corners of a room. */
const momentOf = (reading: NewReading) => `${reading.sensorId ?? keyOf(reading.place)}@${reading.measuredAtMs}`;
const sameAir = (one: NewReading, other: NewReading) => one.airTempC === other.airTempC && one.relativeHumidityPct === other.relativeHumidityPct;

/** Keeps the readings of an incident; the answers stand in the order of the readings. */
export async function keepReadings(stores: Stores, call: UseCaseCall, incidentId: string, readings: readonly NewReading[], calibration: CalibrationValues): Promise<KeptReading[]> {
  if (readings.length === 0) return [];
  const places = [...new Map(readings.map(({ place }) => [keyOf(place), place])).values()];
  await stores.climateRecords.lockPlaces(places);
  const sorted = sortOut(readings, await stores.climateRecords.known(readings), await newestByPlace(stores, places));
  const fresh = sorted.filter((one) => one.known === null).map((one) => one.reading);
  const roomIds = places.filter(({ kind }) => kind === 'drying-room').map(({ id }) => id);
  const before = await stores.climateRecords.roomAir(incidentId, roomIds);
  const inserted = new Map((await stores.climateRecords.insertReadings(fresh)).map((record) => [record.id, record]));
  for (const { id, doubt } of await judgeAgain(stores, [...inserted.values()], calibration)) {
    const record = inserted.get(id);
    if (record) inserted.set(id, { ...record, doubt, state: doubt === null ? 'accepted' : 'doubtful' });
  }
  await stores.climateRecords.refreshRoomAir(roomIds);
  const now = await stores.climateRecords.roomAir(incidentId, roomIds);
  const outdoors = fresh.some(({ place }) => place.kind === 'outdoors') ? await stores.climateRecords.refreshOutdoorAir(incidentId, call.env.nowMs) : null;
  for (const place of places) {
    if (fresh.some((reading) => keyOf(reading.place) === keyOf(place))) await ring(stores, call, incidentId, place);
  }
  await askForPlan(stores, call, incidentId, { before, now, outdoors });
  return sorted.map(({ reading, known, clash, late }) => {
    const record = known === null ? inserted.get(reading.id) : (inserted.get(known.id) ?? (known as ClimateReadingRecord));
    if (!record) throw new Error('a reading was not written');
    return { outcome: clash ? 'conflicting' : known === null ? record.state : 'duplicate', record, late, becameCurrent: !clash && isCurrent(record, now, sorted) };
  });
}

interface Sorted {
  reading: NewReading;
  /** The one that is there already, kept before or from this request. */
  known: NewReading | null;
  /** The one that is there says something else. */
  clash: boolean;
  late: boolean;
  /** The newest that was there at its place before this request. */
  newestBeforeMs: number;
}

/** Which readings are new: each is held against what is kept and against those before it in the request. */
function sortOut(readings: readonly NewReading[], kept: readonly ClimateReadingRecord[], newest: ReadonlyMap<string, number>): Sorted[] {
  const atMoment = new Map<string, NewReading[]>();
  const remember = (reading: NewReading) => atMoment.set(momentOf(reading), [...(atMoment.get(momentOf(reading)) ?? []), reading]);
  kept.forEach(remember);
  const latest = new Map(newest);
  return readings.map((reading) => {
    const there = atMoment.get(momentOf(reading)) ?? [];
    const same = there.find((one) => sameAir(one, reading)) ?? null;
    const clash = same === null && reading.sensorId !== null && there.length > 0;
    const known = same ?? (clash ? (there[0] ?? null) : null);
    const place = keyOf(reading.place);
    const latestMs = latest.get(place) ?? Number.NEGATIVE_INFINITY;
    if (known === null) {
      remember(reading);
      latest.set(place, Math.max(latestMs, reading.measuredAtMs));
    }
    return { reading, known, clash, late: known === null && reading.measuredAtMs < latestMs, newestBeforeMs: newest.get(place) ?? Number.NEGATIVE_INFINITY };
  });
}

async function newestByPlace(stores: Stores, places: readonly ClimatePlace[]): Promise<Map<string, number>> {
  const newest = await stores.climateRecords.newestAt(places);
  return new Map(places.map((place, at) => [keyOf(place), newest[at] ?? Number.NEGATIVE_INFINITY]));
}

/** Of a drying room the air that plans reckon with; of other places the newest reading. */
function isCurrent(record: ClimateReadingRecord, rooms: readonly CurrentRoomAir[], sorted: readonly Sorted[]): boolean {
  if (record.state === 'doubtful') return false;
  if (record.place.kind === 'drying-room') return rooms.some((room) => room.id === record.place.id && room.measuredAtMs === record.measuredAtMs && room.airTempC === record.airTempC && room.relativeHumidityPct === record.relativeHumidityPct);
  return sorted.every(({ reading, newestBeforeMs }) => keyOf(reading.place) !== keyOf(record.place) || (reading.measuredAtMs <= record.measuredAtMs && newestBeforeMs <= record.measuredAtMs));
}

/** Judges the readings of sensors around new ones; answers and saves those whose doubt changed. */
async function judgeAgain(stores: Stores, fresh: readonly ClimateReadingRecord[], calibration: CalibrationValues): Promise<Pick<ClimateReadingRecord, 'id' | 'doubt'>[]> {
  const spanMs = doubtSpanH(calibration) * HOUR_MS;
  const spans = judgedSpans(fresh, spanMs);
  if (spans.length === 0) return [];
  const around = await stores.climateRecords.around(merged(spans.map((span) => ({ ...span, fromMs: span.fromMs - spanMs }))));
  const running = await stores.climateRecords.roomsWithRunningMachines([...new Set(around.flatMap(({ place }) => (place.kind === 'drying-room' ? [place.id] : [])))]);
  const bySensor = new Map<string, ClimateReadingRecord[]>();
  for (const reading of around) bySensor.set(reading.sensorId ?? '', [...(bySensor.get(reading.sensorId ?? '') ?? []), reading]);
  const changed: Pick<ClimateReadingRecord, 'id' | 'doubt'>[] = [];
  for (const [sensorId, readings] of bySensor) {
    const place = readings[0]?.place;
    if (place === undefined) continue;
    const doubts = doubtsOf(readings, { place: place.kind, machineRuns: running.has(place.id) }, calibration);
    const own = spans.filter((span) => span.sensorId === sensorId);
    readings.forEach(({ id, doubt, measuredAtMs }, at) => {
      const judged = doubts[at] ?? null;
      // Before the span too little is loaded to judge by.
      if (judged !== doubt && own.some(({ fromMs, toMs }) => measuredAtMs >= fromMs && measuredAtMs <= toMs)) changed.push({ id, doubt: judged });
    });
  }
  await stores.climateRecords.saveDoubts(changed);
  return changed;
}

/** From each new reading of a sensor as far as it can matter. */
function judgedSpans(fresh: readonly ClimateReadingRecord[], spanMs: number): SensorSpan[] {
  return merged(fresh.flatMap(({ sensorId, measuredAtMs }) => (sensorId === null ? [] : [{ sensorId, fromMs: measuredAtMs, toMs: measuredAtMs + spanMs }])));
}

/** The same spans without overlaps. */
function merged(spans: readonly SensorSpan[]): SensorSpan[] {
  const result: SensorSpan[] = [];
  for (const span of [...spans].sort((a, b) => (a.sensorId < b.sensorId ? -1 : a.sensorId > b.sensorId ? 1 : a.fromMs - b.fromMs))) {
    const last = result.at(-1);
    if (last !== undefined && last.sensorId === span.sensorId && span.fromMs <= last.toMs) last.toMs = Math.max(last.toMs, span.toMs);
    else result.push({ ...span });
  }
  return result;
}

async function ring(stores: Stores, call: UseCaseCall, incidentId: string, place: ClimatePlace): Promise<void> {
  if (place.kind === 'outdoors') return ringSite(stores, call, incidentId, place.id);
  await ringRead(stores, call, incidentId, place.id);
}

/** What a change of air may mean for the plan. */
export interface AirChange {
  before: readonly CurrentRoomAir[];
  now: readonly CurrentRoomAir[];
  /** Null where the outdoor air of the incident stays as it is. */
  outdoors: OutdoorAirChange | null;
}

/**
 * Asks for a plan where the one in force reckons with other air. Small steps add up, as each is held against the air of that
 * plan. Last of all, because others who ask wait from here on.
 */
export async function askForPlan(stores: Stores, call: UseCaseCall, incidentId: string, { before, now, outdoors }: AirChange): Promise<void> {
  const was = (room: CurrentRoomAir) => before.find(({ id }) => id === room.id) ?? room;
  const moved = now.filter((room) => was(room).measuredAtMs !== room.measuredAtMs || was(room).airTempC !== room.airTempC || was(room).relativeHumidityPct !== room.relativeHumidityPct);
  if (moved.length === 0 && outdoors === null) return;
  const inForce = await stores.plans.airInForce(incidentId);
  const wrong = moved.find((room) => changesPlan(inForce.rooms.find(({ id }) => id === room.id) ?? was(room), room, room.humidityCapPct));
  if (wrong !== undefined) await requestPlan(stores, call, incidentId, airReason(wrong.code, wrong));
  else if (outdoors !== null && movedByMuch(inForce.outdoor ?? outdoors.before, outdoors.now)) await requestPlan(stores, call, incidentId, PLAN_REASONS.weather);
}

function movedByMuch(planned: AirNow | null, now: AirNow): boolean {
  return planned === null || Math.abs(planned.relativeHumidityPct - now.relativeHumidityPct) >= AIR_CHANGE.relativeHumidityPct || Math.abs(planned.airTempC - now.airTempC) >= AIR_CHANGE.airTempC;
}
