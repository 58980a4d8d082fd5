/** Rooms as the worker reckons them, without the worker: the rows of the outbox carried out in this thread. */
import { runClimate, type ClimateOutcome } from '#application';
import { newId } from '#platform';
import type { IncidentOnTest, TestNetwork, TestServer } from '#testing';
import { workerContextOf } from '../../unit/plan-problem/support/runs.js';

/** Works off what has been rung for about air so far, looks ahead of time left out; answers how each ended. */
export async function reckonAir(server: TestServer, network: TestNetwork, kind: 'climate.readings' | 'climate.tick' = 'climate.readings'): Promise<ClimateOutcome[]> {
  const { rows } = await server.admin.query<{ id: string; incident_id: string; subject_id: string }>('select id, incident_id, subject_id from outbox where network_id = $1 and kind = $2 and done_at is null order by id', [network.networkId, kind]);
  const outcomes: ClimateOutcome[] = [];
  for (const row of rows) {
    const message = { id: row.id, incidentId: row.incident_id, kind, subjectId: row.subject_id, traceparent: '' };
    outcomes.push(await runClimate(server.unitOfWork, message, workerContextOf(network), { nowMs: server.clock.nowMs(), newId: () => newId() }));
  }
  return outcomes;
}

/** Writes down the air of a room, at a time of the day of the flood. */
export async function readRoom(network: TestNetwork, incident: IncidentOnTest, measuredAt: string, relativeHumidityPct: number, airTempC = 20): Promise<void> {
  await network.post(`/v1/incidents/${incident.id}/drying-rooms/${incident.room('ROOM')}/readings`, { airTempC, relativeHumidityPct, measuredAt }).expect(201);
}

export interface AlarmSeen {
  id: string;
  kind: string;
  severity: string;
  subject: { kind: string; id: string; code: string };
  what: string;
  cautions: string[];
  numbers: Record<string, number | string | null>;
  items: { itemId: string; tag: string }[];
  acknowledged: { by: string; byName: string; note: string; grownSince: boolean } | null;
  clearedAt: string | null;
}

export async function alarmsOf(network: TestNetwork, incident: IncidentOnTest, query = ''): Promise<AlarmSeen[]> {
  const { body } = await network.get(`/v1/incidents/${incident.id}/alarms${query}`).expect(200);
  return (body as { items: AlarmSeen[] }).items;
}
