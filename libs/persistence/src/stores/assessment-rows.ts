/** Rows of assessments, triage results and choices of leads, and the longer statements that read them. */
import type { AssessmentRecord, OverrideRecord, OverrideView, SeenThing, TriageRecord } from '#application';
import { msOrNull } from './row.js';

/** Also as JSON, where times are strings. */
export interface AssessmentRow {
  id: string;
  incident_id: string;
  item_id: string;
  observed: AssessmentRecord['observed'];
  origin: AssessmentRecord['origin'];
  assessed_by: string;
  assessed_at: Date | string;
  recorded_at: Date | string;
  seen_again_reason: string | null;
}

export interface TriageRow {
  id: string;
  incident_id: string;
  item_id: string;
  assessment_id: string;
  result: TriageRecord['result'];
  created_at: Date;
}

export interface OverrideRow {
  id: string;
  incident_id: string;
  item_id: string;
  disposition: OverrideRecord['disposition'];
  reason: string;
  decided_by: string;
  decided_at: Date;
  instead_of: OverrideRecord['insteadOf'];
  rule_book_version: string | null;
  open_needs: string[] | null;
}

export interface OverrideViewRow extends OverrideRow {
  display_name: string;
  tag_code: string;
  stage: OverrideView['stage'];
  followed: OverrideView['followed'];
  stabilised_at: Date | null;
  is_latest: boolean;
}

export interface SeenRow {
  item_id: string;
  tag_code: string;
  stage: SeenThing['stage'];
  observed: SeenThing['observed'];
  assessed_at: Date;
  results: SeenThing['results'];
}

export const HISTORY = `
  select t.id, t.incident_id, t.item_id, t.assessment_id, t.result, t.created_at, to_jsonb(a) as assessment
  from triage_result t join assessment a on a.network_id = t.network_id and a.id = t.assessment_id
  where t.network_id = $1 and t.item_id = $2 and ($4::timestamptz is null or (t.created_at, t.id) < ($4, $5::uuid))
  order by t.created_at desc, t.id desc limit $3`;

export const OVERRIDE_PAGE = `
  select o.*, p.display_name, i.tag_code, i.stage, i.disposition as followed, i.stabilised_at,
         not exists (select from disposition_override later where later.network_id = o.network_id and later.item_id = o.item_id and later.id > o.id) as is_latest
  from disposition_override o
  join person p on p.network_id = o.network_id and p.id = o.decided_by
  join item i on i.network_id = o.network_id and i.id = o.item_id
  where o.network_id = $1 and o.incident_id = $2 and ($4::uuid is null or o.id < $4) order by o.id desc limit $3`;

const SEEN = `
  select i.id as item_id, i.tag_code, i.stage, a.observed, a.assessed_at,
         coalesce((select jsonb_agg(jsonb_build_object('id', s.id, 'step', s.step, 'outcome', s.outcome, 'undoes', s.undoes) order by s.recorded_at, s.id)
                   from step_result s where s.network_id = i.network_id and s.item_id = i.id), '[]'::jsonb) as results
  from item i
  join lateral (select b.id, b.observed, b.assessed_at, b.recorded_at from assessment b where b.network_id = i.network_id and b.item_id = i.id order by b.recorded_at desc, b.id desc limit 1) a on true`;

export const LAST_SEEN_OF_INCIDENT = `${SEEN} where i.network_id = $1 and i.incident_id = $2 order by a.recorded_at desc, a.id desc limit $3`;
export const LAST_SEEN_OF_ITEMS = `${SEEN} where i.network_id = $1 and i.id = any ($2::uuid[])`;
export const COUNT_ITEMS = 'select count(*)::int as items from item where network_id = $1 and incident_id = $2';

const ms = (value: Date | string): number => (typeof value === 'string' ? Date.parse(value) : value.getTime());

export function toAssessment(row: AssessmentRow): AssessmentRecord {
  return {
    id: row.id, incidentId: row.incident_id, itemId: row.item_id, observed: row.observed, origin: row.origin, assessedBy: row.assessed_by,
    assessedAtMs: ms(row.assessed_at), recordedAtMs: ms(row.recorded_at), seenAgain: row.seen_again_reason,
  };
}

export function toTriage(row: TriageRow): TriageRecord {
  return { id: row.id, incidentId: row.incident_id, itemId: row.item_id, assessmentId: row.assessment_id, result: row.result, createdAtMs: row.created_at.getTime() };
}

export function toOverride(row: OverrideRow): OverrideRecord {
  return {
    id: row.id, incidentId: row.incident_id, itemId: row.item_id, disposition: row.disposition, reason: row.reason, decidedBy: row.decided_by, decidedAtMs: row.decided_at.getTime(),
    insteadOf: row.instead_of, ruleBookVersion: row.rule_book_version, openNeeds: row.open_needs,
  };
}

export function toOverrideView(row: OverrideViewRow): OverrideView {
  return {
    ...toOverride(row), lead: { id: row.decided_by, name: row.display_name }, tagCode: row.tag_code, stage: row.stage, followed: row.followed,
    stabilisedAtMs: msOrNull(row.stabilised_at), isLatest: row.is_latest,
  };
}

export function toSeenThing(row: SeenRow): SeenThing {
  return { itemId: row.item_id, tagCode: row.tag_code, stage: row.stage, observed: row.observed, assessedAtMs: row.assessed_at.getTime(), results: row.results };
}
