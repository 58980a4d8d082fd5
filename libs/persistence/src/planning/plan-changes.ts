/** What a plan has otherwise than another, item by item: one statement, whatever the number of rows. */
import { CHANGE_KINDS, type PlanChange, type PlanChangeKind, type PlanChanges } from '#application';
import type { Client } from '../pool.js';
import { rideOf } from './rides-sql.js';

/**
 * Minutes by which a beginning may differ before a step counts as moved. Own calibration, the same as in the planner's measure of
 * instability.
 */
const SAME_MINUTES = 15;

/** An item of a revision in one row; rows from before standings were kept count as in time. */
const itemsOf = (revision: string) => `
  select item_id, min(disposition) as way, min(coalesce(standing, 'in-time')) as standing, max(coalesce(weight, 0)) as weight, min(position) as position
  from plan_assignment where network_id = $1 and revision_id = ${revision} group by item_id`;

/** $1 network, $2 the newer revision, $3 the older one or null. */
const CHANGED = `
  with older as (${itemsOf('$3::uuid')}),
  newer as (${itemsOf('$2::uuid')}),
  moved as (
    select distinct on (n.item_id) n.item_id, n.position
    from plan_assignment n
    join plan_assignment o on o.network_id = n.network_id and o.revision_id = $3::uuid and o.item_id = n.item_id and o.step = n.step and o.disposition = n.disposition
    where n.network_id = $1 and n.revision_id = $2 and (o.station_id is distinct from n.station_id or o.drying_place_id is distinct from n.drying_place_id or o.freezer_id is distinct from n.freezer_id or o.service_id is distinct from n.service_id
       or abs(extract(epoch from n.starts_at - o.starts_at)) > ${SAME_MINUTES * 60})
    order by n.item_id, n.position),
  compared as (
    select coalesce(n.item_id, o.item_id) as item_id, coalesce(n.weight, u.weight, o.weight) as weight, o.way as way_before, n.way as way_now, n.standing as standing_now, u.blocker_kind, u.blocker_what,
           case when n.standing = 'in-time' and o.standing is distinct from 'in-time' then 'in-time'
                when o.standing = 'in-time' and n.standing in ('late', 'look-only') then 'fallen-out'
                when n.item_id is null and u.item_id is not null then 'fallen-out'
                when n.way <> o.way then 'other-way'
                when m.item_id is not null then 'moved'
                when n.item_id is null then 'settled' end as kind,
           case when m.item_id is not null and n.way = o.way then m.position else n.position end as position
    from older o full join newer n on n.item_id = o.item_id
    left join moved m on m.item_id = n.item_id
    left join plan_unplanned u on u.network_id = $1 and u.revision_id = $2 and u.item_id = o.item_id and n.item_id is null)`;

const COUNTS = `${CHANGED} select kind, count(*)::int as items, coalesce(sum(weight), 0)::int as weight from compared where kind is not null group by kind`;

const CODE = (a: string) => `coalesce(
  (select s.code from station s where s.network_id = ${a}.network_id and s.id = ${a}.station_id),
  (select p.code from drying_place p where p.network_id = ${a}.network_id and p.id = ${a}.drying_place_id),
  (select f.code from freezer f where f.network_id = ${a}.network_id and f.id = ${a}.freezer_id),
  (select x.name from specialist x where x.network_id = ${a}.network_id and x.id = ${a}.service_id),
  (select e.name from (${rideOf(`${a}.network_id`, `${a}.service_id`)}) e))`;

/** $4 kind or null, $5 limit, $6 weight and $7 item of the last row of the page before. */
const ROWS = `${CHANGED}
  select c.*, i.tag_code, i.description, a.step, a.starts_at as now_at, ${CODE('a')} as now_place, b.starts_at as before_at, ${CODE('b')} as before_place, coalesce(r.code, f.code, x.name, e.name) as resource_code,
         j.starts_at as leaves_at, j.ends_at as arrives_at, j.vehicle_code, j.from_code, j.to_code, w.item_id is not null as rode_before
  from (
    select * from compared where kind <> 'settled' and ($4::text is null or kind = $4) and ($6::int is null or weight < $6 or (weight = $6 and item_id > $7::uuid))
    order by weight desc, item_id limit $5
  ) c
  join item i on i.network_id = $1 and i.id = c.item_id
  left join plan_assignment a on a.network_id = $1 and a.revision_id = $2 and a.item_id = c.item_id and a.position = c.position
  left join plan_assignment b on c.kind = 'moved' and b.network_id = $1 and b.revision_id = $3::uuid and b.item_id = c.item_id and b.step = a.step and b.disposition = a.disposition
  left join drying_room r on c.blocker_kind in ('drying-area', 'room-air', 'company') and r.network_id = $1 and r.id::text = c.blocker_what
  left join freezer f on c.blocker_kind in ('freezer', 'company') and f.network_id = $1 and f.id::text = c.blocker_what
  left join specialist x on c.blocker_kind = 'service' and x.network_id = $1 and x.id::text = c.blocker_what
  left join lateral (${rideOf('$1', "case when c.blocker_kind = 'service' then c.blocker_what end")}) e on true
  left join lateral (
    select k.starts_at, k.ends_at, y.vehicle_code, y.from_code, y.to_code from plan_assignment k cross join lateral (${rideOf('k.network_id', 'k.service_id')}) y
    where k.network_id = $1 and k.revision_id = $2 and k.item_id = c.item_id and k.step = 'carry' limit 1
  ) j on true
  left join plan_assignment w on w.network_id = $1 and w.revision_id = $3::uuid and w.item_id = c.item_id and w.step = 'carry'
  order by c.weight desc, c.item_id`;

interface ChangeRow {
  item_id: string;
  weight: number;
  kind: PlanChangeKind;
  way_before: PlanChange['wayBefore'];
  way_now: PlanChange['wayNow'];
  standing_now: PlanChange['standingNow'];
  blocker_kind: NonNullable<PlanChange['blockedBy']>['kind'] | null;
  blocker_what: string | null;
  tag_code: string;
  description: string;
  step: PlanChange['step'];
  now_at: Date | null;
  now_place: string | null;
  before_at: Date | null;
  before_place: string | null;
  resource_code: string | null;
  leaves_at: Date | null;
  arrives_at: Date | null;
  vehicle_code: string | null;
  from_code: string | null;
  to_code: string | null;
  rode_before: boolean;
}

/** One page with the counts of the whole. */
export async function planChanges(
  client: Client, networkId: string, { beforeId, nowId }: { beforeId: string | null; nowId: string }, kind: PlanChangeKind | null, limit: number, after: { weight: number; itemId: string } | null,
): Promise<PlanChanges> {
  const of = [networkId, nowId, beforeId];
  const { rows: sums } = await client.query<{ kind: PlanChangeKind | 'settled'; items: number; weight: number }>(COUNTS, of);
  const { rows } = await client.query<ChangeRow>(ROWS, [...of, kind, limit, after?.weight ?? null, after?.itemId ?? null]);
  const sumOf = (one: string) => sums.find((sum) => sum.kind === one);
  const counts = Object.fromEntries(CHANGE_KINDS.map((one) => [one, { items: sumOf(one)?.items ?? 0, weight: sumOf(one)?.weight ?? 0 }])) as PlanChanges['counts'];
  return { rows: rows.map(toChange), counts, settled: sumOf('settled')?.items ?? 0 };
}

function toChange(row: ChangeRow): PlanChange {
  const at = (moment: Date | null, placeCode: string | null) => (moment === null ? null : { startsAtMs: moment.getTime(), placeCode });
  return {
    kind: row.kind, itemId: row.item_id, tagCode: row.tag_code, description: row.description, weight: row.weight, wayBefore: row.way_before, wayNow: row.way_now, step: row.step,
    before: at(row.before_at, row.before_place), now: at(row.now_at, row.now_place), standingNow: row.standing_now,
    blockedBy: row.blocker_kind === null ? null : { kind: row.blocker_kind, what: row.blocker_what ?? '' }, resourceCode: row.resource_code,
    ride: toJourney(row), rodeBefore: row.rode_before,
  };
}

function toJourney({ leaves_at: leaves, arrives_at: arrives, vehicle_code: vehicle, from_code: from, to_code: to }: ChangeRow): PlanChange['ride'] {
  if (leaves === null || arrives === null) return null;
  return { vehicle: vehicle ?? '', from: from ?? '', to: to ?? '', leavesAtMs: leaves.getTime(), arrivesAtMs: arrives.getTime() };
}
