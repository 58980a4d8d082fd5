/** The rows that a planning problem is made from: a handful of set-based queries, whatever the number of items. */
import type { InputFreezer, InputItem, InputPerson, InputPlace, InputRoom, InputSpecialist, InputStation, InputVehicle, PlanInput, Span } from '#application';
import type { Client } from '../pool.js';
import { msOrNull } from '../stores/row.js';
import { loadPublished, loadWishes } from './load-wishes.js';
import { LIVE_ITEMS_SQL, type ItemInputRow, toInputItem } from './item-input-sql.js';
import { whereTheyAre } from './sites-now-sql.js';

type SpanRow = { from: number; to: number };

const SPAN = (from: string, to: string) => `jsonb_build_object('from', (extract(epoch from ${from}) * 1000)::bigint, 'to', (extract(epoch from ${to}) * 1000)::bigint)`;

const STATIONS_SQL = `
  select s.id, s.site_id, z.kind as zone, s.steps, s.capacity,
         coalesce((select jsonb_agg(${SPAN('o.opens_at', 'o.closes_at')} order by o.opens_at, o.id) from station_opening o
                   where o.network_id = s.network_id and o.incident_id = s.incident_id and o.station_id = s.id), '[]') as openings
  from station s join zone z on z.network_id = s.network_id and z.id = s.zone_id
  where s.network_id = $1 and s.incident_id = $2 and s.state = 'open'`;

const PEOPLE_SQL = `
  select p.id, p.site_id, p.skills, p.restrictions, p.respirator_fit_until::text as fit_until,
         coalesce((select jsonb_agg(${SPAN('h.starts_at', 'h.ends_at')} order by h.starts_at, h.id) from shift h
                   where h.network_id = p.network_id and h.incident_id = p.incident_id and h.person_id = p.id), '[]') as shifts
  from person p where p.network_id = $1 and p.incident_id = $2`;

const ROOMS_SQL = `
  select r.id, r.site_id, r.name, r.volume_m3, r.air_changes_per_h, r.humidity_cap_pct, r.air_temp_c, r.relative_humidity_pct,
         coalesce((select jsonb_agg(jsonb_build_object('ratedLPerDay', d.rated_l_per_day, 'ratedTempC', d.rated_temp_c, 'ratedRelativeHumidityPct', d.rated_relative_humidity_pct) order by d.id)
                   from dehumidifier d where d.network_id = r.network_id and d.incident_id = r.incident_id and d.drying_room_id = r.id and d.state = 'running'), '[]') as running,
         coalesce(c.standing->'speeds', '[]') as speeds,
         coalesce((select jsonb_agg(distinct p.arrangement order by p.arrangement) from drying_place p where p.network_id = r.network_id and p.drying_room_id = r.id), '[]') as arrangements
  from drying_room r left join room_course c on c.network_id = r.network_id and c.drying_room_id = r.id where r.network_id = $1 and r.incident_id = $2`;

const SPECIALISTS_SQL = `
  select s.id, s.code, s.name, s.pieces_at_once, s.hours_per_piece, s.material_classes, s.openings,
         coalesce((select jsonb_agg(jsonb_build_object('itemId', r.item_id, 'count', i.count, 'sinceMs', (extract(epoch from r.sent_at) * 1000)::bigint) order by r.sent_at, r.id)
                   from referral r join item i on i.network_id = r.network_id and i.id = r.item_id
                   where r.network_id = s.network_id and r.incident_id = s.incident_id and r.specialist_id = s.id and r.returned_at is null and i.stage = 'referred-out'), '[]') as there
  from specialist s where s.network_id = $1 and s.incident_id = $2 and s.pieces_at_once is not null`;

/** Reads everything of one incident; null when the network has no such incident. */
export async function loadPlanInput(client: Client, networkId: string, incidentId: string): Promise<PlanInput | null> {
  const of = [networkId, incidentId];
  const { rows: incidents } = await client.query<{ time_zone: string; outdoor_air_temp_c: number | null; outdoor_relative_humidity_pct: number | null }>(
    'select n.time_zone, i.outdoor_air_temp_c, i.outdoor_relative_humidity_pct from incident i join network n on n.network_id = i.network_id where i.network_id = $1 and i.id = $2', of);
  const [incident] = incidents;
  if (!incident) return null;
  const { rows: sites } = await client.query<{ id: string; name: string }>('select id, name from site where network_id = $1 and incident_id = $2', of);
  const published = await loadPublished(client, of);
  const vehicles = await loadVehicles(client, of);
  const items = await loadItems(client, of);
  return {
    incidentId,
    timeZone: incident.time_zone,
    outdoorAirTempC: incident.outdoor_air_temp_c,
    outdoorRelativeHumidityPct: incident.outdoor_relative_humidity_pct,
    siteNames: Object.fromEntries(sites.map(({ id, name }) => [id, name])),
    stations: await loadStations(client, of),
    people: await loadPeople(client, of),
    rooms: await loadRooms(client, of),
    places: await loadPlaces(client, of),
    freezers: await loadFreezers(client, of),
    specialists: await loadSpecialists(client, of),
    vehicles,
    items: await whereTheyAre(client, of, items),
    wishes: await loadWishes(client, of),
    ...(published !== undefined && { published }),
  };
}

async function loadStations(client: Client, of: string[]): Promise<InputStation[]> {
  const { rows } = await client.query<{ id: string; site_id: string; zone: InputStation['zone']; steps: InputStation['steps']; capacity: number; openings: SpanRow[] }>(STATIONS_SQL, of);
  return rows.map((row) => ({ id: row.id, siteId: row.site_id, zone: row.zone, steps: row.steps, capacity: row.capacity, openings: row.openings.map(toSpan) }));
}

async function loadPeople(client: Client, of: string[]): Promise<InputPerson[]> {
  const { rows } = await client.query<{ id: string; site_id: string; skills: InputPerson['skills']; restrictions: InputPerson['restrictions']; fit_until: string | null; shifts: SpanRow[] }>(PEOPLE_SQL, of);
  return rows.map((row) => ({ id: row.id, siteId: row.site_id, skills: row.skills, restrictions: row.restrictions, respiratorFitUntil: row.fit_until, shifts: row.shifts.map(toSpan) }));
}

async function loadRooms(client: Client, of: string[]): Promise<InputRoom[]> {
  const { rows } = await client.query<{
    id: string; site_id: string; name: string; volume_m3: number; air_changes_per_h: number; humidity_cap_pct: number; air_temp_c: number; relative_humidity_pct: number; running: InputRoom['running'];
    speeds: NonNullable<InputRoom['speeds']>; arrangements: NonNullable<InputRoom['arrangements']>;
  }>(ROOMS_SQL, of);
  return rows.map((row) => ({
    id: row.id, siteId: row.site_id, name: row.name, volumeM3: row.volume_m3, airChangesPerH: row.air_changes_per_h, humidityCapPct: row.humidity_cap_pct,
    airTempC: row.air_temp_c, relativeHumidityPct: row.relative_humidity_pct, running: row.running, speeds: row.speeds, arrangements: row.arrangements,
  }));
}

async function loadPlaces(client: Client, of: string[]): Promise<InputPlace[]> {
  const { rows } = await client.query<{ id: string; drying_room_id: string; area_dm2: number; arrangement: NonNullable<InputPlace['arrangement']> }>('select id, drying_room_id, area_dm2, arrangement from drying_place where network_id = $1 and incident_id = $2', of);
  return rows.map((row) => ({ id: row.id, roomId: row.drying_room_id, areaDm2: row.area_dm2, arrangement: row.arrangement }));
}

async function loadFreezers(client: Client, of: string[]): Promise<InputFreezer[]> {
  const { rows } = await client.query<{ id: string; site_id: string; name: string; volume_l: number; available_from: Date }>('select id, site_id, name, volume_l, available_from from freezer where network_id = $1 and incident_id = $2', of);
  return rows.map((row) => ({ id: row.id, siteId: row.site_id, name: row.name, volumeL: row.volume_l, availableFromMs: msOrNull(row.available_from) ?? 0 }));
}

/** Those whose bench is known; of the others nothing is reckoned. */
async function loadSpecialists(client: Client, of: string[]): Promise<InputSpecialist[]> {
  const { rows } = await client.query<{ id: string; code: string; name: string; pieces_at_once: number; hours_per_piece: number; material_classes: InputSpecialist['materialClasses']; openings: SpanRow[]; there: NonNullable<InputSpecialist['there']> }>(SPECIALISTS_SQL, of);
  return rows.map((row) => ({ id: row.id, code: row.code, name: row.name, piecesAtOnce: row.pieces_at_once, hoursPerPiece: row.hours_per_piece, materialClasses: row.material_classes, openings: row.openings.map(toSpan), there: row.there }));
}

/** Those whose load and rides are known; of the others nothing is reckoned. */
async function loadVehicles(client: Client, of: string[]): Promise<InputVehicle[]> {
  const { rows } = await client.query<{ id: string; code: string; name: string; max_load_kg: number; rides: InputVehicle['rides']; runs: SpanRow[] }>(
    'select id, code, name, max_load_kg, rides, runs from vehicle where network_id = $1 and incident_id = $2 and max_load_kg is not null and jsonb_array_length(rides) > 0', of);
  return rows.map((row) => ({ id: row.id, code: row.code, name: row.name, maxLoadKg: row.max_load_kg, rides: row.rides, runs: row.runs.map(toSpan) }));
}

async function loadItems(client: Client, of: string[]): Promise<InputItem[]> {
  const { rows } = await client.query<ItemInputRow>(LIVE_ITEMS_SQL, of);
  return rows.map(toInputItem);
}

function toSpan({ from, to }: SpanRow): Span {
  return { fromMs: from, toMs: to };
}
