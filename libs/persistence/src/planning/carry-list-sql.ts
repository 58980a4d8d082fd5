import type { CarryRow } from '#application';
import { msOrNull } from '../stores/row.js';
import { type RideColumns, rideColumns, rideOf, toRide } from './rides-sql.js';
import { siteNow } from './sites-now-sql.js';
import { COMES_NOW, NOT_OVERRULED } from './work-list-sql.js';

/**
 * What a revision has carried to another site and is still to go that way: it waits where the ride begins, carries no mould that lives and
 * no hazard by the latest look, no lead has chosen otherwise, and what comes now for it is planned for it no later than what follows the ride.
 * $1 network, $2 revision, $3 limit.
 */
export const TO_CARRY_SQL = `
  select a.item_id, a.service_id, a.starts_at, a.ends_at, ${rideColumns('e')}, (select v.max_load_kg from vehicle v where v.network_id = a.network_id and v.id = e.vehicle_id) as max_load_kg,
         i.version, i.tag_code, i.description, i.count, i.size_class, i.dry_mass_g, i.keeper_kind, i.keeper_id, i.start_by, seen.observed->>'wetState' as wet_state,
         coalesce(h.code, ks.code, sh.code) as keeper_code, coalesce(h.name, ks.name, sh.name) as keeper_name, t.never, nullif(now.step, n.step) as first_step
  from plan_assignment a
  join item i on i.network_id = a.network_id and i.id = a.item_id
  join lateral (${rideOf('a.network_id', 'a.service_id')}) e on e.from_id = ${siteNow('i')}
  join plan_assignment n on n.network_id = a.network_id and n.revision_id = a.revision_id and n.item_id = a.item_id and n.position = a.position + 1
  join lateral (
    select r.result->'never' as never, r.assessment_id from triage_result r where r.network_id = i.network_id and r.item_id = i.id order by r.created_at desc, r.id desc limit 1
  ) t on true
  left join assessment seen on seen.network_id = i.network_id and seen.id = t.assessment_id
  cross join lateral (select case when i.disposition = a.disposition then i.next_step else ${COMES_NOW} end as step offset 0) now
  left join holding_area h on i.keeper_kind = 'holding' and h.network_id = i.network_id and h.id = i.keeper_id
  left join station ks on i.keeper_kind = 'station' and ks.network_id = i.network_id and ks.id = i.keeper_id
  left join shelf sh on i.keeper_kind = 'shelf' and sh.network_id = i.network_id and sh.id = i.keeper_id
  where a.network_id = $1 and a.revision_id = $2 and a.step = 'carry'
    and i.stage = 'waiting' and i.keeper_kind in ('holding', 'shelf', 'station') and not i.missing and not i.waiting_for_owner and i.stabilised_at is null
    and coalesce(seen.observed->>'mould', '') <> 'active' and coalesce(jsonb_array_length(seen.observed->'hazards'), 0) = 0
    and (i.disposition is not distinct from a.disposition or ${NOT_OVERRULED})
    and exists (select 1 from plan_assignment b where b.network_id = a.network_id and b.revision_id = a.revision_id and b.item_id = a.item_id and b.position <= n.position and b.step = now.step)
  order by a.starts_at, e.vehicle_code, a.service_id, i.tag_code limit $3`;

export interface CarrySqlRow extends RideColumns {
  item_id: string;
  service_id: string;
  starts_at: Date;
  ends_at: Date;
  max_load_kg: number | null;
  version: number;
  tag_code: string;
  description: string;
  count: number;
  size_class: string;
  dry_mass_g: number;
  keeper_kind: CarryRow['keeper']['kind'];
  keeper_id: string;
  start_by: Date | null;
  wet_state: CarryRow['wetState'] | null;
  keeper_code: string | null;
  keeper_name: string | null;
  never: CarryRow['never'] | null;
  first_step: CarryRow['firstStep'];
}

export function toCarryRow(row: CarrySqlRow): CarryRow {
  const ride = toRide(row);
  if (ride === null) throw new Error('a ride was joined and has no vehicle');
  return {
    itemId: row.item_id, version: row.version, tagCode: row.tag_code, description: row.description, count: row.count, sizeClass: row.size_class, dryMassG: row.dry_mass_g, wetState: row.wet_state ?? 'unknown',
    keeper: { kind: row.keeper_kind, id: row.keeper_id }, keeperCode: row.keeper_code, keeperName: row.keeper_name, startByMs: msOrNull(row.start_by), never: row.never ?? [],
    rideId: row.service_id, ride, maxLoadKg: row.max_load_kg, leavesAtMs: row.starts_at.getTime(), arrivesAtMs: row.ends_at.getTime(), firstStep: row.first_step,
  };
}
