/** What people want of the plan, and the plan that they work to, for the next one. */
import type { InputWish, PlanInput } from '#application';
import type { Client } from '../pool.js';
import { msOrNull } from '../stores/row.js';

interface WishRow {
  id: string;
  item_id: string;
  kind: InputWish['kind'];
  station_id: string | null;
  step: InputWish['step'];
  disposition: InputWish['disposition'];
  not_before: Date | null;
  pinned: InputWish['pinned'];
}

interface PublishedRow {
  item_id: string;
  position: number;
  step: InputWish['step'] & string;
  disposition: InputWish['disposition'] & string;
  station_id: string | null;
  person_ids: string[];
  drying_place_id: string | null;
  freezer_id: string | null;
  service_id: string | null;
  starts_at: Date;
  ends_at: Date;
}

/** The wishes that stand. */
export async function loadWishes(client: Client, of: readonly string[]): Promise<InputWish[]> {
  const { rows } = await client.query<WishRow>(
    'select id, item_id, kind, station_id, step, disposition, not_before, pinned from plan_wish where network_id = $1 and incident_id = $2 and withdrawn_at is null and lapsed_at is null', [...of]);
  return rows.map((row) => ({ id: row.id, itemId: row.item_id, kind: row.kind, stationId: row.station_id, step: row.step, disposition: row.disposition, notBeforeMs: msOrNull(row.not_before), pinned: row.pinned }));
}

/** The assignments of the published plan; undefined before the first. */
export async function loadPublished(client: Client, of: readonly string[]): Promise<PlanInput['published']> {
  const { rows: revisions } = await client.query<{ id: string }>(
    'select id from plan_revision where network_id = $1 and incident_id = $2 and published_at is not null order by number desc limit 1', [...of]);
  const [revision] = revisions;
  if (revision === undefined) return undefined;
  const { rows } = await client.query<PublishedRow>(
    'select item_id, position, step, disposition, station_id, person_ids, drying_place_id, freezer_id, service_id, starts_at, ends_at from plan_assignment where network_id = $1 and revision_id = $2', [of[0], revision.id]);
  return rows.map((row) => ({
    itemId: row.item_id, position: row.position, step: row.step, disposition: row.disposition, stationId: row.station_id, personIds: row.person_ids, dryingPlaceId: row.drying_place_id, freezerId: row.freezer_id, serviceId: row.service_id,
    startsAtMs: row.starts_at.getTime(), endsAtMs: row.ends_at.getTime(),
  }));
}
