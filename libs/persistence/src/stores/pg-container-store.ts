import type { ContainerHead, ContainerRecord, ContainerStore, InsideCount, InsideRow } from '#application';
import type { CustodyEvent, Keeper, OpenMatters } from '#custody';
import type { Client } from '../pool.js';
import { eventValues, matterValues, toEvent, toMatters, type EventRow, type MatterRow } from './pg-custody-store.js';
import { at } from './row.js';

interface ContainerRow extends MatterRow {
  network_id: string;
  id: string;
  incident_id: string;
  site_id: string;
  tag_code: string;
  kind: ContainerRecord['kind'];
  description: string;
  created_at: Date;
  seq: number;
  head_hash: string;
  keeper_kind: Keeper['kind'] | null;
  keeper_id: string | null;
  last_seen_at: Date;
  version: number;
}

function keeperOf({ keeper_kind: kind, keeper_id: id }: Pick<ContainerRow, 'keeper_kind' | 'keeper_id'>): Keeper | null {
  return kind === null || id === null ? null : { kind, id };
}

function toRecord(row: ContainerRow): ContainerRecord {
  return {
    networkId: row.network_id, id: row.id, incidentId: row.incident_id, siteId: row.site_id, tagCode: row.tag_code, kind: row.kind, description: row.description, createdAtMs: row.created_at.getTime(),
    seq: row.seq, headHash: row.head_hash, keeper: keeperOf(row), matters: toMatters(row), lastSeenAtMs: row.last_seen_at.getTime(), version: row.version,
  };
}

const EVENT_COLUMNS = `network_id, incident_id, container_id, seq, command_id, kind, from_kind, from_id, to_kind, to_id, stage, actor_id,
  occurred_at, recorded_at, refs, corrects_seq, corrects_reason, prev_hash, hash, form`;
const EVENT_PLACES = Array.from({ length: 20 }, (_, index) => `$${index + 1}`).join(', ');

/** The containers inside one, with their depth; `union` and the bound keep a circle from going on for ever. */
const INSIDE = `with recursive inside (id, depth) as (
    select $2::uuid, 0
    union
    select c.id, i.depth + 1 from inside i join container c on c.network_id = $1 and c.keeper_kind = 'container' and c.keeper_id = i.id where i.depth < 50
  )`;

type ContainerEventRow = Omit<EventRow, 'item_id'> & { container_id: string };
const toContainerEvent = (row: ContainerEventRow): CustodyEvent => toEvent({ ...row, item_id: row.container_id });

export class PgContainerStore implements ContainerStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async insert(container: ContainerRecord): Promise<void> {
    await this.client.query(
      `insert into container (network_id, incident_id, id, site_id, tag_code, kind, description, created_at, seq, head_hash, keeper_kind, keeper_id, last_seen_at, version)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14)`,
      [this.networkId, container.incidentId, container.id, container.siteId, container.tagCode, container.kind, container.description, at(container.createdAtMs),
        container.seq, container.headHash, container.keeper?.kind ?? null, container.keeper?.id ?? null, at(container.lastSeenAtMs), container.version],
    );
  }

  async find(containerId: string): Promise<ContainerRecord | null> {
    const { rows } = await this.client.query<ContainerRow>({ name: 'container_find', text: 'select * from container where network_id = $1 and id = $2', values: [this.networkId, containerId] });
    return rows[0] ? toRecord(rows[0]) : null;
  }

  async lockMany(containerIds: readonly string[], mode: 'update' | 'share'): Promise<ContainerRecord[]> {
    const { rows } = await this.client.query<ContainerRow>({
      name: `container_lock_${mode}`,
      text: `select * from container where network_id = $1 and id = any($2::uuid[]) order by id for ${mode === 'update' ? 'no key update' : 'share'}`,
      values: [this.networkId, containerIds],
    });
    return rows.map(toRecord);
  }

  async path(containerId: string): Promise<ContainerRecord[]> {
    const { rows } = await this.client.query<ContainerRow>({
      name: 'container_path',
      text: `with recursive path (id, depth) as (
               select $2::uuid, 0
               union
               select c.keeper_id, p.depth + 1 from path p join container c on c.network_id = $1 and c.id = p.id and c.keeper_kind = 'container' where p.depth < 50
             ) cycle id set looped using trail
             select c.* from path p join container c on c.network_id = $1 and c.id = p.id where not p.looped order by p.depth`,
      values: [this.networkId, containerId],
    });
    return rows.map(toRecord);
  }

  async inside(containerId: string): Promise<InsideCount> {
    const { rows } = await this.client.query<InsideCount>({
      name: 'container_inside',
      text: `${INSIDE} select (select count(*)::int from inside where depth > 0) as containers, (select max(depth) from inside) as levels, count(t.id)::int as items, coalesce(sum(t.count), 0)::int as pieces, coalesce(sum(t.volume_l), 0)::int as "volumeL"
             from (select distinct id from inside) i left join item t on t.network_id = $1 and t.keeper_kind = 'container' and t.keeper_id = i.id`,
      values: [this.networkId, containerId],
    });
    return rows[0] ?? { items: 0, pieces: 0, containers: 0, volumeL: 0, levels: 0 };
  }

  async contents(containerId: string, nested: boolean, limit: number, afterId: string | null): Promise<InsideRow[]> {
    const { rows } = await this.client.query<InsideRow>({
      name: 'container_contents',
      text: `${INSIDE} select * from (
               select 'item' as thing, t.id, t.tag_code as "tagCode", t.description, i.id as "containerId", i.depth + 1 as depth
               from inside i join item t on t.network_id = $1 and t.keeper_kind = 'container' and t.keeper_id = i.id where $3::boolean or i.depth = 0
               union all
               select 'container', c.id, c.tag_code, c.description, c.keeper_id, i.depth
               from inside i join container c on c.network_id = $1 and c.id = i.id where i.depth > 0 and ($3::boolean or i.depth = 1)
             ) all_inside where $5::uuid is null or id > $5 order by id limit $4`,
      values: [this.networkId, containerId, nested, limit, afterId],
    });
    return rows;
  }

  async append(event: CustodyEvent, matters: OpenMatters, incidentId: string): Promise<number> {
    const { rows } = await this.client.query<{ version: number }>({
      name: 'container_append',
      text: `with moved as (
               update container set seq = $4, head_hash = $19, keeper_kind = $9, keeper_id = $10, version = version + 1,
                 hand_over_id = $21, hand_over_to_kind = $22, hand_over_to_id = $23, disputed = $24::boolean, missing = $25::boolean,
                 last_seen_at = case when $25::boolean then last_seen_at else greatest(last_seen_at, least($13::timestamptz, $14::timestamptz)) end
               where network_id = $1 and id = $3 and incident_id = $2 and seq = $4 - 1 and head_hash = $18 returning version
             ), written as (
               insert into container_event (${EVENT_COLUMNS}) select ${EVENT_PLACES.replace('$15', '$15::jsonb')} from moved returning seq
             ) select moved.version from moved, written`,
      values: [...eventValues(event, incidentId), ...matterValues(matters)],
    });
    if (!rows[0]) throw new Error('custody append: the container moved on although its row was locked');
    return rows[0].version;
  }

  async appendFirst(event: CustodyEvent, incidentId: string): Promise<void> {
    await this.client.query({ name: 'container_first', text: `insert into container_event (${EVENT_COLUMNS}) values (${EVENT_PLACES})`, values: eventValues(event, incidentId) });
  }

  async chain(containerId: string, afterSeq: number, limit: number): Promise<CustodyEvent[]> {
    const { rows } = await this.client.query<ContainerEventRow>({
      name: 'container_chain',
      text: 'select * from container_event where network_id = $1 and container_id = $2 and seq > $3 order by seq limit $4',
      values: [this.networkId, containerId, afterSeq, limit],
    });
    return rows.map(toContainerEvent);
  }

  async heads(incidentId: string, limit: number, afterId: string | null): Promise<ContainerHead[]> {
    const { rows } = await this.client.query<Pick<ContainerRow, 'id' | 'seq' | 'head_hash' | 'keeper_kind' | 'keeper_id'> & MatterRow>(
      `select id, seq, head_hash, keeper_kind, keeper_id, hand_over_id, hand_over_to_kind, hand_over_to_id, disputed, missing from container
       where network_id = $1 and incident_id = $2 and ($4::uuid is null or id > $4) order by id limit $3`,
      [this.networkId, incidentId, limit, afterId],
    );
    return rows.map((row) => ({ containerId: row.id, seq: row.seq, headHash: row.head_hash, keeper: keeperOf(row), matters: toMatters(row) }));
  }

  async chains(containerIds: readonly string[]): Promise<Map<string, CustodyEvent[]>> {
    const { rows } = await this.client.query<ContainerEventRow>('select * from container_event where network_id = $1 and container_id = any($2::uuid[]) order by container_id, seq', [this.networkId, containerIds]);
    const chains = new Map<string, CustodyEvent[]>(containerIds.map((id) => [id, []]));
    for (const row of rows) chains.get(row.container_id)?.push(toContainerEvent(row));
    return chains;
  }
}
