import type { WeatherFilter, WeatherRecord, WeatherStore } from '#application';
import type { Client } from '../pool.js';
import { at, msOrNull } from './row.js';

interface WeatherRow {
  incident_id: string;
  id: string;
  site_id: string;
  kind: WeatherRecord['kind'];
  valid_at: Date;
  issued_at: Date | null;
  air_temp_c: number;
  relative_humidity_pct: number;
  wind_m_per_s: number | null;
  source: string;
  recorded_at: Date;
}

function toRecord(row: WeatherRow): WeatherRecord {
  return {
    id: row.id, incidentId: row.incident_id, siteId: row.site_id, kind: row.kind, validAtMs: row.valid_at.getTime(), issuedAtMs: msOrNull(row.issued_at), airTempC: row.air_temp_c,
    relativeHumidityPct: row.relative_humidity_pct, windMPerS: row.wind_m_per_s, source: row.source, recordedAtMs: row.recorded_at.getTime(),
  };
}

export class PgWeatherStore implements WeatherStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async lockSite(siteId: string): Promise<void> {
    await this.client.query({ name: 'weather_lock', text: `select pg_advisory_xact_lock(hashtextextended($1::text || 'weather' || $2::text, 1))`, values: [this.networkId, siteId] });
  }

  async known(records: readonly WeatherRecord[]): Promise<WeatherRecord[]> {
    const { rows } = await this.client.query<WeatherRow>({
      name: 'weather_known',
      text: `select distinct w.* from unnest($2::uuid[], $3::text[], $4::timestamptz[], $5::text[], $6::timestamptz[]) as k (site_id, kind, valid_at, source, issued_at)
             join weather_record w on w.network_id = $1 and w.site_id = k.site_id and w.kind = k.kind and w.valid_at = k.valid_at and w.source = k.source and w.issued_at is not distinct from k.issued_at`,
      values: [this.networkId, records.map((one) => one.siteId), records.map((one) => one.kind), records.map((one) => at(one.validAtMs)), records.map((one) => one.source), records.map((one) => at(one.issuedAtMs))],
    });
    return rows.map(toRecord);
  }

  async insert(records: readonly WeatherRecord[]): Promise<void> {
    if (records.length === 0) return;
    await this.client.query({
      name: 'weather_insert',
      text: `insert into weather_record (network_id, incident_id, id, site_id, kind, valid_at, issued_at, air_temp_c, relative_humidity_pct, wind_m_per_s, source, recorded_at)
             select $1, n.* from unnest($2::uuid[], $3::uuid[], $4::uuid[], $5::text[], $6::timestamptz[], $7::timestamptz[], $8::float8[], $9::float8[], $10::float8[], $11::text[], $12::timestamptz[]) as n`,
      values: [
        this.networkId, records.map((one) => one.incidentId), records.map((one) => one.id), records.map((one) => one.siteId), records.map((one) => one.kind), records.map((one) => at(one.validAtMs)),
        records.map((one) => at(one.issuedAtMs)), records.map((one) => one.airTempC), records.map((one) => one.relativeHumidityPct), records.map((one) => one.windMPerS), records.map((one) => one.source),
        records.map((one) => at(one.recordedAtMs)),
      ],
    });
  }

  async page(siteId: string, filter: WeatherFilter, limit: number, after: { validAtMs: number; id: string } | null): Promise<WeatherRecord[]> {
    const { rows } = await this.client.query<WeatherRow>({
      name: 'weather_page',
      text: `select w.* from weather_record w
             where w.network_id = $1 and w.site_id = $2 and ($4::text is null or w.kind = $4) and ($5::timestamptz is null or w.valid_at >= $5) and ($6::timestamptz is null or w.valid_at < $6)
               and ($7::timestamptz is null or (w.valid_at, w.id) > ($7, $8::uuid))
               and not exists (select from weather_record n where n.network_id = $1 and n.site_id = w.site_id and n.kind = w.kind and n.valid_at = w.valid_at and n.source = w.source and n.issued_at > w.issued_at)
             order by w.valid_at, w.id limit $3`,
      values: [this.networkId, siteId, limit, filter.kind ?? null, at(filter.fromMs ?? null), at(filter.toMs ?? null), at(after?.validAtMs ?? null), after?.id ?? null],
    });
    return rows.map(toRecord);
  }

  async forecast(siteId: string, fromMs: number, toMs: number): Promise<WeatherRecord[]> {
    const { rows } = await this.client.query<WeatherRow>({
      name: 'weather_forecast',
      text: `select distinct on (w.valid_at) w.* from weather_record w
             where w.network_id = $1 and w.site_id = $2 and w.kind = 'forecast' and w.valid_at >= $3 and w.valid_at < $4 order by w.valid_at, w.issued_at desc, w.recorded_at desc, w.id desc`,
      values: [this.networkId, siteId, at(fromMs), at(toMs)],
    });
    return rows.map(toRecord);
  }
}
