import type { CountedStanding, StockTakeRecord, StockTakeResolutionRecord, StockTakeScanRecord, StockTakeStore } from '#application';
import { sameKeeper, type Keeper, type KeeperKind, type StockTakeLine, type StockTakeScan } from '#custody';
import type { Client } from '../pool.js';
import { at, msOrNull } from './row.js';

interface StockTakeRow { id: string; incident_id: string; site_id: string | null; state: 'open' | 'closed'; started_at: Date; started_by: string; closed_at: Date | null; closed_by: string | null; version: number }
interface ScanRow { scan_id: string; scan_no: number; tag: string; standing: StockTakeScan['standing']; item_id: string | null; place_kind: KeeperKind; place_id: string; seen_at: Date }
interface ResolutionRow { id: string; difference_id: string; subject: string; kind: StockTakeResolutionRecord['kind']; resolution: StockTakeResolutionRecord['resolution']; person_id: string; reason: string; resolved_at: Date; after_scan_no: number; event_seq: number | null }

/**
 * Everything at the places ($4 kinds, $5 ids), in the containers there too, each with its way from the inside outwards. The bounds keep a
 * circle, which only a broken database can hold, from going on for ever.
 */
const SNAPSHOT = `
  with recursive inside (kind, id, depth) as (
    select p.kind, p.id, 1 from unnest($4::text[], $5::uuid[]) as p (kind, id)
    union
    select 'container', c.id, i.depth + 1 from inside i join container c on c.network_id = $1 and c.keeper_kind = i.kind and c.keeper_id = i.id where i.depth < 50
  ), listed as (
    select distinct t.id, t.seq, t.keeper_kind, t.keeper_id from inside i join item t on t.network_id = $1 and t.incident_id = $2 and t.keeper_kind = i.kind and t.keeper_id = i.id
    where t.stage not in ('released', 'handed-back', 'merged') and not t.missing
  ), way (item_id, depth, kind, id) as (
    select l.id, 1, l.keeper_kind, l.keeper_id from listed l
    union all
    select w.item_id, w.depth + 1, c.keeper_kind, c.keeper_id from way w join container c on c.network_id = $1 and c.id = w.id where w.kind = 'container' and c.keeper_kind is not null and w.depth < 50
  ) insert into stock_take_line (network_id, incident_id, stock_take_id, item_id, at_seq, way)
  select $1::uuid, $2::uuid, $3::uuid, l.id, l.seq, array_agg(w.kind || ' ' || w.id order by w.depth) from listed l join way w on w.item_id = l.id group by l.id, l.seq`;

const WAYS = `
  with recursive way (item_id, depth, kind, id) as (
    select i.id, 1, i.keeper_kind, i.keeper_id from item i where i.network_id = $1 and i.id = any($2::uuid[])
    union all
    select w.item_id, w.depth + 1, c.keeper_kind, c.keeper_id from way w join container c on c.network_id = $1 and c.id = w.id where w.kind = 'container' and c.keeper_kind is not null and w.depth < 50
  ) select w.item_id, i.tag_code, i.missing, array_agg(w.kind || ' ' || w.id order by w.depth) as way from way w join item i on i.network_id = $1 and i.id = w.item_id group by w.item_id, i.tag_code, i.missing`;

function keepersOf(way: readonly string[]): Keeper[] {
  return way.map((step) => ({ kind: step.slice(0, step.indexOf(' ')) as KeeperKind, id: step.slice(step.indexOf(' ') + 1) }));
}

export class PgStockTakeStore implements StockTakeStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async start(stockTake: StockTakeRecord): Promise<void> {
    const { id, incidentId, places } = stockTake;
    const named = [places.map(({ kind }) => kind), places.map((place) => place.id)];
    await this.client.query({
      name: 'stock_take_insert',
      text: 'insert into stock_take (network_id, incident_id, id, site_id, state, started_at, started_by) values ($1, $2, $3, $4, $5, $6, $7)',
      values: [this.networkId, incidentId, id, stockTake.siteId, stockTake.state, at(stockTake.startedAtMs), stockTake.startedBy],
    });
    await this.client.query({
      name: 'stock_take_places_insert',
      text: 'insert into stock_take_place (network_id, incident_id, stock_take_id, place_kind, place_id) select $1, $2, $3, p.* from unnest($4::text[], $5::uuid[]) p',
      values: [this.networkId, incidentId, id, ...named],
    });
    await this.client.query({ name: 'stock_take_snapshot', text: SNAPSHOT, values: [this.networkId, incidentId, id, ...named] });
  }

  async placesOf(siteId: string): Promise<Keeper[]> {
    const { rows } = await this.client.query<{ kind: KeeperKind; id: string }>({
      name: 'stock_take_site_places',
      text: `select 'station' as kind, id from station where network_id = $1 and site_id = $2
             union all select 'holding', id from holding_area where network_id = $1 and site_id = $2
             union all select 'drying-place', p.id from drying_place p join drying_room r on r.network_id = p.network_id and r.id = p.drying_room_id where p.network_id = $1 and r.site_id = $2
             union all select 'freezer', id from freezer where network_id = $1 and site_id = $2
             union all select 'shelf', id from shelf where network_id = $1 and site_id = $2
             union all select 'container', id from container where network_id = $1 and site_id = $2 and keeper_kind is null`,
      values: [this.networkId, siteId],
    });
    return rows.map(({ kind, id }) => ({ kind, id }));
  }

  find(stockTakeId: string): Promise<StockTakeRecord | null> {
    return this.load(stockTakeId, '', 'find');
  }

  lock(stockTakeId: string, mode: 'share' | 'update'): Promise<StockTakeRecord | null> {
    return this.load(stockTakeId, mode === 'share' ? 'for share' : 'for update', mode);
  }

  private async load(stockTakeId: string, lock: '' | 'for share' | 'for update', name: string): Promise<StockTakeRecord | null> {
    const { rows } = await this.client.query<StockTakeRow>({ name: `stock_take_${name}`, text: `select * from stock_take where network_id = $1 and id = $2 ${lock}`, values: [this.networkId, stockTakeId] });
    const row = rows[0];
    if (!row) return null;
    const places = await this.client.query<{ place_kind: KeeperKind; place_id: string }>({ name: 'stock_take_places', text: 'select place_kind, place_id from stock_take_place where network_id = $1 and stock_take_id = $2 order by place_kind, place_id', values: [this.networkId, stockTakeId] });
    return {
      id: row.id, incidentId: row.incident_id, siteId: row.site_id, places: places.rows.map((place) => ({ kind: place.place_kind, id: place.place_id })), state: row.state,
      startedAtMs: row.started_at.getTime(), startedBy: row.started_by, closedAtMs: msOrNull(row.closed_at), closedBy: row.closed_by, version: row.version,
    };
  }

  async lines(stockTakeId: string): Promise<StockTakeLine[]> {
    const { rows } = await this.client.query<{ item_id: string; way: string[]; since: string[] | null }>({
      name: 'stock_take_lines',
      text: `select l.item_id, l.way, m.since from stock_take_line l
             left join lateral (select array_agg(e.to_kind || ' ' || e.to_id) as since from custody_event e where e.network_id = l.network_id and e.item_id = l.item_id and e.seq > l.at_seq
               and (e.from_kind is distinct from e.to_kind or e.from_id is distinct from e.to_id)) m on true
             where l.network_id = $1 and l.stock_take_id = $2`,
      values: [this.networkId, stockTakeId],
    });
    const standing = new Map((await this.standing(rows.map((row) => row.item_id))).map((item) => [item.itemId, item]));
    return rows.map((row) => {
      const [then, now] = [keepersOf(row.way), standing.get(row.item_id)];
      const present = now?.way ?? [];
      // A box that was carried elsewhere takes its things along without an event of theirs.
      const carried = then.length !== present.length || then.some((keeper, index) => !sameKeeper(keeper, present[index] ?? null));
      return { itemId: row.item_id, way: then, moved: row.since !== null || carried, since: [...keepersOf(row.since ?? []), ...present], lost: now?.lost ?? false };
    });
  }

  async scans(stockTakeId: string): Promise<StockTakeScan[]> {
    const { rows } = await this.client.query<ScanRow>({ name: 'stock_take_scans', text: 'select * from stock_take_scan where network_id = $1 and stock_take_id = $2', values: [this.networkId, stockTakeId] });
    return rows.map((row) => ({ scanId: row.scan_id, tag: row.tag, standing: row.standing, itemId: row.item_id, at: { kind: row.place_kind, id: row.place_id }, seenAtMs: row.seen_at.getTime(), order: Number(row.scan_no) }));
  }

  async resolutions(stockTakeId: string): Promise<StockTakeResolutionRecord[]> {
    const { rows } = await this.client.query<ResolutionRow>({ name: 'stock_take_resolutions', text: 'select * from stock_take_resolution where network_id = $1 and stock_take_id = $2 order by id', values: [this.networkId, stockTakeId] });
    return rows.map((row) => ({
      id: row.id, differenceId: row.difference_id, subject: row.subject, kind: row.kind, resolution: row.resolution, personId: row.person_id, reason: row.reason, resolvedAtMs: row.resolved_at.getTime(), afterOrder: Number(row.after_scan_no), eventSeq: row.event_seq,
    }));
  }

  async standing(itemIds: readonly string[]): Promise<CountedStanding[]> {
    if (itemIds.length === 0) return [];
    const { rows } = await this.client.query<{ item_id: string; tag_code: string; missing: boolean; way: string[] }>({ name: 'stock_take_ways', text: WAYS, values: [this.networkId, itemIds] });
    return rows.map((row) => ({ itemId: row.item_id, tagCode: row.tag_code, way: keepersOf(row.way), lost: row.missing }));
  }

  async addScans(stockTake: StockTakeRecord, scans: readonly StockTakeScanRecord[]): Promise<Set<string>> {
    if (scans.length === 0) return new Set();
    const { rows } = await this.client.query<{ scan_id: string }>({
      name: 'stock_take_scans_add',
      text: `with seen as (
               insert into stock_take_scan (network_id, incident_id, stock_take_id, scan_id, tag, standing, item_id, place_kind, place_id, seen_at, recorded_at, person_id, scan_no)
               select $1, $2, $3, s.scan_id, s.tag, s.standing, s.item_id, s.place_kind, s.place_id, s.seen_at, s.recorded_at, s.person_id, last.no + s.nth
               from unnest($4::uuid[], $5::text[], $6::text[], $7::uuid[], $8::text[], $9::uuid[], $10::timestamptz[], $11::timestamptz[], $12::uuid[]) with ordinality s (scan_id, tag, standing, item_id, place_kind, place_id, seen_at, recorded_at, person_id, nth),
                    (select greatest(max(scan_no), (extract(epoch from clock_timestamp()) * 1000000)::bigint) as no from stock_take_scan where network_id = $1 and stock_take_id = $3) last
               on conflict (network_id, stock_take_id, scan_id) do nothing returning scan_id, item_id, least(seen_at, recorded_at) as met_at
             ), met as (
               select i.id, m.met_at from item i join (select item_id, max(met_at) as met_at from seen where item_id is not null group by item_id) m on m.item_id = i.id
               where i.network_id = $1 and not i.missing order by i.id for no key update of i
             ), moved_on as (
               update item set last_seen_at = greatest(last_seen_at, met.met_at) from met where item.network_id = $1 and item.id = met.id
             ) select scan_id from seen`,
      values: [this.networkId, stockTake.incidentId, stockTake.id, scans.map((scan) => scan.scanId), scans.map((scan) => scan.tag), scans.map((scan) => scan.standing), scans.map((scan) => scan.itemId),
        scans.map((scan) => scan.at.kind), scans.map((scan) => scan.at.id), scans.map((scan) => at(scan.seenAtMs)), scans.map((scan) => at(scan.recordedAtMs)), scans.map((scan) => scan.personId)],
    });
    return new Set(rows.map((row) => row.scan_id));
  }

  async resolve(stockTake: StockTakeRecord, one: StockTakeResolutionRecord): Promise<void> {
    await this.client.query({
      name: 'stock_take_resolve',
      text: `insert into stock_take_resolution (network_id, incident_id, id, stock_take_id, difference_id, subject, kind, resolution, person_id, reason, resolved_at, after_scan_no, event_seq)
             values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13)`,
      values: [this.networkId, stockTake.incidentId, one.id, stockTake.id, one.differenceId, one.subject, one.kind, one.resolution, one.personId, one.reason, at(one.resolvedAtMs), one.afterOrder, one.eventSeq],
    });
  }

  async close(stockTakeId: string, closedBy: string, nowMs: number): Promise<number> {
    const { rows } = await this.client.query<{ version: number }>(
      `update stock_take set state = 'closed', closed_at = $3, closed_by = $4, version = version + 1 where network_id = $1 and id = $2 returning version`, [this.networkId, stockTakeId, at(nowMs), closedBy],
    );
    return rows[0]?.version ?? 0;
  }
}
