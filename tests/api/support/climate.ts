import type { IncidentOnTest, TestNetwork, TestServer } from '#testing';

/** A sensor of the drying room unless told otherwise; answers its id. */
export async function sensor(network: TestNetwork, incident: IncidentOnTest, code = 'T-1', place: { placeKind: string; placeId: string } = { placeKind: 'drying-room', placeId: incident.room('ROOM') }): Promise<string> {
  return (await network.post(`/v1/incidents/${incident.id}/sensors`, { code, name: `Sensor ${code}`, ...place }).expect(201)).body.id;
}

export interface SentReading {
  sensor?: string;
  placeKind?: string;
  place?: string;
  measuredAt?: unknown;
  airTempC?: unknown;
  relativeHumidityPct?: unknown;
  [other: string]: unknown;
}

export const send = (network: Pick<TestNetwork, 'post'>, incident: IncidentOnTest, readings: readonly SentReading[], headers?: Record<string, string>) => network.post(`/v1/incidents/${incident.id}/readings`, { readings }, headers);

/** The morning of the tests, by clock. */
export const at = (clock: string) => `2026-05-09T${clock}:00.000Z`;

export interface StoredReading {
  place_kind: string;
  sensor_id: string | null;
  measured_at: Date;
  air_temp_c: number;
  relative_humidity_pct: number | null;
  state: string;
  doubt: string | null;
  source: string;
  sequence: string;
}

/** Rows of an incident by time of measuring, without the air that its rooms were registered with. */
export async function stored(server: TestServer, incident: IncidentOnTest): Promise<StoredReading[]> {
  const { rows } = await server.admin.query<StoredReading>(
    `select place_kind, sensor_id, measured_at, air_temp_c, relative_humidity_pct, state, doubt, source, sequence from climate_reading
     where incident_id = $1 and not (place_kind = 'drying-room' and sequence = 1) order by measured_at, sensor_id, air_temp_c`,
    [incident.id],
  );
  return rows;
}

/** The air of the drying room that plans reckon with, and its version. */
export async function roomAir(server: TestServer, incident: IncidentOnTest): Promise<{ air_temp_c: number; relative_humidity_pct: number; measured_at: Date; version: number }> {
  const { rows } = await server.admin.query('select air_temp_c, relative_humidity_pct, measured_at, version from drying_room where id = $1', [incident.room('ROOM')]);
  return rows[0];
}

/** Open rows of the outbox that ring for a place. */
export async function bells(server: TestServer, placeId: string): Promise<number> {
  const { rows } = await server.admin.query<{ n: number }>(`select count(*)::int as n from outbox where kind = 'climate.readings' and subject_id = $1 and done_at is null`, [placeId]);
  return rows[0]?.n ?? 0;
}
