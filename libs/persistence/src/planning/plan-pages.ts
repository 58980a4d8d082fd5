import type { AssignmentFilter, AssignmentRecord, UnplannedRecord } from '#application';
import type { Client } from '../pool.js';
import { at, msOrNull } from '../stores/row.js';
import { rideColumns, type RideColumns, rideOf, toRide } from './rides-sql.js';
import { TOGETHER } from './together-sql.js';

interface AssignmentRow extends RideColumns {
  item_id: string;
  tag_code: string;
  position: number;
  step: AssignmentRecord['step'];
  disposition: AssignmentRecord['disposition'];
  station_id: string | null;
  person_ids: string[];
  drying_place_id: string | null;
  freezer_id: string | null;
  service_id: string | null;
  service_name: string | null;
  starts_at: Date;
  ends_at: Date;
  option_index: number | null;
  batch_id: string | null;
  together: number | null;
}

/** One page of a revision's assignments by start, item and position. */
export async function assignmentPage(
  client: Client, networkId: string, revisionId: string, filter: AssignmentFilter, limit: number, after: { startsAtMs: number; itemId: string; position: number } | null,
): Promise<AssignmentRecord[]> {
  const values: unknown[] = [networkId, revisionId];
  const put = (value: unknown) => `$${values.push(value)}`;
  const where = ['a.network_id = $1', 'a.revision_id = $2'];
  if (filter.stationId !== undefined) where.push(`a.station_id = ${put(filter.stationId)}`);
  if (filter.itemId !== undefined) where.push(`a.item_id = ${put(filter.itemId)}`);
  if (after !== null) where.push(`(a.starts_at, a.item_id, a.position) > (${put(at(after.startsAtMs))}::timestamptz, ${put(after.itemId)}::uuid, ${put(after.position)}::int)`);
  const { rows } = await client.query<AssignmentRow>(
    `select a.*, i.tag_code, coalesce(x.name, e.name) as service_name, ${rideColumns('e')} from (
       select a.network_id, a.item_id, a.position, a.step, a.disposition, a.station_id, a.person_ids, a.drying_place_id, a.freezer_id, a.service_id, a.starts_at, a.ends_at, a.option_index, a.batch_id, ${TOGETHER}
       from plan_assignment a where ${where.join(' and ')} order by a.starts_at, a.item_id, a.position limit ${put(limit)}
     ) a join item i on i.network_id = a.network_id and i.id = a.item_id
     left join specialist x on x.network_id = a.network_id and x.id = a.service_id
     left join lateral (${rideOf('a.network_id', 'a.service_id')}) e on true
     order by a.starts_at, a.item_id, a.position`,
    values,
  );
  return rows.map((row) => ({
    itemId: row.item_id, tagCode: row.tag_code, position: row.position, step: row.step, disposition: row.disposition, stationId: row.station_id, personIds: row.person_ids,
    dryingPlaceId: row.drying_place_id, freezerId: row.freezer_id, serviceId: row.service_id, serviceName: row.service_name, ride: toRide(row), startsAtMs: row.starts_at.getTime(), endsAtMs: row.ends_at.getTime(),
    option: row.option_index, batchId: row.batch_id, together: row.together ?? 1,
  }));
}

interface UnplannedRow {
  item_id: string;
  tag_code: string;
  description: string;
  site_id: string;
  keeper_kind: UnplannedRecord['keeper']['kind'];
  keeper_id: string;
  weight: number;
  start_by: Date | null;
  stabilised_at: Date | null;
  blocker_kind: UnplannedRecord['blockedBy']['kind'];
  blocker_what: string;
  resource_code: string | null;
}

/** One page of a revision's unplanned items, the greatest weight first. */
export async function unplannedPage(client: Client, networkId: string, revisionId: string, limit: number, after: { weight: number; itemId: string } | null): Promise<UnplannedRecord[]> {
  const { rows } = await client.query<UnplannedRow>(
    `select u.*, i.tag_code, i.description, i.site_id, i.keeper_kind, i.keeper_id, i.start_by, i.stabilised_at, coalesce(r.code, f.code, p.name, e.name) as resource_code
     from (
       select network_id, item_id, weight, blocker_kind, blocker_what from plan_unplanned
       where network_id = $1 and revision_id = $2 and ($4::int is null or weight < $4 or (weight = $4 and item_id > $5::uuid))
       order by weight desc, item_id limit $3
     ) u
     join item i on i.network_id = u.network_id and i.id = u.item_id
     left join drying_room r on u.blocker_kind in ('drying-area', 'room-air', 'company') and r.network_id = u.network_id and r.id::text = u.blocker_what
     left join freezer f on u.blocker_kind in ('freezer', 'company') and f.network_id = u.network_id and f.id::text = u.blocker_what
     left join specialist p on u.blocker_kind = 'service' and p.network_id = u.network_id and p.id::text = u.blocker_what
     left join lateral (${rideOf('u.network_id', "case when u.blocker_kind = 'service' then u.blocker_what end")}) e on true
     order by u.weight desc, u.item_id`,
    [networkId, revisionId, limit, after?.weight ?? null, after?.itemId ?? null],
  );
  return rows.map((row) => ({
    itemId: row.item_id, tagCode: row.tag_code, description: row.description, siteId: row.site_id, keeper: { kind: row.keeper_kind, id: row.keeper_id }, weight: row.weight,
    startByMs: msOrNull(row.start_by), stabilised: row.stabilised_at !== null, blockedBy: { kind: row.blocker_kind, what: row.blocker_what }, resourceCode: row.resource_code,
  }));
}
