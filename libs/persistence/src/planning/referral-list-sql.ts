import type { ReferralRow } from '#application';
import { msOrNull } from '../stores/row.js';
import { doneNow, NOT_OVERRULED } from './work-list-sql.js';

/**
 * What a revision sends to specialists and is still here to be sent: not gone, not drying, not sent in this round of work, its latest
 * triage still offers a referral (whether or not something is missing for it), and no lead has chosen otherwise.
 * $1 network, $2 revision, $3 specialist or null, $4 limit.
 */
export const TO_REFER_SQL = `
  select a.item_id, a.starts_at, a.ends_at, x.id as specialist_id, x.code as specialist_code, x.name as specialist_name, x.field as specialist_field,
         i.version, i.tag_code, i.description, i.count, i.stage, i.household_id, i.keeper_kind, i.keeper_id, i.start_by, i.stabilised_at is not null as stabilised,
         coalesce(h.code, ks.code, kf.code, kc.tag_code) as keeper_code, coalesce(h.name, ks.name, kf.name, kc.description) as keeper_name,
         (select coalesce(jsonb_agg(b.step order by b.position), '[]') from plan_assignment b
          where b.network_id = a.network_id and b.revision_id = a.revision_id and b.item_id = a.item_id and b.position < a.position and not ${doneNow('b.step')}) as steps_ahead,
         t.option, t.never, t.referral
  from plan_assignment a
  join item i on i.network_id = a.network_id and i.id = a.item_id
  join specialist x on x.network_id = a.network_id and x.id = a.service_id
  join lateral (
    select jsonb_path_query_first(r.result, '$.options[*] ? (@.disposition == "refer")') as option, r.result->'never' as never, r.result->'referral' as referral
    from triage_result r where r.network_id = i.network_id and r.item_id = i.id order by r.created_at desc, r.id desc limit 1
  ) t on t.option is not null
  left join holding_area h on i.keeper_kind = 'holding' and h.network_id = i.network_id and h.id = i.keeper_id
  left join station ks on i.keeper_kind = 'station' and ks.network_id = i.network_id and ks.id = i.keeper_id
  left join freezer kf on i.keeper_kind = 'freezer' and kf.network_id = i.network_id and kf.id = i.keeper_id
  left join container kc on i.keeper_kind = 'container' and kc.network_id = i.network_id and kc.id = i.keeper_id
  where a.network_id = $1 and a.revision_id = $2 and a.step = 'refer' and a.disposition = 'refer' and ($3::uuid is null or a.service_id = $3)
    and i.stage not in ('drying', 'referred-out', 'released', 'handed-back', 'merged') and not i.missing and not ${doneNow("'refer'")} and ${NOT_OVERRULED}
  order by a.starts_at, a.item_id limit $4`;

/** $1 network, $2 item, $3 specialist. */
export const IS_UNPLANNED_REFERRAL_SQL = `
  select x.pieces_at_once is not null and not exists (
    select from plan_assignment a
    where a.network_id = x.network_id and a.item_id = $2 and a.service_id = x.id
      and a.revision_id = (select v.id from plan_revision v where v.network_id = x.network_id and v.incident_id = x.incident_id and v.published_at is not null order by v.number desc limit 1)) as unplanned
  from specialist x where x.network_id = $1 and x.id = $3`;

export interface ReferralSqlRow {
  item_id: string;
  starts_at: Date;
  ends_at: Date;
  specialist_id: string;
  specialist_code: string;
  specialist_name: string;
  specialist_field: string;
  version: number;
  tag_code: string;
  description: string;
  count: number;
  stage: ReferralRow['stage'];
  household_id: string;
  keeper_kind: ReferralRow['keeper']['kind'];
  keeper_id: string;
  keeper_code: string | null;
  keeper_name: string | null;
  start_by: Date | null;
  stabilised: boolean;
  steps_ahead: ReferralRow['stepsAhead'];
  option: ReferralRow['option'];
  never: ReferralRow['never'] | null;
  referral: ReferralRow['advice'] | null;
}

export function toReferralRow(row: ReferralSqlRow): ReferralRow {
  return {
    itemId: row.item_id, version: row.version, tagCode: row.tag_code, description: row.description, count: row.count, stage: row.stage, householdId: row.household_id,
    keeper: { kind: row.keeper_kind, id: row.keeper_id }, keeperCode: row.keeper_code, keeperName: row.keeper_name, startByMs: msOrNull(row.start_by), stabilised: row.stabilised,
    specialist: { id: row.specialist_id, code: row.specialist_code, name: row.specialist_name, field: row.specialist_field }, fromMs: row.starts_at.getTime(), untilMs: row.ends_at.getTime(),
    stepsAhead: row.steps_ahead, option: row.option, never: row.never ?? [], advice: row.referral ?? [],
  };
}
