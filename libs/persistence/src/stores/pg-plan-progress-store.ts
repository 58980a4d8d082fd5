import type { Beginning, ItemNow, KeptRevision, ForeseenStep, PlanProgressStore, ReportedStep } from '#application';
import { beganAt } from '../planning/item-input-sql.js';
import { REVISIONS_IN_DETAIL } from '../planning/save-revision.js';
import type { Client } from '../pool.js';
import { at, msOrNull } from './row.js';

interface PlannedRow { item_id: string; step: ForeseenStep['step']; disposition: ForeseenStep['disposition']; starts_at: Date; ends_at: Date; made_at: Date }
interface ItemRow { id: string; tag_code: string; stage: ItemNow['stage']; keeper_kind: ItemNow['keeper']['kind']; keeper_id: string; since: Date; disposition: ItemNow['disposition']; next_step: ItemNow['nextStep']; stabilised_at: Date | null }
interface ReportedRow { item_id: string; step: ReportedStep['step']; outcome: ReportedStep['outcome']; station_id: string | null; started_at: Date | null; finished_at: Date }
interface BeginningRow { item_id: string; kind: Beginning['kind']; to_id: string; occurred_at: Date }

/** Published plans of an incident ($2) whose assignments are kept. */
const KEPT = `
  select v.id, v.number, v.slot_minutes, v.created_at, v.published_at, lead(v.published_at) over (order by v.number) as until
  from plan_revision v,
       lateral (select max(number) as newest, max(number) filter (where published_at is not null) as in_force from plan_revision where network_id = $1 and incident_id = $2) f
  where v.network_id = $1 and v.incident_id = $2 and v.published_at is not null and (v.number > f.newest - ${REVISIONS_IN_DETAIL} or v.number = f.in_force)`;

const ITEM = `
  select i.id, i.tag_code, i.stage, i.keeper_kind, i.keeper_id, coalesce(${beganAt('e')}, i.updated_at) as since, i.disposition, i.next_step, i.stabilised_at
  from item i left join custody_event e on e.network_id = i.network_id and e.item_id = i.id and e.seq = i.seq`;

export class PgPlanProgressStore implements PlanProgressStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async kept(incidentId: string): Promise<KeptRevision[]> {
    const { rows } = await this.client.query<{ id: string; number: number; created_at: Date; published_at: Date }>(`${KEPT} order by v.number`, [this.networkId, incidentId]);
    return rows.map(({ id, number, created_at, published_at }) => ({ id, number, createdAtMs: created_at.getTime(), publishedAtMs: published_at.getTime() }));
  }

  async plannedBy(revisionId: string): Promise<ForeseenStep[]> {
    const { rows } = await this.client.query<PlannedRow>(
      `select a.item_id, a.step, a.disposition, a.starts_at, a.ends_at, v.created_at as made_at from plan_revision v join plan_assignment a on a.network_id = v.network_id and a.revision_id = v.id
       where v.network_id = $1 and v.id = $2 and a.step <> 'carry' order by a.starts_at, a.item_id, a.position`,
      [this.networkId, revisionId],
    );
    return rows.map(toPlanned);
  }

  async dueWhileInForce(incidentId: string, fromMs: number, toMs: number): Promise<ForeseenStep[]> {
    // What a plan places into its first slot begins a little before it is published.
    const { rows } = await this.client.query<PlannedRow>(
      `with kept as (${KEPT})
       select a.item_id, a.step, a.disposition, a.starts_at, a.ends_at, v.created_at as made_at
       from kept v join plan_assignment a on a.network_id = $1 and a.revision_id = v.id
       where a.starts_at >= greatest($3::timestamptz, v.published_at - v.slot_minutes * interval '1 minute') and a.starts_at < least($4::timestamptz, v.until) and a.step <> 'carry'
       order by a.starts_at, v.number, a.item_id, a.position`,
      [this.networkId, incidentId, at(fromMs), at(toMs)],
    );
    return rows.map(toPlanned);
  }

  async promised(revisionId: string): Promise<{ itemId: string; weight: number }[]> {
    const { rows } = await this.client.query<{ item_id: string; weight: number }>(
      `select item_id, max(coalesce(weight, 0)) as weight from plan_assignment where network_id = $1 and revision_id = $2 and standing = 'in-time' group by item_id order by item_id`, [this.networkId, revisionId]);
    return rows.map(({ item_id, weight }) => ({ itemId: item_id, weight }));
  }

  async itemsNow(itemIds: readonly string[]): Promise<ItemNow[]> {
    const { rows } = await this.client.query<ItemRow>(`${ITEM} where i.network_id = $1 and i.id = any($2::uuid[]) order by i.id`, [this.networkId, itemIds]);
    return rows.map(toItem);
  }

  async inWorkAt(stationId: string): Promise<ItemNow[]> {
    const { rows } = await this.client.query<ItemRow>(`${ITEM} where i.network_id = $1 and i.keeper_kind = 'station' and i.keeper_id = $2 and i.stage = 'in-work' order by since, i.id`, [this.networkId, stationId]);
    return rows.map(toItem);
  }

  async reported(itemIds: readonly string[], fromMs: number): Promise<ReportedStep[]> {
    const { rows } = await this.client.query<ReportedRow>(
      'select item_id, step, outcome, station_id, started_at, finished_at from step_result where network_id = $1 and item_id = any($2::uuid[]) and finished_at >= $3 order by finished_at, id', [this.networkId, itemIds, at(fromMs)]);
    return rows.map((row) => ({ itemId: row.item_id, step: row.step, outcome: row.outcome, stationId: row.station_id, startedAtMs: msOrNull(row.started_at), finishedAtMs: row.finished_at.getTime() }));
  }

  async begun(itemIds: readonly string[], fromMs: number): Promise<Beginning[]> {
    const { rows } = await this.client.query<BeginningRow>(
      `select e.item_id, e.kind, e.to_id, e.occurred_at from custody_event e
       where e.network_id = $1 and e.item_id = any($2::uuid[]) and e.kind in ('work-started', 'drying-started', 'frozen') and e.occurred_at >= $3
         and not exists (select from custody_event c where c.network_id = e.network_id and c.item_id = e.item_id and c.corrects_seq = e.seq)
       order by e.occurred_at, e.item_id, e.seq`,
      [this.networkId, itemIds, at(fromMs)],
    );
    return rows.map((row) => ({ itemId: row.item_id, kind: row.kind, placeId: row.to_id, atMs: row.occurred_at.getTime() }));
  }
}

function toPlanned(row: PlannedRow): ForeseenStep {
  return { itemId: row.item_id, step: row.step, disposition: row.disposition, startsAtMs: row.starts_at.getTime(), endsAtMs: row.ends_at.getTime(), madeAtMs: row.made_at.getTime() };
}

function toItem(row: ItemRow): ItemNow {
  return {
    id: row.id, tagCode: row.tag_code, stage: row.stage, keeper: { kind: row.keeper_kind, id: row.keeper_id }, sinceMs: row.since.getTime(), disposition: row.disposition, nextStep: row.next_step, stabilisedAtMs: msOrNull(row.stabilised_at),
  };
}
