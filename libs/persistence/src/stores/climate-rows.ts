import type { ClimatePlaceKind, ClimateReadingRecord, CurrentRoomAir, SensorRecord } from '#application';
import { msOrNull } from './row.js';

export interface SensorRow {
  incident_id: string;
  id: string;
  code: string;
  name: string;
  place_kind: ClimatePlaceKind;
  place_id: string;
  state: SensorRecord['state'];
  withdrawn_at: Date | null;
  expected_every_minutes: number | null;
  version: number;
  created_at: Date;
}

export const SENSOR_COLUMNS = 'incident_id, id, code, name, place_kind, place_id, state, withdrawn_at, expected_every_minutes, version, created_at';

export function toSensor(row: SensorRow): SensorRecord {
  return {
    id: row.id, incidentId: row.incident_id, code: row.code, name: row.name, place: { kind: row.place_kind, id: row.place_id }, state: row.state,
    withdrawnAtMs: msOrNull(row.withdrawn_at), expectedEveryMinutes: row.expected_every_minutes, version: row.version, createdAtMs: row.created_at.getTime(),
  };
}

export interface ReadingRow {
  incident_id: string;
  id: string;
  place_kind: ClimatePlaceKind;
  place_id: string;
  sequence: number;
  sensor_id: string | null;
  measured_at: Date;
  air_temp_c: number;
  relative_humidity_pct: number | null;
  recorded_at: Date;
  source: ClimateReadingRecord['source'];
  state: ClimateReadingRecord['state'];
  doubt: ClimateReadingRecord['doubt'];
}

const READING = ['incident_id', 'id', 'place_kind', 'place_id', 'sequence', 'sensor_id', 'measured_at', 'air_temp_c', 'relative_humidity_pct', 'recorded_at', 'source', 'state', 'doubt'];
export const READING_COLUMNS = READING.map((column) => `r.${column}`).join(', ');

export function toReading(row: ReadingRow): ClimateReadingRecord {
  return {
    id: row.id, incidentId: row.incident_id, place: { kind: row.place_kind, id: row.place_id }, sequence: row.sequence, sensorId: row.sensor_id, measuredAtMs: row.measured_at.getTime(),
    airTempC: row.air_temp_c, relativeHumidityPct: row.relative_humidity_pct, recordedAtMs: row.recorded_at.getTime(), source: row.source, state: row.state, doubt: row.doubt,
  };
}

export interface RoomAirRow {
  id: string;
  code: string;
  air_temp_c: number;
  relative_humidity_pct: number;
  measured_at: Date;
  humidity_cap_pct: number;
}

export function toRoomAir(row: RoomAirRow): CurrentRoomAir {
  return { id: row.id, code: row.code, airTempC: row.air_temp_c, relativeHumidityPct: row.relative_humidity_pct, measuredAtMs: row.measured_at.getTime(), humidityCapPct: row.humidity_cap_pct };
}

/** Of two at the same moment the damper one counts, which is the cautious side. */
const NEWEST_FIRST = 'measured_at desc, relative_humidity_pct desc, air_temp_c desc';

export const REFRESH_ROOM_AIR = `
  update drying_room d set air_temp_c = n.air_temp_c, relative_humidity_pct = n.relative_humidity_pct, measured_at = n.measured_at, version = d.version + 1
  from unnest($2::uuid[]) as p (id)
  cross join lateral (
    select r.air_temp_c, r.relative_humidity_pct, r.measured_at from climate_reading r
    where r.network_id = $1 and r.place_kind = 'drying-room' and r.place_id = p.id and r.state = 'accepted' and r.relative_humidity_pct is not null
    order by ${NEWEST_FIRST} limit 1) n
  where d.network_id = $1 and d.id = p.id and (d.air_temp_c, d.relative_humidity_pct, d.measured_at) is distinct from (n.air_temp_c, n.relative_humidity_pct, n.measured_at)
  returning d.id, d.code, d.air_temp_c, d.relative_humidity_pct, d.measured_at, d.humidity_cap_pct`;

/** An hour that is older than what is known changes nothing, unless what is known was a reading that has fallen into doubt since; the version is that of what readers see, so the hour alone does not raise it. */
export const REFRESH_OUTDOOR_AIR = `
  with newest as (
    select o.air_temp_c, o.relative_humidity_pct, o.measured_at from (
      (select w.air_temp_c, w.relative_humidity_pct, w.valid_at as measured_at from weather_record w
        where w.network_id = $1 and w.incident_id = $2 and w.kind = 'observed' order by ${NEWEST_FIRST} limit 1)
      union all
      select r.air_temp_c, r.relative_humidity_pct, r.measured_at from site s
      cross join lateral (
        select c.air_temp_c, c.relative_humidity_pct, c.measured_at from climate_reading c
        where c.network_id = $1 and c.place_kind = 'outdoors' and c.place_id = s.id and c.state = 'accepted' and c.relative_humidity_pct is not null
        order by ${NEWEST_FIRST} limit 1) r
      where s.network_id = $1 and s.incident_id = $2) o
    order by ${NEWEST_FIRST} limit 1)
  update incident i set outdoor_air_temp_c = n.air_temp_c, outdoor_relative_humidity_pct = n.relative_humidity_pct, outdoor_air_at = n.measured_at, updated_at = $3,
         version = i.version + ((i.outdoor_air_temp_c, i.outdoor_relative_humidity_pct) is distinct from (n.air_temp_c, n.relative_humidity_pct))::int
  from newest n
  where i.network_id = $1 and i.id = $2 and (i.outdoor_air_at is null or n.measured_at >= i.outdoor_air_at or exists (
    select from site s join climate_reading c on c.network_id = s.network_id and c.place_kind = 'outdoors' and c.place_id = s.id
    where s.network_id = $1 and s.incident_id = $2 and c.state = 'doubtful' and c.measured_at = i.outdoor_air_at
      and (c.air_temp_c, c.relative_humidity_pct) = (i.outdoor_air_temp_c, i.outdoor_relative_humidity_pct)))
    and (i.outdoor_air_temp_c, i.outdoor_relative_humidity_pct, i.outdoor_air_at) is distinct from (n.air_temp_c, n.relative_humidity_pct, n.measured_at)
  returning old.outdoor_air_temp_c as before_temp_c, old.outdoor_relative_humidity_pct as before_humidity_pct, new.outdoor_air_temp_c as air_temp_c,
            new.outdoor_relative_humidity_pct as relative_humidity_pct, new.outdoor_air_at as measured_at`;
