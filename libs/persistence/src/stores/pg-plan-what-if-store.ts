import type { NamedThing, PlanWhatIfRecord, PlanWhatIfStore, WhatIfLayout } from '#application';
import type { Client } from '../pool.js';
import { toMessageOrNull, valuesOf } from './message-columns.js';
import { at, msOrNull } from './row.js';

interface WhatIfRow {
  id: string;
  incident_id: string;
  state: PlanWhatIfRecord['state'];
  asked: PlanWhatIfRecord['asked'];
  together: boolean;
  item_id: string | null;
  requested_at: Date;
  started_at: Date | null;
  finished_at: Date | null;
  plans_done: number;
  plans_in_all: number | null;
  result: PlanWhatIfRecord['result'];
  failure: string | null;
  failure_values: unknown;
}

function toRecord(row: WhatIfRow): PlanWhatIfRecord {
  return {
    id: row.id, incidentId: row.incident_id, state: row.state, asked: row.asked, together: row.together, itemId: row.item_id, requestedAtMs: row.requested_at.getTime(),
    startedAtMs: msOrNull(row.started_at), finishedAtMs: msOrNull(row.finished_at), plansDone: row.plans_done, plansInAll: row.plans_in_all, result: row.result,
    failure: toMessageOrNull(row.failure, row.failure_values),
  };
}

const THING = 'id, site_id as "siteId", code, name';
/** What each list of the layout is read from. */
const LAYOUT: { [K in keyof WhatIfLayout]: string } = {
  sites: 'select id, id as "siteId", code, name from site where network_id = $1 and incident_id = $2',
  stations: `select ${THING}, state = 'open' as open from station where network_id = $1 and incident_id = $2`,
  rooms: `select ${THING} from drying_room where network_id = $1 and incident_id = $2`,
  places: `select p.id, r.site_id as "siteId", p.code, p.name from drying_place p join drying_room r on r.network_id = p.network_id and r.id = p.drying_room_id where p.network_id = $1 and p.incident_id = $2`,
  freezers: `select ${THING} from freezer where network_id = $1 and incident_id = $2`,
  specialists: `select id, '' as "siteId", code, name from specialist where network_id = $1 and incident_id = $2 and pieces_at_once is not null`,
  rides: `select ride->>'id' as id, '' as "siteId", v.code || ' ' || f.code || '–' || t.code as code, v.name || ' ' || f.name || '–' || t.name as name
          from vehicle v cross join lateral jsonb_array_elements(v.rides) as ride join site f on f.network_id = v.network_id and f.id = (ride->>'fromSiteId')::uuid
          join site t on t.network_id = v.network_id and t.id = (ride->>'toSiteId')::uuid where v.network_id = $1 and v.incident_id = $2`,
  people: 'select id, site_id as "siteId", code, display_name as name from person where network_id = $1 and incident_id = $2',
  dehumidifiers: `select d.id, r.site_id as "siteId", d.code, d.name, d.drying_room_id as "roomId", d.state = 'running' as running, d.rated_l_per_day as "ratedLPerDay", d.rated_temp_c as "ratedTempC",
                         d.rated_relative_humidity_pct as "ratedRelativeHumidityPct"
                  from dehumidifier d join drying_room r on r.network_id = d.network_id and r.id = d.drying_room_id where d.network_id = $1 and d.incident_id = $2`,
};

/** What-ifs: asked for, reckoned beside the plan, kept for a while. */
export class PgPlanWhatIfStore implements PlanWhatIfStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async insert(record: PlanWhatIfRecord): Promise<void> {
    await this.client.query(
      'insert into plan_what_if (network_id, incident_id, id, state, asked, together, item_id, requested_at) values ($1, $2, $3, $4, $5, $6, $7, $8)',
      [this.networkId, record.incidentId, record.id, record.state, record.asked && JSON.stringify(record.asked), record.together, record.itemId, at(record.requestedAtMs)],
    );
  }

  async openOnes(incidentId: string): Promise<number> {
    const { rows } = await this.client.query<{ n: number }>(`select count(*)::int as n from plan_what_if where network_id = $1 and incident_id = $2 and state in ('queued', 'running')`, [this.networkId, incidentId]);
    return rows[0]?.n ?? 0;
  }

  async find(id: string): Promise<PlanWhatIfRecord | null> {
    const { rows } = await this.client.query<WhatIfRow>('select * from plan_what_if where network_id = $1 and id = $2', [this.networkId, id]);
    return rows[0] ? toRecord(rows[0]) : null;
  }

  async lock(id: string): Promise<PlanWhatIfRecord | null> {
    const { rows } = await this.client.query<WhatIfRow>('select * from plan_what_if where network_id = $1 and id = $2 for update', [this.networkId, id]);
    return rows[0] ? toRecord(rows[0]) : null;
  }

  async save(id: string, changed: Parameters<PlanWhatIfStore['save']>[1]): Promise<void> {
    await this.client.query(
      `update plan_what_if set state = coalesce($3, state), started_at = coalesce($4, started_at), finished_at = coalesce($5, finished_at), plans_done = coalesce($6, plans_done),
              plans_in_all = coalesce($7, plans_in_all), result = coalesce($8, result), failure = coalesce($9, failure), failure_values = case when $9::text is null then failure_values else $10::jsonb end
       where network_id = $1 and id = $2`,
      [this.networkId, id, changed.state ?? null, at(changed.startedAtMs ?? null), at(changed.finishedAtMs ?? null), changed.plansDone ?? null, changed.plansInAll ?? null,
        changed.result ? JSON.stringify(changed.result) : null, changed.failure?.text ?? null, valuesOf(changed.failure)],
    );
  }

  async reopen(id: string): Promise<boolean> {
    const { rowCount } = await this.client.query(
      `update plan_what_if set state = 'queued', started_at = null, finished_at = null, plans_done = 0, plans_in_all = null, failure = null, failure_values = null
       where network_id = $1 and id = $2 and state = 'failed'`, [this.networkId, id]);
    return rowCount === 1;
  }

  async newestAbout(itemId: string, revisionId: string): Promise<PlanWhatIfRecord | null> {
    const { rows } = await this.client.query<WhatIfRow>(
      `select * from plan_what_if where network_id = $1 and item_id = $2 and state = 'done' and result ->> 'revisionId' = $3 order by requested_at desc, id desc limit 1`, [this.networkId, itemId, revisionId]);
    return rows[0] ? toRecord(rows[0]) : null;
  }

  async dropOld(incidentId: string, keep: number): Promise<void> {
    await this.client.query(
      `delete from plan_what_if where network_id = $1 and id in (
         select id from plan_what_if where network_id = $1 and incident_id = $2 and state in ('done', 'failed') order by requested_at desc, id desc offset $3)`,
      [this.networkId, incidentId, keep],
    );
  }

  async layout(incidentId: string): Promise<WhatIfLayout> {
    const lists = {} as Record<keyof WhatIfLayout, NamedThing[]>;
    for (const [name, sql] of Object.entries(LAYOUT) as [keyof WhatIfLayout, string][]) {
      lists[name] = (await this.client.query<NamedThing>({ name: `what_if_${name}`, text: `${sql} order by id`, values: [this.networkId, incidentId] })).rows;
    }
    return lists as WhatIfLayout;
  }

  async labels(itemIds: readonly string[]): Promise<Map<string, { tagCode: string; description: string }>> {
    const { rows } = await this.client.query<{ id: string; tag_code: string; description: string }>('select id, tag_code, description from item where network_id = $1 and id = any($2::uuid[])', [this.networkId, itemIds]);
    return new Map(rows.map(({ id, tag_code: tagCode, description }) => [id, { tagCode, description }]));
  }
}
