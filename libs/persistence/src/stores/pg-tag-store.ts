import type { TagRecord, TagStore } from '#application';
import type { Client } from '../pool.js';
import { at } from './row.js';

interface TagRow {
  code: string;
  kind: TagRecord['kind'];
  incident_id: string;
  item_id: string | null;
  container_id: string | null;
}

function toRecord(row: TagRow): TagRecord {
  return { code: row.code, kind: row.kind, incidentId: row.incident_id, itemId: row.item_id, containerId: row.container_id };
}

export class PgTagStore implements TagStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async reserveSerials(kind: 'item' | 'container', count: number): Promise<number> {
    const { rows } = await this.client.query<{ next_serial: number }>(
      `insert into tag_serial (network_id, kind, next_serial) values ($1, $2, 1 + $3)
       on conflict (network_id, kind) do update set next_serial = tag_serial.next_serial + $3
       returning next_serial`,
      [this.networkId, kind, count],
    );
    return (rows[0]?.next_serial ?? 0) - count;
  }

  async insertBlock(block: Parameters<TagStore['insertBlock']>[0], codes: readonly string[]): Promise<void> {
    await this.client.query(
      `insert into tag_block (network_id, incident_id, id, kind, first_serial, last_serial, reserved_for, created_at) values ($1, $2, $3, $4, $5, $6, $7, $8)`,
      [this.networkId, block.incidentId, block.id, block.kind, block.firstSerial, block.lastSerial, block.reservedFor, at(block.createdAtMs)],
    );
    await this.client.query(
      `insert into tag (network_id, incident_id, code, kind, block_id) select $1, $2, unnest($5::text[]), $3, $4`,
      [this.networkId, block.incidentId, block.kind, block.id, codes],
    );
  }

  async find(code: string): Promise<TagRecord | null> {
    const { rows } = await this.client.query<TagRow>({ name: 'tag_find', text: 'select code, kind, incident_id, item_id, container_id from tag where network_id = $1 and code = $2', values: [this.networkId, code] });
    return rows[0] ? toRecord(rows[0]) : null;
  }

  async lock(code: string): Promise<TagRecord | null> {
    const { rows } = await this.client.query<TagRow>({ name: 'tag_lock', text: 'select code, kind, incident_id, item_id, container_id from tag where network_id = $1 and code = $2 for no key update', values: [this.networkId, code] });
    return rows[0] ? toRecord(rows[0]) : null;
  }

  async known(codes: readonly string[], incidentId: string | null): Promise<TagRecord[]> {
    const { rows } = await this.client.query<TagRow>(
      'select code, kind, incident_id, item_id, container_id from tag where network_id = $1 and code = any($2::text[]) and ($3::uuid is null or incident_id = $3) order by code',
      [this.networkId, codes, incidentId],
    );
    return rows.map(toRecord);
  }

  async tie(code: string, to: { itemId?: string; containerId?: string }, nowMs: number): Promise<boolean> {
    const { rowCount } = await this.client.query({
      name: 'tag_tie',
      text: `update tag set item_id = $3, container_id = $4, tied_at = $5 where network_id = $1 and code = $2 and item_id is null and container_id is null`,
      values: [this.networkId, code, to.itemId ?? null, to.containerId ?? null, at(nowMs)],
    });
    return rowCount === 1;
  }
}
