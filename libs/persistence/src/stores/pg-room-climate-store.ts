import type {
  CheckpointMark, ClimateSubject, FreeArea, InputPlaceReading, InputReading, ItemClimateView, ItemStanding, OutdoorAir, ReadingsDigest, Reporting, RoomClimateStore, RoomFacts, RoomForecast, RoomResult, RoomStanding, RoomState, RoomView,
} from '#application';
import { loadRoomFacts } from '../climate/room-facts.js';
import { saveRoomResult } from '../climate/room-result.js';
import type { Client } from '../pool.js';
import { at } from './row.js';

interface ItemViewRow {
  standing: ItemStanding;
  item_id: string;
  incident_id: string;
  tag_code: string;
  room_id: string;
  room_code: string;
  room_name: string;
}

const ITEM_VIEW = `
  select c.detail->'standing' as standing, c.item_id, c.incident_id, i.tag_code, r.id as room_id, r.code as room_code, r.name as room_name
  from item_climate c
  join item i on i.network_id = c.network_id and i.id = c.item_id
  join drying_room r on r.network_id = c.network_id and r.id = c.drying_room_id`;

/** Readings that the drying model can take in: believed, with a humidity, within its temperatures. */
const READ_IN_ROOM = `r.network_id = $1 and r.place_kind = 'drying-room' and r.place_id = $2 and r.state = 'accepted' and r.relative_humidity_pct is not null and r.air_temp_c between -40 and 45`;
const READ_ELSEWHERE = `r.network_id = $1 and r.place_kind in ('zone', 'freezer', 'drying-room') and r.place_id = any($2::uuid[]) and r.state = 'accepted' and r.air_temp_c between -50 and 60`;
const DIGEST = "count(*)::int as count, coalesce(bit_xor(hashtextextended(r.id::text, 0)), 0)::text as xor";

export class PgRoomClimateStore implements RoomClimateStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async subject(id: string): Promise<ClimateSubject | null> {
    const { rows } = await this.client.query<{ kind: ClimateSubject['kind']; incident_id: string; open: boolean }>({
      name: 'climate_subject',
      text: `select p.kind, p.incident_id, n.state = 'open' as open
             from (select 'drying-room' as kind, network_id, incident_id from drying_room where network_id = $1 and id = $2
                   union all select 'freezer', network_id, incident_id from freezer where network_id = $1 and id = $2) p
             join incident n on n.network_id = p.network_id and n.id = p.incident_id`,
      values: [this.networkId, id],
    });
    const [row] = rows;
    return row ? { kind: row.kind, id, incidentId: row.incident_id, open: row.open } : null;
  }

  async roomOfPlace(dryingPlaceId: string): Promise<string | null> {
    const { rows } = await this.client.query<{ id: string }>({ name: 'room_of_place', text: 'select drying_room_id as id from drying_place where network_id = $1 and id = $2', values: [this.networkId, dryingPlaceId] });
    return rows[0]?.id ?? null;
  }

  async takeEpoch(incidentId: string, roomId: string): Promise<number> {
    const { rows } = await this.client.query<{ epoch: number }>({
      name: 'room_epoch',
      text: `insert into room_course (network_id, incident_id, drying_room_id, epoch) values ($1, $2, $3, 1)
             on conflict (network_id, drying_room_id) do update set epoch = room_course.epoch + 1 returning epoch::int`,
      values: [this.networkId, incidentId, roomId],
    });
    return rows[0]?.epoch ?? 0;
  }

  async claimStoring(roomId: string, epoch: number): Promise<boolean> {
    const { rowCount } = await this.client.query({ name: 'room_claim', text: 'update room_course set stored_epoch = $3 where network_id = $1 and drying_room_id = $2 and stored_epoch < $3', values: [this.networkId, roomId, epoch] });
    return rowCount === 1;
  }

  facts(roomId: string): Promise<RoomFacts | null> {
    return loadRoomFacts(this.client, this.networkId, roomId);
  }

  /** Weather and readings outdoors of the site, and what was said of the incident as a whole; of one moment the damper counts. */
  async observed(incidentId: string, siteId: string): Promise<OutdoorAir[]> {
    const { rows } = await this.client.query<{ at: Date; air_temp_c: number; relative_humidity_pct: number }>({
      name: 'room_outdoors',
      text: `select distinct on (o.at) o.at, o.air_temp_c, o.relative_humidity_pct
             from (select valid_at as at, air_temp_c, relative_humidity_pct from weather_record where network_id = $1 and site_id = $3 and kind = 'observed'
                   union all
                   select r.measured_at, r.air_temp_c, r.relative_humidity_pct from climate_reading r
                    where r.network_id = $1 and r.place_kind = 'outdoors' and r.place_id = $3 and r.state = 'accepted' and r.relative_humidity_pct is not null
                   union all
                   select outdoor_air_at, outdoor_air_temp_c, outdoor_relative_humidity_pct from incident where network_id = $1 and id = $2 and outdoor_air_at is not null and outdoor_air_temp_c is not null) o
             where o.air_temp_c between -40 and 55
             order by o.at, o.relative_humidity_pct desc`,
      values: [this.networkId, incidentId, siteId],
    });
    return rows.map((row) => ({ atMs: row.at.getTime(), airTempC: row.air_temp_c, relativeHumidityPct: row.relative_humidity_pct }));
  }

  async readings(roomId: string, afterMs: number | null): Promise<InputReading[]> {
    const { rows } = await this.client.query<{ measured_at: Date; air_temp_c: number; relative_humidity_pct: number; digest: string }>({
      name: 'room_readings',
      text: `select r.measured_at, r.air_temp_c, r.relative_humidity_pct, hashtextextended(r.id::text, 0)::text as digest from climate_reading r
             where ${READ_IN_ROOM} and ($3::timestamptz is null or r.measured_at > $3) order by r.measured_at, r.id`,
      values: [this.networkId, roomId, at(afterMs)],
    });
    return rows.map((row) => ({ atMs: row.measured_at.getTime(), airTempC: row.air_temp_c, relativeHumidityPct: row.relative_humidity_pct, digest: BigInt(row.digest) }));
  }

  digest(roomId: string, atMs: number): Promise<ReadingsDigest> {
    return this.digestOf('room_digest', READ_IN_ROOM, roomId, atMs);
  }

  async elsewhere(placeIds: readonly string[], fromMs: number, toMs: number): Promise<InputPlaceReading[]> {
    const { rows } = await this.client.query<{ place_id: string; measured_at: Date; air_temp_c: number; relative_humidity_pct: number | null }>({
      name: 'room_elsewhere',
      text: `select r.place_id, r.measured_at, r.air_temp_c, r.relative_humidity_pct from climate_reading r where ${READ_ELSEWHERE} and r.measured_at between $3 and $4 order by r.measured_at, r.id`,
      values: [this.networkId, placeIds, at(fromMs), at(toMs)],
    });
    return rows.map((row) => ({ placeId: row.place_id, atMs: row.measured_at.getTime(), airTempC: row.air_temp_c, relativeHumidityPct: row.relative_humidity_pct }));
  }

  digestElsewhere(placeIds: readonly string[], atMs: number): Promise<ReadingsDigest> {
    return this.digestOf('room_digest_elsewhere', READ_ELSEWHERE, placeIds, atMs);
  }

  private async digestOf(name: string, where: string, about: unknown, atMs: number): Promise<ReadingsDigest> {
    const { rows } = await this.client.query<{ count: number; xor: string }>({ name, text: `select ${DIGEST} from climate_reading r where ${where} and r.measured_at <= $3`, values: [this.networkId, about, at(atMs)] });
    return { count: rows[0]?.count ?? 0, xor: BigInt(rows[0]?.xor ?? '0') };
  }

  async checkpoints(roomId: string): Promise<CheckpointMark[]> {
    const { rows } = await this.client.query<{ at: Date; basis: string }>({ name: 'room_checkpoints', text: 'select at, basis from room_checkpoint where network_id = $1 and drying_room_id = $2 order by at desc', values: [this.networkId, roomId] });
    return rows.map((row) => ({ atMs: row.at.getTime(), basis: row.basis }));
  }

  async checkpoint(roomId: string, atMs: number): Promise<RoomState | null> {
    const { rows } = await this.client.query<{ state: RoomState }>({ name: 'room_checkpoint', text: 'select state from room_checkpoint where network_id = $1 and drying_room_id = $2 and at = $3', values: [this.networkId, roomId, at(atMs)] });
    return rows[0]?.state ?? null;
  }

  save(incidentId: string, roomId: string, result: RoomResult): Promise<void> {
    return saveRoomResult(this.client, this.networkId, incidentId, roomId, result);
  }

  async room(roomId: string): Promise<RoomView | null> {
    const { rows } = await this.client.query<{ id: string; incident_id: string; site_id: string; code: string; name: string; humidity_cap_pct: number; standing: RoomStanding | null }>({
      name: 'room_view',
      text: `select r.id, r.incident_id, r.site_id, r.code, r.name, r.humidity_cap_pct, c.standing from drying_room r
             left join room_course c on c.network_id = r.network_id and c.drying_room_id = r.id where r.network_id = $1 and r.id = $2`,
      values: [this.networkId, roomId],
    });
    const [row] = rows;
    return row ? { id: row.id, incidentId: row.incident_id, siteId: row.site_id, code: row.code, name: row.name, humidityCapPct: row.humidity_cap_pct, standing: row.standing } : null;
  }

  async forecast(roomId: string): Promise<RoomForecast | null> {
    const { rows } = await this.client.query<{ forecast: RoomForecast | null }>({ name: 'room_forecast', text: 'select forecast from room_course where network_id = $1 and drying_room_id = $2', values: [this.networkId, roomId] });
    return rows[0]?.forecast ?? null;
  }

  async newestState(roomId: string): Promise<RoomState | null> {
    const { rows } = await this.client.query<{ state: RoomState }>({ name: 'room_newest_state', text: 'select state from room_checkpoint where network_id = $1 and drying_room_id = $2 order by at desc limit 1', values: [this.networkId, roomId] });
    return rows[0]?.state ?? null;
  }

  async item(itemId: string): Promise<ItemClimateView | null> {
    const { rows } = await this.client.query<ItemViewRow>({ name: 'item_climate_view', text: `${ITEM_VIEW} where c.network_id = $1 and c.item_id = $2 order by c.taken_at desc nulls first, c.hung_at desc limit 1`, values: [this.networkId, itemId] });
    return rows[0] ? toItemView(rows[0]) : null;
  }

  async itemPage(roomId: string, limit: number, afterItemId: string | null): Promise<ItemClimateView[]> {
    const { rows } = await this.client.query<ItemViewRow>({
      name: 'item_climate_page',
      text: `${ITEM_VIEW} where c.network_id = $1 and c.drying_room_id = $2 and c.taken_at is null and ($4::uuid is null or c.item_id > $4) order by c.item_id limit $3`,
      values: [this.networkId, roomId, limit, afterItemId],
    });
    return rows.map(toItemView);
  }

  async freeArea(roomId: string): Promise<FreeArea> {
    const { rows } = await this.client.query<{ arrangement: FreeArea['arrangement']; area: number; taken: number }>({
      name: 'room_free_area_by_arrangement',
      text: `select p.arrangement, sum(p.area_dm2)::int as area,
                    coalesce(sum((select sum(i.area_dm2) from item i where i.network_id = p.network_id and i.keeper_kind = 'drying-place' and i.keeper_id = p.id)), 0)::int as taken
             from drying_place p where p.network_id = $1 and p.drying_room_id = $2 group by p.arrangement order by p.arrangement`,
      values: [this.networkId, roomId],
    });
    const sum = (of: (row: (typeof rows)[number]) => number) => rows.reduce((total, row) => total + of(row), 0);
    const [freest] = [...rows].sort((a, b) => b.area - b.taken - (a.area - a.taken));
    return { areaDm2: sum(({ area }) => area), takenDm2: sum(({ taken }) => taken), arrangement: freest?.arrangement ?? 'rack' };
  }

  async reporting(kind: ClimateSubject['kind'], id: string): Promise<Reporting> {
    const { rows: [row] } = await this.client.query<{ every_minutes: number | null; by_hand: boolean }>({
      name: 'climate_reporting',
      text: `select (select min(s.expected_every_minutes) from sensor s where s.network_id = $1 and s.place_kind = $2 and s.place_id = $3 and s.state = 'in-service') as every_minutes,
                    not exists (select from climate_reading r where r.network_id = $1 and r.place_kind = $2 and r.place_id = $3 and r.state = 'accepted' and r.source <> 'hand'
                                   and r.measured_at > n.newest_at - interval '1 day') as by_hand
             from (select max(k.measured_at) as newest_at from climate_reading k where k.network_id = $1 and k.place_kind = $2 and k.place_id = $3 and k.state = 'accepted') n`,
      values: [this.networkId, kind, id],
    });
    return { everyMinutes: row?.every_minutes ?? null, byHand: row?.by_hand ?? true };
  }

  async lockFreezer(freezerId: string, readings: number): Promise<{ readings: { tempC: number; measuredAtMs: number }[]; inUse: boolean } | null> {
    const { rowCount } = await this.client.query('select 1 from freezer where network_id = $1 and id = $2 for no key update', [this.networkId, freezerId]);
    if (rowCount === 0) return null;
    const { rows } = await this.client.query<{ air_temp_c: number; measured_at: Date }>({
      name: 'freezer_readings',
      text: `select r.air_temp_c, r.measured_at from climate_reading r where r.network_id = $1 and r.place_kind = 'freezer' and r.place_id = $2 and r.state = 'accepted' order by r.measured_at desc, r.air_temp_c limit $3`,
      values: [this.networkId, freezerId, readings],
    });
    const { rows: [use] } = await this.client.query<{ used: boolean }>({
      name: 'freezer_in_use', text: `select exists (select from item where network_id = $1 and keeper_kind = 'freezer' and keeper_id = $2) as used`, values: [this.networkId, freezerId],
    });
    return { readings: rows.reverse().map((row) => ({ tempC: row.air_temp_c, measuredAtMs: row.measured_at.getTime() })), inUse: use?.used ?? false };
  }
}

function toItemView(row: ItemViewRow): ItemClimateView {
  return { standing: row.standing, itemId: row.item_id, incidentId: row.incident_id, tagCode: row.tag_code, roomId: row.room_id, roomCode: row.room_code, roomName: row.room_name };
}
