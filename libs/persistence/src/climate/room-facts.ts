/** The rows that a room's course is reckoned from: a handful of set-based queries, whatever the number of things. */
import type { CourseMachine, EarlierStay, HangingStay, HungItem, MachineState, RoomFacts } from '#application';
import type { Fibre, MaterialClass, Soil, WaterKind, WetState } from '#care';
import type { Client } from '../pool.js';

interface RoomRow {
  id: string;
  incident_id: string;
  site_id: string;
  code: string;
  name: string;
  volume_m3: number;
  air_changes_per_h: number;
  humidity_cap_pct: number;
  open: boolean;
}

const ROOM = `
  select r.id, r.incident_id, r.site_id, r.code, r.name, r.volume_m3, r.air_changes_per_h, r.humidity_cap_pct, i.state = 'open' as open
  from drying_room r join incident i on i.network_id = r.network_id and i.id = r.incident_id where r.network_id = $1 and r.id = $2`;

const MACHINES = `
  select d.id, d.code, d.name, d.rated_l_per_day, d.rated_temp_c, d.rated_relative_humidity_pct, d.state,
         (select coalesce(jsonb_agg(jsonb_build_array(extract(epoch from s.from_at) * 1000, s.state) order by s.from_at, s.id), '[]') from dehumidifier_state s
           where s.network_id = d.network_id and s.dehumidifier_id = d.id) as changes
  from dehumidifier d where d.network_id = $1 and d.drying_room_id = $2 order by d.code, d.id`;

interface MachineRow {
  id: string;
  code: string;
  name: string;
  rated_l_per_day: number;
  rated_temp_c: number;
  rated_relative_humidity_pct: number;
  state: MachineState;
  changes: [number, MachineState][];
}

/** Events that brought a thing to a place of the room, each with the moment of the next one that took it elsewhere. */
const STAYS = `
  select e.item_id, e.seq, e.to_id as place_id, p.arrangement, e.occurred_at, e.refs->>'splitFrom' as split_from,
         (select n.occurred_at from custody_event n where n.network_id = e.network_id and n.item_id = e.item_id and n.seq > e.seq and (n.to_kind <> e.to_kind or n.to_id <> e.to_id)
           order by n.seq limit 1) as left_at
  from drying_place p join custody_event e on e.network_id = p.network_id and e.to_kind = 'drying-place' and e.to_id = p.id
  where p.network_id = $1 and p.drying_room_id = $2 and (e.from_kind is null or e.from_kind <> e.to_kind or e.from_id <> e.to_id)
  order by e.occurred_at, e.item_id, e.seq`;

interface StayRow {
  item_id: string;
  seq: number;
  place_id: string;
  arrangement: HangingStay['arrangement'];
  occurred_at: Date;
  split_from: string | null;
  left_at: Date | null;
}

/** Looks are those of people: other assessments hand on what was seen before. Steps that wet a thing, and the blotting that takes water out of it. What was wetted again counts as rinsed. */
const ITEMS = `
  select i.id, i.tag_code, i.household_id, i.count, i.size_class, i.dry_mass_g, i.material_class, coalesce(i.wetted_at, n.flood_at) as wetted_at, n.default_water,
         a.observed->>'fibre' as fibre, a.observed->>'water' as water, a.observed->>'soil' as soil,
         (select coalesce(jsonb_agg(jsonb_build_array(extract(epoch from w.weighed_at) * 1000, w.mass_kg, w.resolution_kg) order by w.weighed_at), '[]')
            from weighing w where w.network_id = i.network_id and w.item_id = i.id and w.state = 'accepted') as weighings,
         (select coalesce(jsonb_agg(extract(epoch from w.weighed_at) * 1000 order by w.weighed_at), '[]')
            from weighing w where w.network_id = i.network_id and w.item_id = i.id and w.state = 'doubtful') as doubted,
         (select max(e.occurred_at) from custody_event e where e.network_id = i.network_id and e.item_id = i.id and e.kind = 'lot-split') as lot_split_at,
         (select coalesce(jsonb_agg(jsonb_build_array(case when s.outcome = 'done' then s.step else 'rinse' end, extract(epoch from s.finished_at) * 1000) order by s.finished_at, s.id), '[]')
            from step_result s where s.network_id = i.network_id and s.item_id = i.id
             and ((s.outcome = 'done' and s.step in ('rinse', 'thaw', 'blot')) or s.outcome = 'wetted-again')) as wet_steps,
         (select coalesce(jsonb_agg(jsonb_build_array(l.observed->>'wetState', extract(epoch from l.assessed_at) * 1000) order by l.assessed_at, l.id), '[]')
            from assessment l where l.network_id = i.network_id and l.item_id = i.id and l.origin = 'person') as looks,
         (select coalesce(jsonb_agg(jsonb_build_array(extract(epoch from e.occurred_at) * 1000, e.to_kind, coalesce(h.zone_id, t.zone_id, p.drying_room_id, case when e.to_kind = 'freezer' then e.to_id end)) order by e.seq), '[]')
            from custody_event e
            left join holding_area h on e.to_kind = 'holding' and h.network_id = e.network_id and h.id = e.to_id
            left join station t on e.to_kind = 'station' and t.network_id = e.network_id and t.id = e.to_id
            left join drying_place p on e.to_kind = 'drying-place' and p.network_id = e.network_id and p.id = e.to_id
           where e.network_id = i.network_id and e.item_id = i.id) as earlier,
         (select coalesce(jsonb_agg(jsonb_build_object('roomId', c.drying_room_id, 'atMs', extract(epoch from c.taken_at) * 1000, 'moistureX', c.detail->'standing'->'moistureX',
                                                      'mostX', c.detail->'standing'->'slowMoistureX', 'leastX', coalesce(c.detail->'standing'->'fastMoistureX', c.detail->'standing'->'moistureX'), 'clock', c.detail->'clockState') order by c.taken_at), '[]')
            from item_climate c where c.network_id = i.network_id and c.item_id = i.id and c.drying_room_id <> $2 and c.taken_at is not null) as left_rooms
  from item i
  join incident n on n.network_id = i.network_id and n.id = i.incident_id
  left join lateral (select observed from assessment a where a.network_id = i.network_id and a.item_id = i.id order by a.recorded_at desc, a.id desc limit 1) a on true
  where i.network_id = $1 and i.id = any($3::uuid[]) order by i.id`;

interface ItemRow {
  id: string;
  tag_code: string;
  household_id: string;
  count: number;
  size_class: string;
  dry_mass_g: number;
  material_class: MaterialClass;
  wetted_at: Date;
  default_water: WaterKind;
  fibre: Fibre | null;
  water: WaterKind | null;
  soil: Soil | null;
  weighings: [number, number, number][];
  doubted: number[];
  lot_split_at: Date | null;
  wet_steps: [string, number][];
  looks: [WetState | null, number][];
  earlier: [number, string, string | null][];
  left_rooms: HungItem['left'];
}

/** Everything but readings and weather; null when there is no such room. */
export async function loadRoomFacts(client: Client, networkId: string, roomId: string): Promise<RoomFacts | null> {
  const { rows: [room] } = await client.query<RoomRow>({ name: 'room_facts', text: ROOM, values: [networkId, roomId] });
  if (!room) return null;
  const machines = await client.query<MachineRow>({ name: 'room_facts_machines', text: MACHINES, values: [networkId, roomId] });
  const { rows: stayRows } = await client.query<StayRow>({ name: 'room_facts_stays', text: STAYS, values: [networkId, roomId] });
  const ids = [...new Set(stayRows.map((row) => row.item_id))];
  const { rows: itemRows } = await client.query<ItemRow>({ name: 'room_facts_items', text: ITEMS, values: [networkId, roomId, ids] });
  return {
    room: { id: room.id, incidentId: room.incident_id, siteId: room.site_id, code: room.code, name: room.name, volumeM3: room.volume_m3, airChangesPerH: room.air_changes_per_h, humidityCapPct: room.humidity_cap_pct },
    incidentOpen: room.open,
    machines: machines.rows.map(toMachine),
    stays: stayRows.map(toStay),
    items: itemRows.map(toItem),
  };
}

function toMachine(row: MachineRow): CourseMachine {
  return {
    id: row.id, code: row.code, name: row.name, ratedLPerDay: row.rated_l_per_day, ratedTempC: row.rated_temp_c, ratedRelativeHumidityPct: row.rated_relative_humidity_pct, state: row.state,
    changes: row.changes.map(([atMs, state]) => ({ atMs: Math.round(atMs), state })),
  };
}

/** What was recorded as leaving before it came has never hung. */
function toStay(row: StayRow): HangingStay {
  const fromMs = row.occurred_at.getTime();
  return {
    itemId: row.item_id, seq: row.seq, placeId: row.place_id, arrangement: row.arrangement, fromMs, toMs: row.left_at === null ? null : Math.max(fromMs, row.left_at.getTime()), splitFromId: row.split_from,
  };
}

function toItem(row: ItemRow): HungItem {
  const earlier = row.earlier.map(([atMs, keeperKind, placeId]): EarlierStay => ({ fromMs: Math.round(atMs), keeperKind, placeId }));
  return {
    id: row.id, tagCode: row.tag_code, householdId: row.household_id, count: row.count, sizeClass: row.size_class, dryMassG: row.dry_mass_g, materialClass: row.material_class,
    fibre: row.fibre ?? 'unknown', water: row.water ?? row.default_water, soil: row.soil ?? 'unknown', wettedAtMs: row.wetted_at.getTime(),
    weighings: row.weighings.map(([atMs, massKg, resolutionKg]) => ({ atMs: Math.round(atMs), massKg, resolutionKg })),
    doubtedMs: row.doubted.map((atMs) => Math.round(atMs)), lotSplitMs: row.lot_split_at?.getTime() ?? null,
    wetSteps: row.wet_steps.map(([step, atMs]) => ({ step, atMs: Math.round(atMs) })),
    looks: row.looks.map(([wetState, atMs]) => ({ wetState: wetState ?? 'unknown', atMs: Math.round(atMs) })),
    earlier, left: row.left_rooms.map((left) => ({ ...left, atMs: Math.round(left.atMs) })),
  };
}
