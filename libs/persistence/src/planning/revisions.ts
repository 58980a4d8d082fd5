/** Revisions of a plan as they are read and published. */
import type { PlanRevisionRecord, PlanSummary, RevisionView } from '#application';
import type { Client } from '../pool.js';
import { at, msOrNull } from '../stores/row.js';
import { REVISIONS_IN_DETAIL } from './save-revision.js';

interface RevisionRow {
  id: string;
  incident_id: string;
  number: number;
  origin_at: Date;
  slot_minutes: number;
  seed: number;
  iterations: number;
  weight_not_in_time: number;
  weighted_start: number;
  planned_items: number;
  unplanned_items: number;
  created_at: Date;
  published_at: Date | null;
  published_by: string | null;
}

type ViewRow = RevisionRow & { in_time: PlanSummary['inTime'] | null; not_in_time: PlanSummary['notInTime'] | null; published_by_name: string | null; in_force: boolean; is_newest: boolean; in_detail: boolean };

function toRevision(row: RevisionRow): Omit<PlanRevisionRecord, 'summary'> {
  return {
    id: row.id, incidentId: row.incident_id, number: row.number, originAtMs: row.origin_at.getTime(), slotMinutes: row.slot_minutes, seed: row.seed, iterations: row.iterations,
    weightNotInTime: row.weight_not_in_time, weightedStart: row.weighted_start, plannedItems: row.planned_items, unplannedItems: row.unplanned_items, createdAtMs: row.created_at.getTime(),
    publishedAtMs: msOrNull(row.published_at), publishedBy: row.published_by,
  };
}

/** The first revision of the network ($1) that a condition holds for. */
export async function oneRevision(client: Client, where: string, values: unknown[]): Promise<PlanRevisionRecord | null> {
  const { rows } = await client.query<RevisionRow & { summary: unknown }>(`select * from plan_revision where network_id = $1 and ${where} limit 1`, values);
  return rows[0] ? { ...toRevision(rows[0]), summary: rows[0].summary } : null;
}

/** Revisions of the network ($1) with how they stand among those of their incident. */
export async function revisionViews(client: Client, where: string, values: unknown[]): Promise<RevisionView[]> {
  const { rows } = await client.query<ViewRow>(
    `select v.id, v.incident_id, v.number, v.origin_at, v.slot_minutes, v.seed, v.iterations, v.weight_not_in_time, v.weighted_start, v.planned_items, v.unplanned_items, v.created_at, v.published_at,
            v.published_by, v.summary->'inTime' as in_time, v.summary->'notInTime' as not_in_time, p.display_name as published_by_name, v.number is not distinct from f.number as in_force, v.number = f.newest as is_newest,
            v.number is not distinct from f.number or v.number > f.newest - ${REVISIONS_IN_DETAIL} as in_detail
     from plan_revision v
     left join person p on p.network_id = v.network_id and p.id = v.published_by
     cross join lateral (
       select max(number) filter (where published_at is not null) as number, max(number) as newest from plan_revision o where o.network_id = v.network_id and o.incident_id = v.incident_id) f
     where v.network_id = $1 and ${where}`,
    values,
  );
  return rows.map((row) => ({
    ...toRevision(row), inTime: row.in_time ?? { items: 0, weight: 0 }, notInTime: row.not_in_time ?? { items: 0, weight: 0 }, inForce: row.in_force, isNewest: row.is_newest, detailKept: row.in_detail, publishedByName: row.published_by_name,
  }));
}

/** The lock is that of storing (`claimStoring`): no newer plan comes between the look and the word. */
export async function publishRevision(client: Client, networkId: string, { id, incidentId, by, nowMs }: { id: string; incidentId: string; by: string; nowMs: number }): Promise<boolean> {
  await client.query('select 1 from plan_epoch where network_id = $1 and incident_id = $2 for update', [networkId, incidentId]);
  const { rowCount } = await client.query(
    `update plan_revision set published_at = $4, published_by = $5
     where network_id = $1 and id = $3 and published_at is null
       and number = (select max(number) from plan_revision where network_id = $1 and incident_id = $2)`,
    [networkId, incidentId, id, at(nowMs), by],
  );
  return rowCount === 1;
}
