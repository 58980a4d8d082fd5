import type {
  AfterReading, ClimatePlace, ClimateReadingRecord, ClimateRecordsStore, NamedClimatePlace, NewReading, ReadingFilter, CurrentRoomAir, SensorRecord, SensorSpan,
} from '#application';
import type { Client } from '../pool.js';
import { type ReadingRow, READING_COLUMNS, REFRESH_OUTDOOR_AIR, REFRESH_ROOM_AIR, type RoomAirRow, SENSOR_COLUMNS, type SensorRow, toReading, toRoomAir, toSensor } from './climate-rows.js';
import { at } from './row.js';

export class PgClimateRecordsStore implements ClimateRecordsStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async insertSensor(sensor: SensorRecord): Promise<boolean> {
    const { rowCount } = await this.client.query(
      `insert into sensor (network_id, incident_id, id, code, name, place_kind, place_id, state, withdrawn_at, version, created_at, expected_every_minutes)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12) on conflict (network_id, incident_id, code) do nothing`,
      [this.networkId, sensor.incidentId, sensor.id, sensor.code, sensor.name, sensor.place.kind, sensor.place.id, sensor.state, at(sensor.withdrawnAtMs), sensor.version, at(sensor.createdAtMs), sensor.expectedEveryMinutes],
    );
    return rowCount === 1;
  }

  async sensor(incidentId: string, sensorId: string): Promise<SensorRecord | null> {
    const { rows } = await this.client.query<SensorRow>(`select ${SENSOR_COLUMNS} from sensor where network_id = $1 and incident_id = $2 and id = $3`, [this.networkId, incidentId, sensorId]);
    return rows[0] ? toSensor(rows[0]) : null;
  }

  async sensorPage(incidentId: string, filter: { place?: ClimatePlace; state?: SensorRecord['state'] }, limit: number, afterCode: string | null): Promise<SensorRecord[]> {
    const { rows } = await this.client.query<SensorRow>(
      `select ${SENSOR_COLUMNS} from sensor where network_id = $1 and incident_id = $2 and ($4::text is null or code > $4 collate "C")
          and ($5::text is null or (place_kind = $5 and place_id = $6)) and ($7::text is null or state = $7) order by code limit $3`,
      [this.networkId, incidentId, limit, afterCode, filter.place?.kind ?? null, filter.place?.id ?? null, filter.state ?? null],
    );
    return rows.map(toSensor);
  }

  async sensorsNamed(incidentId: string, names: readonly string[]): Promise<SensorRecord[]> {
    const { rows } = await this.client.query<SensorRow>({
      name: 'sensors_named',
      text: `select ${SENSOR_COLUMNS} from sensor where network_id = $1 and incident_id = $2 and (code = any($3::text[]) or id::text = any($3::text[]))`,
      values: [this.networkId, incidentId, names],
    });
    return rows.map(toSensor);
  }

  async saveSensor(incidentId: string, sensorId: string, expectedVersion: number, changed: Partial<Pick<SensorRecord, 'name' | 'state' | 'withdrawnAtMs' | 'expectedEveryMinutes'>>): Promise<SensorRecord | null> {
    const { rows } = await this.client.query<SensorRow>(
      `update sensor set name = coalesce($5, name), state = coalesce($6, state), withdrawn_at = case when $7 then $8 else withdrawn_at end,
              expected_every_minutes = case when $9 then $10 else expected_every_minutes end, version = version + 1
       where network_id = $1 and incident_id = $2 and id = $3 and version = $4 returning ${SENSOR_COLUMNS}`,
      [this.networkId, incidentId, sensorId, expectedVersion, changed.name ?? null, changed.state ?? null, changed.withdrawnAtMs !== undefined, at(changed.withdrawnAtMs ?? null), changed.expectedEveryMinutes !== undefined, changed.expectedEveryMinutes ?? null],
    );
    return rows[0] ? toSensor(rows[0]) : null;
  }

  async places(incidentId: string): Promise<NamedClimatePlace[]> {
    const { rows } = await this.client.query<{ kind: NamedClimatePlace['kind']; id: string; site_id: string; code: string }>({
      name: 'climate_places',
      text: `select 'drying-room' as kind, id, site_id, code from drying_room where network_id = $1 and incident_id = $2
             union all select 'freezer', id, site_id, code from freezer where network_id = $1 and incident_id = $2
             union all select 'zone', id, site_id, kind from zone where network_id = $1 and incident_id = $2
             union all select 'outdoors', id, id, code from site where network_id = $1 and incident_id = $2`,
      values: [this.networkId, incidentId],
    });
    return rows.map((row) => ({ kind: row.kind, id: row.id, siteId: row.site_id, code: row.code }));
  }

  /** In the order of the keys, so that two batches over the same places wait for each other and never for one another. */
  async lockPlaces(places: readonly ClimatePlace[]): Promise<void> {
    await this.client.query({
      name: 'climate_lock',
      text: `select pg_advisory_xact_lock(k.key) from (select distinct hashtextextended($1::text || p.kind || p.id, 1) as key from unnest($2::text[], $3::text[]) as p (kind, id) order by 1) k`,
      values: [this.networkId, places.map((place) => place.kind), places.map((place) => place.id)],
    });
  }

  async known(readings: readonly NewReading[]): Promise<ClimateReadingRecord[]> {
    const bySensor = readings.filter((reading) => reading.sensorId !== null);
    const byHand = readings.filter((reading) => reading.sensorId === null);
    const rows: ReadingRow[] = [];
    if (bySensor.length > 0) {
      rows.push(...(await this.readings({
        name: 'readings_known_of_sensors',
        text: `select ${READING_COLUMNS} from unnest($2::uuid[], $3::timestamptz[]) as k (sensor_id, measured_at)
               join climate_reading r on r.network_id = $1 and r.sensor_id = k.sensor_id and r.measured_at = k.measured_at`,
        values: [bySensor.map((reading) => reading.sensorId), bySensor.map((reading) => at(reading.measuredAtMs))],
      })));
    }
    if (byHand.length > 0) {
      rows.push(...(await this.readings({
        name: 'readings_known_by_hand',
        text: `select distinct ${READING_COLUMNS} from unnest($2::text[], $3::uuid[], $4::timestamptz[]) as k (place_kind, place_id, measured_at)
               join climate_reading r on r.network_id = $1 and r.place_kind = k.place_kind and r.place_id = k.place_id and r.measured_at = k.measured_at and r.sensor_id is null`,
        values: [byHand.map((reading) => reading.place.kind), byHand.map((reading) => reading.place.id), byHand.map((reading) => at(reading.measuredAtMs))],
      })));
    }
    return rows.map(toReading);
  }

  async insertReadings(readings: readonly NewReading[]): Promise<ClimateReadingRecord[]> {
    if (readings.length === 0) return [];
    const rows = await this.readings({
      name: 'readings_insert',
      text: `with n as (select * from unnest($2::uuid[], $3::uuid[], $4::text[], $5::uuid[], $6::uuid[], $7::timestamptz[], $8::float8[], $9::float8[], $10::timestamptz[], $11::text[])
                        with ordinality as n (incident_id, id, place_kind, place_id, sensor_id, measured_at, air_temp_c, relative_humidity_pct, recorded_at, source, place_in_order)),
                  last as (select p.place_kind, p.place_id, (select coalesce(max(k.sequence), 0) from climate_reading k where k.network_id = $1 and k.place_kind = p.place_kind and k.place_id = p.place_id) as sequence
                           from (select distinct place_kind, place_id from n) p)
             insert into climate_reading as r (network_id, incident_id, id, place_kind, place_id, sequence, sensor_id, measured_at, air_temp_c, relative_humidity_pct, recorded_at, source)
             select $1, n.incident_id, n.id, n.place_kind, n.place_id, last.sequence + row_number() over (partition by n.place_kind, n.place_id order by n.place_in_order),
                    n.sensor_id, n.measured_at, n.air_temp_c, n.relative_humidity_pct, n.recorded_at, n.source
             from n join last on last.place_kind = n.place_kind and last.place_id = n.place_id
             returning ${READING_COLUMNS}`,
      values: [
        readings.map((reading) => reading.incidentId), readings.map((reading) => reading.id), readings.map((reading) => reading.place.kind), readings.map((reading) => reading.place.id),
        readings.map((reading) => reading.sensorId), readings.map((reading) => at(reading.measuredAtMs)), readings.map((reading) => reading.airTempC), readings.map((reading) => reading.relativeHumidityPct),
        readings.map((reading) => at(reading.recordedAtMs)), readings.map((reading) => reading.source),
      ],
    });
    return rows.map(toReading);
  }

  async around(spans: readonly SensorSpan[]): Promise<ClimateReadingRecord[]> {
    const rows = await this.readings({
      name: 'readings_around',
      text: `select ${READING_COLUMNS} from unnest($2::uuid[], $3::timestamptz[], $4::timestamptz[]) as s (sensor_id, from_at, to_at)
             join climate_reading r on r.network_id = $1 and r.sensor_id = s.sensor_id and r.measured_at between s.from_at and s.to_at order by r.sensor_id, r.measured_at`,
      values: [spans.map((span) => span.sensorId), spans.map((span) => at(span.fromMs)), spans.map((span) => at(span.toMs))],
    });
    return rows.map(toReading);
  }

  async saveDoubts(changed: readonly Pick<ClimateReadingRecord, 'id' | 'doubt'>[]): Promise<void> {
    if (changed.length === 0) return;
    await this.client.query({
      name: 'readings_doubts',
      text: `update climate_reading r set doubt = c.doubt, state = case when c.doubt is null then 'accepted' else 'doubtful' end
             from unnest($2::uuid[], $3::text[]) as c (id, doubt) where r.network_id = $1 and r.id = c.id`,
      values: [this.networkId, changed.map(({ id }) => id), changed.map(({ doubt }) => doubt)],
    });
  }

  async roomsWithRunningMachines(dryingRoomIds: readonly string[]): Promise<Set<string>> {
    const { rows } = await this.client.query<{ id: string }>({
      name: 'rooms_with_machines',
      text: `select distinct drying_room_id as id from dehumidifier where network_id = $1 and drying_room_id = any($2::uuid[]) and state = 'running'`,
      values: [this.networkId, dryingRoomIds],
    });
    return new Set(rows.map((row) => row.id));
  }

  async roomAir(incidentId: string, dryingRoomIds: readonly string[]): Promise<CurrentRoomAir[]> {
    const { rows } = await this.client.query<RoomAirRow>({
      name: 'room_air',
      text: `select id, code, air_temp_c, relative_humidity_pct, measured_at, humidity_cap_pct from drying_room where network_id = $1 and incident_id = $2 and id = any($3::uuid[])`,
      values: [this.networkId, incidentId, dryingRoomIds],
    });
    return rows.map(toRoomAir);
  }

  async refreshRoomAir(dryingRoomIds: readonly string[]): Promise<CurrentRoomAir[]> {
    if (dryingRoomIds.length === 0) return [];
    const { rows } = await this.client.query<RoomAirRow>({ name: 'room_air_refresh', text: REFRESH_ROOM_AIR, values: [this.networkId, dryingRoomIds] });
    return rows.map(toRoomAir);
  }

  async refreshOutdoorAir(incidentId: string, nowMs: number): ReturnType<ClimateRecordsStore['refreshOutdoorAir']> {
    const { rows } = await this.client.query<{ before_temp_c: number | null; before_humidity_pct: number | null; air_temp_c: number; relative_humidity_pct: number; measured_at: Date }>({
      name: 'outdoor_air_refresh', text: REFRESH_OUTDOOR_AIR, values: [this.networkId, incidentId, at(nowMs)],
    });
    const row = rows[0];
    if (!row) return null;
    const before = row.before_temp_c === null || row.before_humidity_pct === null ? null : { airTempC: row.before_temp_c, relativeHumidityPct: row.before_humidity_pct };
    return { before, now: { airTempC: row.air_temp_c, relativeHumidityPct: row.relative_humidity_pct, measuredAtMs: row.measured_at.getTime() } };
  }

  async newestAt(places: readonly ClimatePlace[]): Promise<number[]> {
    const { rows } = await this.client.query<{ newest: Date | null }>({
      name: 'readings_newest_at',
      text: `select (select max(r.measured_at) from climate_reading r where r.network_id = $1 and r.place_kind = p.kind and r.place_id = p.id) as newest
             from unnest($2::text[], $3::uuid[]) with ordinality as p (kind, id, place_in_order) order by p.place_in_order`,
      values: [this.networkId, places.map((place) => place.kind), places.map((place) => place.id)],
    });
    return rows.map((row) => row.newest?.getTime() ?? Number.NEGATIVE_INFINITY);
  }

  async page(incidentId: string, filter: ReadingFilter, limit: number, after: AfterReading | null): Promise<ClimateReadingRecord[]> {
    const values: unknown[] = [incidentId];
    const where = ['r.network_id = $1', 'r.incident_id = $2'];
    const add = (condition: string, value: unknown) => {
      values.push(value);
      where.push(`${condition} $${values.length + 1}`);
    };
    if (filter.place) add('r.place_kind =', filter.place.kind);
    if (filter.place) add('r.place_id =', filter.place.id);
    if (filter.sensorId) add('r.sensor_id =', filter.sensorId);
    if (filter.state) add('r.state =', filter.state);
    if (filter.fromMs !== undefined) add('r.measured_at >=', at(filter.fromMs));
    if (filter.toMs !== undefined) add('r.measured_at <', at(filter.toMs));
    if (after) {
      values.push(at(after.measuredAtMs), after.id);
      where.push(`(r.measured_at, r.id) < ($${values.length}, $${values.length + 1})`);
    }
    values.push(limit);
    const rows = await this.readings({ text: `select ${READING_COLUMNS} from climate_reading r where ${where.join(' and ')} order by r.measured_at desc, r.id desc limit $${values.length + 1}`, values });
    return rows.map(toReading);
  }

  /** The network is always the first parameter. */
  private async readings(query: { name?: string; text: string; values: unknown[] }): Promise<ReadingRow[]> {
    const { rows } = await this.client.query<ReadingRow>({ ...query, values: [this.networkId, ...query.values] });
    return rows;
  }
}
