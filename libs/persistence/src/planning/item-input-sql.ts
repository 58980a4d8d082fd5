import { CARRIES_OUT, materialOf, OVERTURNING, type InputItem, type InputOption, type InputStep, type ReckonedDrying } from '#application';
import type { CompanyRule, Fibre, Hazard, MaterialClass } from '#care';
import { msOrNull } from '../stores/row.js';

/** A step of a route as the query answers it: kind, zone, minutes a piece, crew, skill, barred restrictions, stabilises, what to wear. */
type StepTuple = [InputStep['step'], InputStep['zone'], number, number, InputStep['skill'], InputStep['barredRestrictions'], boolean, InputStep['ppe']];

export interface ItemInputRow {
  id: string;
  site_id: string;
  count: number;
  size_class: string;
  area_dm2: number;
  volume_l: number;
  dry_mass_g: number;
  planning_weight: number;
  keeper_kind: InputItem['keeper']['kind'];
  keeper_id: string;
  stage: InputItem['stage'];
  stabilised_at: Date | null;
  disposition: InputItem['disposition'];
  next_step: InputItem['nextStep'];
  since: Date;
  person_id: string | null;
  start_by: Date | null;
  deadlines: number[] | null;
  options: [InputOption['disposition'], number, StepTuple[]][] | null;
  mould: InputItem['mould'] | null;
  wet_state: InputItem['wetState'] | null;
  override: InputItem['override'];
  done_steps: InputItem['doneSteps'] | null;
  reckoned: ReckonedDrying | null;
  bath_group: string | null;
  material_class: MaterialClass;
  apart: CompanyRule[] | null;
  hazards: Hazard[] | null;
  fibre: Fibre | null;
}

/** When what event `e` stands for began: a split of a lot interrupts nothing, so its events carry the moment from the one before. */
export function beganAt(e: string): string {
  return `coalesce((${e}.refs->>'begunAt')::timestamptz, ${e}.occurred_at)`;
}

/** A lead's choice `v` for item `i` still stands; the rule of `overrideInForce` (care/standing.ts). */
export function choiceStands(v: string): string {
  return `not exists (
    select 1 from step_result s where s.network_id = i.network_id and s.item_id = i.id and s.id > ${v}.id
      and (s.outcome in (${listed(OVERTURNING)}) or (s.outcome = 'done' and s.step in (${listed(CARRIES_OUT)}))))`;
}

/** Words of our own vocabularies as a list in SQL. */
function listed(words: readonly string[]): string {
  return words.map((word) => `'${word}'`).join(', ');
}

/** The step result `d` makes its step count as done: no later one undoes it. The rule of `doneAmong` (care/done-steps.ts). */
export function stillDone(d: string): string {
  return `${d}.outcome = 'done' and not exists (
    select 1 from step_result o where o.network_id = ${d}.network_id and o.item_id = ${d}.item_id and ${d}.step = any (o.undoes) and (o.recorded_at, o.id) > (${d}.recorded_at, ${d}.id))`;
}

/** What a plan takes of a room's reckoning of a thing. Rows from before plans asked lack the last two. */
const RECKONED_MEMBERS = ['asOfMs', 'moistureX', 'targetX', 'knownAtMs', 'build', 'dry', 'dryLatestMs', 'modelDryMs', 'law'] as const satisfies readonly (keyof ReckonedDrying)[];
const RECKONED = `jsonb_build_object(${RECKONED_MEMBERS.map((name) => `'${name}', c.detail->'standing'->'${name}'`).join(', ')})`;

/**
 * Live items with their latest triage. A triage result is some 30 kB of words for people; only the numbers of its routes
 * leave the database, as arrays. The newest result is chosen first, unpacked from its storage once (the path `$` answers
 * the whole of it, `offset 0` keeps that from being done again for every mention), and taken apart by record. What a room
 * reckons of a hanging thing counts when it was reckoned since the thing came there.
 */
export const LIVE_ITEMS_SQL = `
  select i.id, i.site_id, i.count, i.size_class, i.area_dm2, i.volume_l, i.dry_mass_g, i.planning_weight, i.keeper_kind, i.keeper_id, i.stage,
         i.stabilised_at, i.disposition, i.next_step, coalesce(${beganAt('e')}, i.updated_at) as since, e.refs->>'personId' as person_id,
         t.start_by, t.deadlines, t.options, a.observed->>'mould' as mould, a.observed->>'wetState' as wet_state, v.disposition as override, d.done_steps,
         c.reckoned, t.bath_group, t.apart, a.observed->'hazards' as hazards, i.material_class, a.observed->>'fibre' as fibre
  from item i
  left join lateral (
    select r.start_by, r.assessment_id, r.result->>'bathGroup' as bath_group,
           jsonb_path_query_array(r.result, '$.clocks[*].deadlineAtMs') as deadlines, jsonb_path_query_array(r.result, '$.apartFrom[*].ruleId') as apart,
           (select json_agg(json_build_array(o.disposition, jsonb_array_length(o.needs),
                     (select coalesce(json_agg(json_build_array(s.step, s.zone, s.minutes, s.crew, s.skill, s.barred, s.stabilises, s.ppe) order by s.k), '[]')
                      from rows from (jsonb_to_recordset(o.steps) as (step text, zone text, "minutesPerPiece" float8, crew float8, skill text, "barredRestrictions" jsonb, stabilises boolean, ppe jsonb))
                           with ordinality as s (step, zone, minutes, crew, skill, barred, stabilises, ppe, k))) order by o.k)
            from rows from (jsonb_to_recordset(r.result->'options') as (disposition text, needs jsonb, steps jsonb)) with ordinality as o (disposition, needs, steps, k)) as options
    from (
      select n.start_by, n.assessment_id, jsonb_path_query_first(n.result, '$') as result
      from (select * from triage_result r where r.network_id = i.network_id and r.item_id = i.id order by r.created_at desc, r.id desc limit 1) n
      offset 0
    ) r
  ) t on true
  left join assessment a on a.network_id = i.network_id and a.id = t.assessment_id
  left join (
    select distinct on (item_id) item_id, id, disposition from disposition_override where network_id = $1 and incident_id = $2 order by item_id, id desc
  ) v on v.item_id = i.id and ${choiceStands('v')}
  left join lateral (
    select array_agg(s.step order by s.recorded_at, s.id) as done_steps from step_result s where s.network_id = i.network_id and s.item_id = i.id and ${stillDone('s')}
  ) d on true
  left join custody_event e on e.network_id = i.network_id and e.item_id = i.id and e.seq = i.seq and i.stage in ('in-work', 'drying')
  left join lateral (
    select ${RECKONED} as reckoned
    from drying_place p join item_climate c on c.network_id = p.network_id and c.item_id = i.id and c.drying_room_id = p.drying_room_id and c.taken_at is null
    where i.stage = 'drying' and i.keeper_kind = 'drying-place' and p.network_id = i.network_id and p.id = i.keeper_id and c.as_of >= e.occurred_at
  ) c on true
  where i.network_id = $1 and i.incident_id = $2 and i.stage not in ('released', 'handed-back', 'merged', 'referred-out') and not i.missing`;

export function toInputItem(row: ItemInputRow): InputItem {
  return {
    id: row.id, siteId: row.site_id, count: row.count, sizeClass: row.size_class, areaDm2: row.area_dm2, volumeL: row.volume_l, dryMassG: row.dry_mass_g, planningWeight: row.planning_weight,
    keeper: { kind: row.keeper_kind, id: row.keeper_id }, stage: row.stage, stabilisedAtMs: msOrNull(row.stabilised_at), disposition: row.disposition, nextStep: row.next_step,
    keeperSinceMs: row.since.getTime(), keeperPersonId: row.person_id, startByMs: msOrNull(row.start_by), deadlinesMs: row.deadlines ?? [],
    options: (row.options ?? []).map(([disposition, needs, steps]) => ({ disposition, needs, steps: steps.map(toInputStep) })),
    mould: row.mould ?? 'unknown', wetState: row.wet_state ?? 'unknown', override: row.override, doneSteps: row.done_steps ?? [],
    materialClass: row.material_class,
    material: materialOf({ materialClass: row.material_class, fibre: row.fibre ?? 'unknown', sizeClass: row.size_class }),
    reckoned: row.reckoned?.law === undefined || row.reckoned.law === null ? null : row.reckoned, bathGroup: row.bath_group,
    ...(row.apart !== null && { company: { materialClass: row.material_class, apartFrom: row.apart.map((ruleId) => ({ ruleId })), hazards: row.hazards ?? [] } }),
  };
}

function toInputStep([step, zone, minutesPerPiece, crew, skill, barredRestrictions, stabilises, ppe]: StepTuple): InputStep {
  return { step, zone, minutesPerPiece, crew, skill, barredRestrictions, stabilises, ppe };
}
