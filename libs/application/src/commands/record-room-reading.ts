import { notFound, Problem, type RecordRoomReading } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { requestPlan } from '../planning/request-plan.js';
import { changesPlan } from '../planning/room-change.js';
import type { ConfigStores } from '../ports/config-work.js';
import type { RoomReadingRecord } from '../ports/layout-store.js';
import { openIncident } from './change-versioned.js';

/** How far ahead of our clock a tablet's clock may be (own choice): more is a mistyped time. */
const CLOCK_SLACK_MS = 5 * 60_000;

export interface RoomReadingView {
  reading: RoomReadingRecord;
  becameCurrent: boolean;
}

/**
 * Keeps a reading of a room's air. A late one is kept too but does not replace newer air. Air from which the plan in force
 * reckons wrongly asks for a new one; small steps add up, as each is held against the air of that plan.
 */
export async function recordRoomReading(stores: ConfigStores, call: UseCaseCall, input: RecordRoomReading & { incidentId: string; dryingRoomId: string }): Promise<RoomReadingView> {
  await openIncident(stores.layout, input.incidentId);
  const room = await stores.layout.dryingRoom(input.incidentId, input.dryingRoomId);
  if (!room) throw notFound('drying room');
  const { measuredAt, ...own } = input;
  const measuredAtMs = Date.parse(measuredAt);
  if (measuredAtMs > call.env.nowMs + CLOCK_SLACK_MS) {
    throw new Problem('validation_failed', 'The reading lies in the future. Check its date and its offset from UTC. Nothing was changed.', {
      errors: [{ detail: `lies after the present time, ${new Date(call.env.nowMs).toISOString()}`, code: 'custom', pointer: '#/measuredAt' }],
    });
  }
  const reading = { id: call.env.newId(), ...own, measuredAtMs, recordedAtMs: call.env.nowMs };
  const becameCurrent = await stores.layout.recordReading(reading);
  const planned = (await stores.plans.airInForce(input.incidentId, room.id)) ?? room;
  if (becameCurrent && changesPlan(planned, reading, room.humidityCapPct)) await requestPlan(stores, call, input.incidentId, `air of room ${room.code}: ${reading.airTempC} C, ${reading.relativeHumidityPct} %`);
  return { reading, becameCurrent };
}
