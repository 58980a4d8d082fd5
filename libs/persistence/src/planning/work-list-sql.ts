import type { DispositionOption, Statement } from '#care';
import type { DryingRow, NamedPlace, WorkRow } from '#application';
import { msOrNull } from '../stores/row.js';
import { beganAt, choiceStands, stillDone } from './item-input-sql.js';
import { rideOf } from './rides-sql.js';
import { siteNow } from './sites-now-sql.js';
import { TOGETHER } from './together-sql.js';

/**
 * Words around a piece of work: item, the place that keeps it, the route of its latest triage. `w` brings network_id,
 * item_id, step, disposition, position and the planned times.
 */
const WORDS = `
  select w.item_id, w.step, w.disposition, w.starts_at, w.ends_at, w.batch_id, w.together, i.version, i.tag_code, i.household_id, i.description, i.family_words, i.family_words_sealed, i.count, i.size_class, i.dry_mass_g, i.stage, i.keeper_kind, i.keeper_id, i.start_by, i.stabilised_at is not null as stabilised, i.waiting_for_owner,
         coalesce(h.code, ks.code, kp.code, kf.code, kc.tag_code, kq.code) as keeper_code, coalesce(h.name, ks.name, kp.name, kf.name, kc.description, kq.display_name) as keeper_name,
         (select jsonb_agg(jsonb_build_object('personId', p.id, 'name', p.display_name) order by p.code) from person p where p.network_id = w.network_id and p.id = any(w.person_ids)) as crew,
         g.kind as goes_kind, g.id as goes_id, g.code as goes_code, g.name as goes_name, t.option, t.never, t.bath_group, seen.observed->>'wetState' as wet_state
  from w
  join item i on i.network_id = w.network_id and i.id = w.item_id
  left join holding_area h on i.keeper_kind = 'holding' and h.network_id = i.network_id and h.id = i.keeper_id
  left join station ks on i.keeper_kind = 'station' and ks.network_id = i.network_id and ks.id = i.keeper_id
  left join drying_place kp on i.keeper_kind = 'drying-place' and kp.network_id = i.network_id and kp.id = i.keeper_id
  left join freezer kf on i.keeper_kind = 'freezer' and kf.network_id = i.network_id and kf.id = i.keeper_id
  left join container kc on i.keeper_kind = 'container' and kc.network_id = i.network_id and kc.id = i.keeper_id
  left join person kq on i.keeper_kind = 'courier' and kq.network_id = i.network_id and kq.id = i.keeper_id
  left join lateral (
    select jsonb_path_query_first(r.result, '$.options[*] ? (@.disposition == $d)', jsonb_build_object('d', w.disposition)) as option, r.result->'never' as never, r.result->>'bathGroup' as bath_group, r.assessment_id
    from triage_result r where r.network_id = i.network_id and r.item_id = i.id order by r.created_at desc, r.id desc limit 1
  ) t on true
  left join assessment seen on seen.network_id = i.network_id and seen.id = t.assessment_id
  left join lateral (
    select 'freezer' as kind, f.id, f.code, f.name from freezer f where f.network_id = w.network_id and f.id = w.freezer_id
    union all
    select 'drying-place', p.id, p.code, p.name from drying_place p where p.network_id = w.network_id and p.id = coalesce(w.drying_place_id, w.next_place_id)
    union all
    select 'station', s.id, s.code, s.name from station s where s.network_id = w.network_id and s.id = w.next_station_id and w.freezer_id is null and w.drying_place_id is null
    union all
    select 'vehicle', e.vehicle_id, e.vehicle_code, e.vehicle_name from (${rideOf('w.network_id', 'w.next_ride_id')}) e
    limit 1
  ) g on true`;

/** True when a step is done in the present round of work of item `i`; the rule of `doneAmong` (care/done-steps.ts). */
export function doneNow(step: string): string {
  return `exists (
    select 1 from step_result d where d.network_id = i.network_id and d.item_id = i.id and d.step = ${step} and ${stillDone('d')})`;
}

/** True when step `s` need not be done (again); the rule of `settledSteps` (care/done-steps.ts). */
const SETTLED = `(${doneNow("s.care->>'step'")} or (s.care->>'step' = 'surface-clean' and ${doneNow("'rinse'")}
  and not exists (select 1 from assessment m where m.network_id = i.network_id and m.id = t.assessment_id and m.observed->>'mould' in ('active', 'suspected', 'dry'))))`;

/**
 * The step that comes now on the planned way by the latest triage, as `nextInRoute` (care/route.ts) finds it: null when the
 * way is not offered any more, something is missing for it, or it is at its end.
 */
export const COMES_NOW = `(
  select s.care->>'step'
  from (select r.result, r.assessment_id from triage_result r where r.network_id = i.network_id and r.item_id = i.id order by r.created_at desc, r.id desc limit 1) t,
       jsonb_path_query_first(t.result, '$.options[*] ? (@.disposition == $d && @.needs.size() == 0)', jsonb_build_object('d', a.disposition)) as way,
       jsonb_array_elements(way->'steps') with ordinality as s(care, n)
  where not ${SETTLED}
  order by s.n limit 1)`;

/** No lead has chosen another way than the planned one since. */
export const NOT_OVERRULED = `not exists (
    select 1 from disposition_override v where v.network_id = i.network_id and v.item_id = i.id and v.disposition <> a.disposition
      and not exists (select 1 from disposition_override w where w.network_id = v.network_id and w.item_id = v.item_id and w.id > v.id)
      and ${choiceStands('v')})`;

/**
 * A planned step is listed when it is what comes now for its item, by the rule that judges the report of it (`wayOfStep`,
 * care/step-order.ts): on the item's own way what the item says, on another the first that is left of it. Whatever was found
 * since the plan was made, a step whose turn has not come, or has gone, is not listed; the next plan sorts it in. What waits
 * for its owner is looked at and nothing else. What is in work or hangs has its own lists.
 */
const IS_NEXT = `
  i.stage not in ('in-work', 'drying', 'referred-out', 'released', 'handed-back', 'merged') and not i.missing and (not i.waiting_for_owner or a.step in ('tag', 'assess')) and
  case when i.stage = 'held-frozen' then a.step = 'thaw' and i.next_step = 'thaw'
       when i.disposition = a.disposition then a.step = i.next_step
       else a.step = ${COMES_NOW} and ${NOT_OVERRULED}
  end`;

/** Work that a journey comes before is listed over there when the thing has come; what is in a vehicle that rides between sites is listed nowhere. */
const hasCome = (siteId: string) => `not exists (select 1 from vehicle v where i.keeper_kind = 'vehicle' and v.network_id = i.network_id and v.id = i.keeper_id and v.rides is not null)
  and (not exists (
    select 1 from plan_assignment c where c.network_id = a.network_id and c.revision_id = a.revision_id and c.item_id = a.item_id and c.step = 'carry' and c.position < a.position)
  or ${siteNow('i')} is not distinct from ${siteId})`;

/** @param siteId the site of what is listed */
function planned(where: string, siteId: string): string {
  return `with w as (
    select a.network_id, a.item_id, a.step, a.disposition, a.starts_at, a.ends_at, a.batch_id, ${TOGETHER}, a.person_ids, a.drying_place_id, a.freezer_id, n.drying_place_id as next_place_id, n.station_id as next_station_id, case when n.step = 'carry' then n.service_id end as next_ride_id
    from plan_assignment a
    join item i on i.network_id = a.network_id and i.id = a.item_id
    left join plan_assignment n on n.network_id = a.network_id and n.revision_id = a.revision_id and n.item_id = a.item_id and n.position = a.position + 1
    where a.network_id = $1 and a.revision_id = $2 and ${where} and ${IS_NEXT} and ${hasCome(siteId)}
    order by a.starts_at, a.item_id limit $4
  ) ${WORDS} order by w.starts_at, w.item_id`;
}

/** $1 network, $2 revision, $3 station, $4 limit. */
export const WORK_NEXT_SQL = planned('a.station_id = $3', '(select s.site_id from station s where s.network_id = $1 and s.id = $3)');

/** $1 network, $2 revision, $3 site, $4 limit. */
export const TO_HANG_SQL = planned(`a.drying_place_id in (
  select p.id from drying_place p join drying_room r on r.network_id = p.network_id and r.id = p.drying_room_id where p.network_id = $1 and r.site_id = $3)`, '$3');

/** $1 network, $2 station, $3 limit. The step is the item's next one. */
export const WORK_NOW_SQL = `with w as (
    select i.network_id, i.id as item_id, coalesce(i.next_step, 'assess') as step, coalesce(i.disposition, 'treat') as disposition, null::timestamptz as starts_at, null::timestamptz as ends_at, null::text as batch_id, null::int as together,
           '{}'::uuid[] as person_ids, null::uuid as drying_place_id, null::uuid as freezer_id, null::uuid as next_place_id, null::uuid as next_station_id, null::uuid as next_ride_id, ${beganAt('e')} as since
    from item i left join custody_event e on e.network_id = i.network_id and e.item_id = i.id and e.seq = i.seq
    where i.network_id = $1 and i.keeper_kind = 'station' and i.keeper_id = $2 and i.stage = 'in-work'
    order by since, i.id limit $3
  ) ${WORDS} order by w.since, w.item_id`;

/** $1 network, $2 site. */
export const HANGING_SQL = `
  select i.id, i.version, i.tag_code, i.description, i.count, i.size_class, p.id as place_id, p.code as place_code, p.name as place_name, r.code as room_code, r.air_temp_c, r.relative_humidity_pct,
         coalesce(${beganAt('e')}, i.updated_at) as since,
         ${doneNow("'blot'")} as blotted, c.item_id is not null as reckoned, c.dry_earliest_at, c.dry_latest_at
  from item i
  join drying_place p on p.network_id = i.network_id and p.id = i.keeper_id
  join drying_room r on r.network_id = p.network_id and r.id = p.drying_room_id
  left join custody_event e on e.network_id = i.network_id and e.item_id = i.id and e.seq = i.seq
  left join item_climate c on c.network_id = i.network_id and c.item_id = i.id and c.drying_room_id = r.id and c.taken_at is null and c.as_of >= e.occurred_at
  where i.network_id = $1 and i.keeper_kind = 'drying-place' and i.stage = 'drying' and r.site_id = $2
  order by since, i.id`;

export interface WorkSqlRow {
  item_id: string;
  step: WorkRow['step'];
  disposition: WorkRow['disposition'];
  starts_at: Date | null;
  ends_at: Date | null;
  batch_id: string | null;
  together: number | null;
  version: number;
  tag_code: string;
  description: string;
  household_id: string;
  family_words: string | null;
  family_words_sealed: Uint8Array | null;
  count: number;
  size_class: string;
  dry_mass_g: number;
  wet_state: WorkRow['wetState'] | null;
  stage: WorkRow['stage'];
  keeper_kind: WorkRow['keeper']['kind'];
  keeper_id: string;
  keeper_code: string | null;
  keeper_name: string | null;
  start_by: Date | null;
  stabilised: boolean;
  waiting_for_owner: boolean;
  crew: WorkRow['crew'] | null;
  goes_kind: NamedPlace['kind'] | null;
  goes_id: string | null;
  goes_code: string | null;
  goes_name: string | null;
  option: DispositionOption | null;
  never: Statement[] | null;
  bath_group: string | null;
}

export function toWorkRow(row: WorkSqlRow, familyWords: string): WorkRow {
  return {
    itemId: row.item_id, version: row.version, tagCode: row.tag_code, description: row.description, familyWords, count: row.count, sizeClass: row.size_class, dryMassG: row.dry_mass_g, wetState: row.wet_state ?? 'unknown', stage: row.stage,
    keeper: { kind: row.keeper_kind, id: row.keeper_id }, keeperCode: row.keeper_code, keeperName: row.keeper_name, startByMs: msOrNull(row.start_by), stabilised: row.stabilised, waitingForOwner: row.waiting_for_owner,
    step: row.step, disposition: row.disposition, startsAtMs: msOrNull(row.starts_at), endsAtMs: msOrNull(row.ends_at), batchId: row.batch_id, together: row.together ?? 1, crew: row.crew ?? [],
    goesTo: row.goes_kind && row.goes_id ? { kind: row.goes_kind, id: row.goes_id, code: row.goes_code ?? '', name: row.goes_name ?? '' } : null,
    option: row.option, never: row.never ?? [], bathGroup: row.bath_group,
  };
}

export interface DryingSqlRow {
  id: string;
  version: number;
  tag_code: string;
  description: string;
  count: number;
  size_class: string;
  place_id: string;
  place_code: string;
  place_name: string;
  room_code: string;
  air_temp_c: number;
  relative_humidity_pct: number;
  since: Date;
  blotted: boolean;
  reckoned: boolean;
  dry_earliest_at: Date | null;
  dry_latest_at: Date | null;
}

export function toDryingRow(row: DryingSqlRow): DryingRow {
  return {
    itemId: row.id, version: row.version, tagCode: row.tag_code, description: row.description, count: row.count, sizeClass: row.size_class,
    place: { kind: 'drying-place', id: row.place_id, code: row.place_code, name: row.place_name }, roomCode: row.room_code, airTempC: row.air_temp_c, relativeHumidityPct: row.relative_humidity_pct,
    dryingSinceMs: row.since.getTime(), blotted: row.blotted,
    reckoned: row.reckoned ? { dryEarliestMs: msOrNull(row.dry_earliest_at), dryLatestMs: msOrNull(row.dry_latest_at) } : null,
  };
}
