import { notFound, Problem, type RecordRoomReading } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { climateCalibrationInForce } from '../calibration/in-force.js';
import { keepReadings } from '../climate/records/keep-readings.js';
import { openIncidentOf } from '../custody/open-incident.js';
import type { Stores } from '../ports/work.js';

/** How far ahead of our clock a tablet's clock may be (own choice): more is a mistyped time. */
const CLOCK_SLACK_MS = 5 * 60_000;

export interface RoomReadingView {
  reading: { id: string; dryingRoomId: string; airTempC: number; relativeHumidityPct: number; measuredAtMs: number; recordedAtMs: number };
  becameCurrent: boolean;
}

/**
 * Keeps a reading of a room's air that somebody took by hand. A late one is kept too but does not replace newer air; the same
 * one again is kept once. Air from which the plan in force reckons wrongly asks for a new one.
 */
export async function recordRoomReading(stores: Stores, call: UseCaseCall, input: RecordRoomReading & { incidentId: string; dryingRoomId: string }): Promise<RoomReadingView> {
  await openIncidentOf(stores, input.incidentId);
  const [room] = await stores.climateRecords.roomAir(input.incidentId, [input.dryingRoomId]);
  if (!room) throw notFound('drying room');
  const measuredAtMs = Date.parse(input.measuredAt);
  if (measuredAtMs > call.env.nowMs + CLOCK_SLACK_MS) {
    throw new Problem('validation_failed', 'The reading lies in the future. Check its date and its offset from UTC. Nothing was changed.', {
      errors: [{ detail: `lies after the present time, ${new Date(call.env.nowMs).toISOString()}`, code: 'custom', pointer: '#/measuredAt' }],
    });
  }
  const reading = {
    id: call.env.newId(), incidentId: input.incidentId, place: { kind: 'drying-room', id: room.id }, sensorId: null, measuredAtMs, airTempC: input.airTempC,
    relativeHumidityPct: input.relativeHumidityPct, recordedAtMs: call.env.nowMs, source: 'hand',
  } as const;
  const [kept] = await keepReadings(stores, call, input.incidentId, [reading], await climateCalibrationInForce(stores));
  if (!kept) throw new Error('a reading was not kept');
  const { id, recordedAtMs } = kept.record;
  return { reading: { id, dryingRoomId: room.id, airTempC: input.airTempC, relativeHumidityPct: input.relativeHumidityPct, measuredAtMs, recordedAtMs }, becameCurrent: kept.becameCurrent };
}
