import type { CrewMember, IncidentFacts, PlaceRecord, PlaceStore, SiteMember } from '#application';
import type { Restriction, Skill, StepKind, Zone } from '#care';
import type { Keeper, KeeperKind } from '#custody';
import type { Client } from '../pool.js';
import { msOrNull } from './row.js';

interface PlaceRow {
  id: string;
  site_id: string | null;
  zone: Zone | null;
  code: string;
  name: string;
  steps: StepKind[] | null;
  capacity: number | null;
  arrangement?: PlaceRecord['arrangement'];
}

/** The query of each kind of keeper that is a place of the incident. */
const PLACE_SQL: Partial<Record<KeeperKind, string>> = {
  station: `select s.id, s.site_id, z.kind as zone, s.code, s.name, s.steps, s.capacity from station s
            join zone z on z.network_id = s.network_id and z.id = s.zone_id where s.network_id = $1 and s.incident_id = $2 and s.id = $3`,
  holding: `select h.id, h.site_id, z.kind as zone, h.code, h.name, null::text[] as steps, null::int as capacity from holding_area h
            join zone z on z.network_id = h.network_id and z.id = h.zone_id where h.network_id = $1 and h.incident_id = $2 and h.id = $3`,
  'drying-place': `select p.id, r.site_id, 'clean' as zone, p.code, p.name, null::text[] as steps, p.area_dm2 as capacity, p.arrangement from drying_place p
            join drying_room r on r.network_id = p.network_id and r.id = p.drying_room_id where p.network_id = $1 and p.incident_id = $2 and p.id = $3`,
  freezer: `select f.id, f.site_id, 'cold' as zone, f.code, f.name, null::text[] as steps, f.volume_l as capacity from freezer f
            where f.network_id = $1 and f.incident_id = $2 and f.id = $3`,
  container: `select c.id, c.site_id, null::text as zone, c.tag_code as code, c.description as name, null::text[] as steps, null::int as capacity from container c
            where c.network_id = $1 and c.incident_id = $2 and c.id = $3`,
  shelf: `select s.id, s.site_id, z.kind as zone, s.code, s.name, null::text[] as steps, s.volume_l as capacity from shelf s
            join zone z on z.network_id = s.network_id and z.id = s.zone_id where s.network_id = $1 and s.incident_id = $2 and s.id = $3`,
  // On the road: neither at a site nor in a zone.
  vehicle: `select v.id, null::uuid as site_id, null::text as zone, v.code, v.name, null::text[] as steps, v.volume_l as capacity from vehicle v
            where v.network_id = $1 and v.incident_id = $2 and v.id = $3`,
  specialist: `select s.id, null::uuid as site_id, null::text as zone, s.code, s.name, null::text[] as steps, null::int as capacity from specialist s
            where s.network_id = $1 and s.incident_id = $2 and s.id = $3`,
  household: `select h.id, null::uuid as site_id, null::text as zone, h.code, '' as name, null::text[] as steps, null::int as capacity from household h
            where h.network_id = $1 and h.incident_id = $2 and h.id = $3`,
  courier: `select p.id, null::uuid as site_id, null::text as zone, p.code, p.display_name as name, null::text[] as steps, null::int as capacity from person p
            where p.network_id = $1 and p.incident_id = $2 and p.id = $3`,
};

/** The query of the others of a kind: of the incident, at the same site ($4; none for vehicles), without the one that is known ($3). */
const OTHERS_SQL = Object.fromEntries(
  ([['drying-place', 'p', 'r.site_id'], ['freezer', 'f', 'f.site_id'], ['shelf', 's', 's.site_id'], ['vehicle', 'v', 'null::uuid']] as const).map(([kind, alias, site]) => [
    kind, `${(PLACE_SQL[kind] ?? '').replace(` and ${alias}.id = $3`, ` and ${alias}.id <> $3 and ${site} is not distinct from $4::uuid`)} order by ${alias}.code, ${alias}.id limit $5`,
  ]),
) as Partial<Record<KeeperKind, string>>;

function toPlace(kind: KeeperKind, row: PlaceRow): PlaceRecord {
  return { keeper: { kind, id: row.id }, siteId: row.site_id, zone: row.zone, code: row.code, name: row.name, steps: row.steps ?? [], capacity: row.capacity, arrangement: row.arrangement ?? null };
}

/** Alias of the row to lock, by kind. */
const LOCK_ALIAS: Partial<Record<KeeperKind, string>> = { station: 's', holding: 'h', 'drying-place': 'p', freezer: 'f', container: 'c', shelf: 's', vehicle: 'v', specialist: 's', household: 'h', courier: 'p' };

export class PgPlaceStore implements PlaceStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  incident(incidentId: string): Promise<IncidentFacts | null> {
    return this.facts(incidentId, 'incident_facts', '');
  }

  /** `for key share` is the lock that the foreign key of a new item takes anyway, and it goes with any number of others. */
  holdIncident(incidentId: string): Promise<IncidentFacts | null> {
    return this.facts(incidentId, 'incident_hold', 'for key share');
  }

  private async facts(incidentId: string, name: string, lock: '' | 'for key share'): Promise<IncidentFacts | null> {
    const { rows } = await this.client.query<{ id: string; flood_at: Date; default_water: string; outdoor_air_temp_c: number | null; outdoor_relative_humidity_pct: number | null; state: 'open' | 'closed' }>({
      name,
      text: `select id, flood_at, default_water, outdoor_air_temp_c, outdoor_relative_humidity_pct, state from incident where network_id = $1 and id = $2 ${lock}`,
      values: [this.networkId, incidentId],
    });
    const row = rows[0];
    return row ? { id: row.id, floodAtMs: msOrNull(row.flood_at) ?? 0, defaultWater: row.default_water, outdoorAirTempC: row.outdoor_air_temp_c, outdoorRelativeHumidityPct: row.outdoor_relative_humidity_pct, state: row.state } : null;
  }

  find(incidentId: string, keeper: Keeper): Promise<PlaceRecord | null> {
    return this.load(incidentId, keeper, false);
  }

  lock(incidentId: string, keeper: Keeper): Promise<PlaceRecord | null> {
    return this.load(incidentId, keeper, true);
  }

  private async load(incidentId: string, keeper: Keeper, lock: boolean): Promise<PlaceRecord | null> {
    const sql = PLACE_SQL[keeper.kind];
    if (!sql) return null;
    const { rows } = await this.client.query<PlaceRow>({
      name: `place_${keeper.kind}${lock ? '_lock' : ''}`,
      text: lock ? `${sql} for no key update of ${LOCK_ALIAS[keeper.kind]}` : sql,
      values: [this.networkId, incidentId, keeper.id],
    });
    const row = rows[0];
    return row ? toPlace(keeper.kind, row) : null;
  }

  async othersLike(incidentId: string, { keeper, siteId }: PlaceRecord, limit: number): Promise<PlaceRecord[]> {
    const sql = OTHERS_SQL[keeper.kind];
    if (!sql) return [];
    const { rows } = await this.client.query<PlaceRow>({ name: `places_like_${keeper.kind}`, text: sql, values: [this.networkId, incidentId, keeper.id, siteId, limit] });
    return rows.map((row) => toPlace(keeper.kind, row));
  }

  async takenBy(keeper: Keeper): Promise<{ areaDm2: number; volumeL: number; items: number }> {
    const { rows } = await this.client.query<{ area: number; volume: number; items: number }>({
      name: 'place_taken',
      // What lies in containers that lie there takes room there, too. The bound keeps a circle from going on for ever.
      text: `with recursive boxes (id, depth) as (
               select id, 1 from container where network_id = $1 and keeper_kind = $2 and keeper_id = $3
               union
               select c.id, b.depth + 1 from boxes b join container c on c.network_id = $1 and c.keeper_kind = 'container' and c.keeper_id = b.id where b.depth < 50
             ), here as (
               select area_dm2, volume_l from item where network_id = $1 and keeper_kind = $2 and keeper_id = $3
               union all
               select i.area_dm2, i.volume_l from (select distinct id from boxes) b join item i on i.network_id = $1 and i.keeper_kind = 'container' and i.keeper_id = b.id
             ) select coalesce(sum(area_dm2), 0)::int as area, coalesce(sum(volume_l), 0)::int as volume, count(*)::int as items from here`,
      values: [this.networkId, keeper.kind, keeper.id],
    });
    return { areaDm2: rows[0]?.area ?? 0, volumeL: rows[0]?.volume ?? 0, items: rows[0]?.items ?? 0 };
  }

  async holdingArea(siteId: string, zone: Zone): Promise<PlaceRecord | null> {
    const { rows } = await this.client.query<PlaceRow>({
      name: 'holding_area_of_zone',
      text: `select h.id, h.site_id, z.kind as zone, h.code, h.name, null::text[] as steps, null::int as capacity from holding_area h
             join zone z on z.network_id = h.network_id and z.id = h.zone_id where h.network_id = $1 and h.site_id = $2 and z.kind = $3 order by h.code limit 1`,
      values: [this.networkId, siteId, zone],
    });
    const row = rows[0];
    return row ? toPlace('holding', row) : null;
  }

  async siteByCode(incidentId: string, code: string): Promise<{ id: string } | null> {
    const { rows } = await this.client.query<{ id: string }>('select id from site where network_id = $1 and incident_id = $2 and code = $3', [this.networkId, incidentId, code]);
    return rows[0] ?? null;
  }

  async site(siteId: string): Promise<{ id: string; incidentId: string } | null> {
    const { rows } = await this.client.query<{ id: string; incident_id: string }>('select id, incident_id from site where network_id = $1 and id = $2', [this.networkId, siteId]);
    return rows[0] ? { id: rows[0].id, incidentId: rows[0].incident_id } : null;
  }

  async person(personId: string): Promise<{ id: string; incidentId: string; siteId: string; skills: string[] } | null> {
    const { rows } = await this.client.query<{ id: string; incident_id: string; site_id: string; skills: string[] }>('select id, incident_id, site_id, skills from person where network_id = $1 and id = $2', [this.networkId, personId]);
    const row = rows[0];
    return row ? { id: row.id, incidentId: row.incident_id, siteId: row.site_id, skills: row.skills } : null;
  }

  async crew(incidentId: string, personIds: readonly string[]): Promise<CrewMember[]> {
    const { rows } = await this.client.query<MemberRow>({
      name: 'crew_of_step',
      text: `${MEMBERS} where p.network_id = $1 and p.incident_id = $2 and p.id = any($3::uuid[]) group by p.network_id, p.id order by p.id`,
      values: [this.networkId, incidentId, personIds],
    });
    return rows.map(toMember);
  }

  async siteMembers(siteId: string): Promise<SiteMember[]> {
    const { rows } = await this.client.query<MemberRow>({
      name: 'members_of_site',
      text: `${MEMBERS} where p.network_id = $1 and p.site_id = $2 group by p.network_id, p.id order by p.code`,
      values: [this.networkId, siteId],
    });
    return rows.map((row) => ({ ...toMember(row), name: row.display_name }));
  }
}

interface MemberRow {
  id: string;
  display_name: string;
  skills: Skill[];
  restrictions: Restriction[];
  fit_until: string | null;
  starts: Date[];
  ends: Date[];
}

// The day as text: the driver would read it as midnight of this machine.
const MEMBERS = `select p.id, p.display_name, p.skills, p.restrictions, p.respirator_fit_until::text as fit_until,
         coalesce(array_agg(s.starts_at order by s.id) filter (where s.id is not null), '{}') as starts, coalesce(array_agg(s.ends_at order by s.id) filter (where s.id is not null), '{}') as ends
  from person p left join shift s on s.network_id = p.network_id and s.person_id = p.id`;

function toMember({ id, skills, restrictions, fit_until, starts, ends }: MemberRow): CrewMember {
  return { id, skills, restrictions, respiratorFitUntil: fit_until, shifts: starts.map((start, index) => ({ startsAtMs: start.getTime(), endsAtMs: (ends[index] ?? start).getTime() })) };
}
