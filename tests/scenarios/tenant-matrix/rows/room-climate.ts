import { newId } from '#platform';
import type { PreparedIncident, TestServer } from '#testing';
import { workerContextOf } from '../../../unit/plan-problem/support/runs.js';
import { ofIncident, type Table } from '../row.js';

/** Enough for every request that acknowledges one. */
const ALARMS = 40;
const used = new Map<string, number>();

/** Alarms of an incident about things that nobody has: only whose they are matters here. */
export async function raiseAlarms(incident: PreparedIncident, server: TestServer): Promise<void> {
  await server.unitOfWork.write(workerContextOf(incident.network), async (stores) => {
    for (let i = 0; i < ALARMS; i += 1) {
      const id = newId();
      const subject = { kind: 'freezer', id: newId() } as const;
      Object.assign(incident.made, { [`alarm-${i}`]: id, [`alarmed-${i}`]: subject.id });
      const evidence = { tempC: -9, limitC: -15, measuredAtMs: server.clock.nowMs(), aboveSinceMs: null };
      await stores.alarms.raise({ id, incidentId: incident.id, kind: 'freezer-warm', subject, severity: 'warning', raisedAtMs: server.clock.nowMs(), evidence });
    }
  });
}

/** A thing on a rack of a room whose machine was switched off and on. */
export async function hungItem(incident: PreparedIncident): Promise<string> {
  const { id, ...item } = await incident.newItem();
  const from = item['keeper'];
  await incident.network.post(`/v1/items/${id}/custody-events`, { kind: 'drying-started', from, to: { kind: 'drying-place', id: incident.places.place('S1') }, personId: incident.places.person('P1'), reason: incident.text('The tables are full') }).expect(201);
  const machine = `/v1/incidents/${incident.id}/dehumidifiers/${incident.places.dehumidifier('D1')}`;
  for (const [version, state] of [[1, 'off'], [2, 'running']] as const) await incident.network.patch(machine, { state }, { 'if-match': `"${version}"` }).expect(200);
  return id;
}

/** One that nobody has acknowledged yet. */
function freshAlarm(incident: PreparedIncident): string {
  const next = used.get(incident.id) ?? 0;
  used.set(incident.id, next + 1);
  return incident.the(`alarm-${next}`);
}

const ofRoom = { request: (incident: PreparedIncident) => ({ params: { dryingRoomId: incident.places.room('ROOM') } }) };

export const roomClimateRows: Table = {
  getRoomState: ofRoom,
  getRoomForecast: ofRoom,
  listRoomItems: ofRoom,
  getRoomAcceptance: ofRoom,
  listArrangementFits: ofRoom,
  getItemClimate: { request: (incident) => ({ params: { itemId: incident.the('item') } }) },
  listAlarms: ofIncident({ references: { '?subjectId': { values: (incident) => [incident.the('alarmed-0')], answers: ['nothing found'] } } }),
  acknowledgeAlarm: {
    request: (incident) => ({ params: { alarmId: freshAlarm(incident) }, body: { personId: incident.places.person('P1'), note: incident.text('Seen') } }),
    references: { '#/personId': { values: (incident) => [incident.places.person('P1')] } },
  },
};
