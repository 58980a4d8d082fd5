import type { LapsedWish, PlanWishRecord, PlanWishStore, PlanWishView, WishFilter } from '#application';
import type { Client } from '../pool.js';
import { toMessage, valuesOf } from './message-columns.js';
import { at, msOrNull } from './row.js';

interface WishRow {
  id: string;
  incident_id: string;
  item_id: string;
  kind: PlanWishRecord['kind'];
  asked_at_station_id: string | null;
  station_id: string | null;
  step: PlanWishRecord['step'];
  disposition: PlanWishRecord['disposition'];
  not_before: Date | null;
  pinned: PlanWishRecord['pinned'];
  reason: string;
  wished_by: string;
  wished_at: Date;
  withdrawn_at: Date | null;
  withdrawn_by: string | null;
  withdrawn_reason: string | null;
  lapsed_at: Date | null;
  lapsed_why: string | null;
  lapsed_why_values: unknown;
  tag_code: string;
  wished_by_name: string;
  station_code: string | null;
  withdrawn_by_name: string | null;
}

const VIEW = `
  select w.*, i.tag_code, p.display_name as wished_by_name, s.code as station_code, q.display_name as withdrawn_by_name
  from plan_wish w
  join item i on i.network_id = w.network_id and i.id = w.item_id
  join person p on p.network_id = w.network_id and p.id = w.wished_by
  left join station s on s.network_id = w.network_id and s.id = w.station_id
  left join person q on q.network_id = w.network_id and q.id = w.withdrawn_by`;

const OF_STATE: Readonly<Record<WishFilter['state'], string>> = {
  stands: 'w.withdrawn_at is null and w.lapsed_at is null', ended: '(w.withdrawn_at is not null or w.lapsed_at is not null)', all: 'true',
};

export class PgPlanWishStore implements PlanWishStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async insert(wish: PlanWishRecord): Promise<boolean> {
    const { rowCount } = await this.client.query(
      `insert into plan_wish (network_id, incident_id, id, item_id, kind, asked_at_station_id, station_id, step, disposition, not_before, pinned, reason, wished_by, wished_at)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14) on conflict do nothing`,
      [this.networkId, wish.incidentId, wish.id, wish.itemId, wish.kind, wish.askedAtStationId, wish.stationId, wish.step, wish.disposition, at(wish.notBeforeMs),
        wish.pinned === null ? null : JSON.stringify(wish.pinned), wish.reason, wish.wishedBy, at(wish.wishedAtMs)],
    );
    return rowCount === 1;
  }

  async find(wishId: string): Promise<PlanWishView | null> {
    const { rows } = await this.client.query<WishRow>(`${VIEW} where w.network_id = $1 and w.id = $2`, [this.networkId, wishId]);
    return rows[0] ? toView(rows[0]) : null;
  }

  async page(incidentId: string, { itemId, state }: WishFilter, limit: number, before: string | null): Promise<PlanWishView[]> {
    const { rows } = await this.client.query<WishRow>(
      `${VIEW} where w.network_id = $1 and w.incident_id = $2 and ${OF_STATE[state]} and ($4::uuid is null or w.item_id = $4) and ($5::uuid is null or w.id < $5) order by w.id desc limit $3`,
      [this.networkId, incidentId, limit, itemId ?? null, before],
    );
    return rows.map(toView);
  }

  async withdraw(wishId: string, { atMs, by, reason }: { atMs: number; by: string; reason: string }): Promise<boolean> {
    const { rowCount } = await this.client.query(
      `update plan_wish set withdrawn_at = $3, withdrawn_by = $4, withdrawn_reason = $5
       where network_id = $1 and id = $2 and withdrawn_at is null and lapsed_at is null`,
      [this.networkId, wishId, at(atMs), by, reason],
    );
    return rowCount === 1;
  }

  async lapse(wishes: readonly LapsedWish[], nowMs: number): Promise<void> {
    if (wishes.length === 0) return;
    await this.client.query(
      `update plan_wish w set lapsed_at = $2, lapsed_why = l.why, lapsed_why_values = l.why_values::jsonb
       from unnest($3::uuid[], $4::text[], $5::text[]) as l (id, why, why_values)
       where w.network_id = $1 and w.id = l.id and w.withdrawn_at is null and w.lapsed_at is null`,
      [this.networkId, at(nowMs), wishes.map(({ wishId }) => wishId), wishes.map(({ why }) => why.text), wishes.map(({ why }) => valuesOf(why))],
    );
  }
}

function toView(row: WishRow): PlanWishView {
  return {
    id: row.id, incidentId: row.incident_id, itemId: row.item_id, kind: row.kind, askedAtStationId: row.asked_at_station_id, stationId: row.station_id, step: row.step, disposition: row.disposition,
    notBeforeMs: msOrNull(row.not_before), pinned: row.pinned, reason: row.reason, wishedBy: row.wished_by, wishedAtMs: row.wished_at.getTime(),
    tagCode: row.tag_code, wishedByName: row.wished_by_name, stationCode: row.station_code,
    withdrawn: row.withdrawn_at === null ? null : { atMs: row.withdrawn_at.getTime(), by: row.withdrawn_by ?? '', byName: row.withdrawn_by_name ?? '', reason: row.withdrawn_reason ?? '' },
    lapsed: row.lapsed_at === null ? null : { atMs: row.lapsed_at.getTime(), why: toMessage(row.lapsed_why ?? '', row.lapsed_why_values) },
  };
}
