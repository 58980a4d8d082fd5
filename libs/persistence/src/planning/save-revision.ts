/** Storing a plan revision: one statement for each table, whatever the number of rows. */
import type { NotPlanned, PlanRevisionRecord, RevisionContent } from '#application';
import type { Client } from '../pool.js';
import { at } from '../stores/row.js';

/** Revisions whose assignments are kept; older ones keep their figures. Our own choice. */
export const REVISIONS_IN_DETAIL = 5;

type NewRevision = Omit<PlanRevisionRecord, 'number' | 'publishedAtMs' | 'publishedBy'>;

/** Inserts the revision with its rows and answers its number. The caller holds the incident's planner epoch. */
export async function insertRevision(client: Client, networkId: string, revision: NewRevision, content: RevisionContent): Promise<number> {
  // Who changes how plans come into force waits for this one, or is heeded by it.
  const { rows: [incident] } = await client.query<{ plan_publishing: string }>('select plan_publishing from incident where network_id = $1 and id = $2 for share', [networkId, revision.incidentId]);
  const publishedAt = incident?.plan_publishing === 'automatic' ? at(revision.createdAtMs) : null;
  const { rows } = await client.query<{ number: number }>(
    `insert into plan_revision (network_id, incident_id, id, number, origin_at, slot_minutes, seed, iterations, weight_not_in_time, weighted_start, planned_items, unplanned_items, summary, created_at, published_at)
     select $1, $2, $3, coalesce(max(number), 0) + 1, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14 from plan_revision where network_id = $1 and incident_id = $2
     returning number`,
    [networkId, revision.incidentId, revision.id, at(revision.originAtMs), revision.slotMinutes, revision.seed, revision.iterations, revision.weightNotInTime, revision.weightedStart,
      revision.plannedItems, revision.unplannedItems, JSON.stringify(revision.summary), at(revision.createdAtMs), publishedAt],
  );
  await insertAssignments(client, networkId, revision, content);
  await insertUnplanned(client, networkId, revision, [...content.plan.unplanned, ...content.alsoUnplanned]);
  await dropOldDetails(client, networkId, revision.incidentId);
  return rows[0]?.number ?? 0;
}

async function insertAssignments(client: Client, networkId: string, revision: NewRevision, { plan: { assignments }, items, serviceOf }: RevisionContent): Promise<void> {
  const slotMs = revision.slotMinutes * 60_000;
  const moment = (slot: number) => at(revision.originAtMs + slot * slotMs);
  await client.query(
    `insert into plan_assignment (network_id, incident_id, revision_id, item_id, position, step, disposition, station_id, person_ids, drying_place_id, freezer_id, starts_at, ends_at, option_index, batch_id, standing, weight, service_id)
     select $1, $2, $3, item_id, position, step, disposition, station_id, string_to_array(people, ',')::uuid[], place_id, freezer_id, starts_at, ends_at, option_index, batch_id, standing, weight, service_id
     from unnest($4::uuid[], $5::int[], $6::text[], $7::text[], $8::uuid[], $9::text[], $10::uuid[], $11::uuid[], $12::timestamptz[], $13::timestamptz[],
                 $14::int[], $15::text[], $16::text[], $17::int[], $18::uuid[])
          as a (item_id, position, step, disposition, station_id, people, place_id, freezer_id, starts_at, ends_at, option_index, batch_id, standing, weight, service_id)`,
    [networkId, revision.incidentId, revision.id,
      assignments.map(({ itemId }) => itemId), assignments.map(({ position }) => position), assignments.map(({ step }) => step), assignments.map(({ disposition }) => disposition),
      assignments.map(({ stationId }) => stationId), assignments.map(({ personIds }) => personIds.join(',')), assignments.map(({ dryingPlaceId }) => dryingPlaceId), assignments.map(({ freezerId }) => freezerId),
      assignments.map(({ startSlot }) => moment(startSlot)), assignments.map(({ endSlot }) => moment(endSlot)),
      assignments.map(({ option }) => option ?? null), assignments.map(({ batchId }) => batchId ?? null), assignments.map(({ itemId }) => items.get(itemId)?.standing ?? null), assignments.map(({ itemId }) => items.get(itemId)?.weight ?? null), assignments.map((assignment) => serviceOf(assignment))],
  );
}

async function insertUnplanned(client: Client, networkId: string, revision: NewRevision, unplanned: readonly NotPlanned[]): Promise<void> {
  await client.query(
    `insert into plan_unplanned (network_id, incident_id, revision_id, item_id, weight, blocker_kind, blocker_what)
     select $1, $2, $3, item_id, weight, kind, what from unnest($4::uuid[], $5::int[], $6::text[], $7::text[]) as u (item_id, weight, kind, what)`,
    [networkId, revision.incidentId, revision.id, unplanned.map(({ itemId }) => itemId), unplanned.map(({ weight }) => weight), unplanned.map(({ blockedBy }) => blockedBy.kind), unplanned.map(({ blockedBy }) => blockedBy.what)],
  );
}

/** The plan that work follows keeps its detail, however many proposals came after it. */
async function dropOldDetails(client: Client, networkId: string, incidentId: string): Promise<void> {
  for (const table of ['plan_assignment', 'plan_unplanned']) {
    await client.query(
      `delete from ${table} where network_id = $1 and revision_id in (
         select v.id from plan_revision v,
                lateral (select max(number) as newest, max(number) filter (where published_at is not null) as in_force from plan_revision where network_id = $1 and incident_id = $2) f
         where v.network_id = $1 and v.incident_id = $2 and v.number <= f.newest - $3 and v.number is distinct from f.in_force)`,
      [networkId, incidentId, REVISIONS_IN_DETAIL],
    );
  }
}
