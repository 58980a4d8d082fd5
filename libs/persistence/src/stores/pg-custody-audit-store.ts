import type { AuditedEvent, ChainKind, ChainPlace, CustodyAuditStore } from '#application';
import { treeRoot, type AssignedEvent, type ItemCustody } from '#custody';
import type { Client } from '../pool.js';
import { toEvent, toMatters, type EventRow, type MatterRow } from './pg-custody-store.js';
import { splitHashes } from './pg-custody-root-store.js';
import { msOrNull } from './row.js';

interface AuditRow extends EventRow, MatterRow {
  head_id: string | null;
  head_seq: number;
  head_hash: string;
  head_keeper_kind: ItemCustody['keeper'] extends infer K ? (K extends { kind: infer Kind } ? Kind : never) | null : never;
  head_keeper_id: string | null;
  head_stage: ItemCustody['stage'];
  contradicts: boolean;
  root_no: number | null;
  waiting_hash: string | null;
}

interface ChainTable {
  events: string;
  id: string;
  heads: string;
  /** The state that the head says; a container's stage is in its events alone. */
  stage: string;
}

const TABLES: Record<ChainKind, ChainTable> = {
  item: { events: 'custody_event', id: 'item_id', heads: 'item', stage: 'h.stage' },
  container: { events: 'container_event', id: 'container_id', heads: 'container', stage: 'e.stage' },
};

/** Comes before every other id. */
const NIL = '00000000-0000-0000-0000-000000000000';

/**
 * What is in a row and not in its hash must agree with what is: the incident with the head and the root, halves of pairs with each
 * other, and times with their milliseconds, which is what was hashed.
 */
const CONTRADICTS = `coalesce(h.incident_id <> e.incident_id, false) or coalesce(r.incident_id <> e.incident_id, false) or coalesce(w.incident_id <> e.incident_id, false)
  or coalesce(w.recorded_at <> e.recorded_at, false)
  or (e.from_kind is null) <> (e.from_id is null) or (e.corrects_seq is null) <> (e.corrects_reason is null)
  or date_trunc('milliseconds', e.occurred_at) <> e.occurred_at or date_trunc('milliseconds', e.recorded_at) <> e.recorded_at`;

export class PgCustodyAuditStore implements CustodyAuditStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async events(kind: ChainKind, after: ChainPlace | null, limit: number): Promise<AuditedEvent[]> {
    const table = TABLES[kind];
    const { rows } = await this.client.query<AuditRow>({
      name: `audit_${kind}_events`,
      text: `select e.*, e.${table.id} as item_id, h.id as head_id, h.seq as head_seq, h.head_hash, h.keeper_kind as head_keeper_kind, h.keeper_id as head_keeper_id, ${table.stage} as head_stage,
                    h.hand_over_id, h.hand_over_to_kind, h.hand_over_to_id, h.disputed, h.missing, r.root_no, w.hash as waiting_hash, ${CONTRADICTS} as contradicts
             from ${table.events} e
             left join ${table.heads} h on h.network_id = $1 and h.id = e.${table.id}
             left join custody_root_event r on r.network_id = $1 and r.chain_id = e.${table.id} and r.seq = e.seq
             left join custody_root_waiting w on w.network_id = $1 and w.chain_id = e.${table.id} and w.seq = e.seq
             where e.network_id = $1 and (e.${table.id}, e.seq) > ($2::uuid, $3::int) order by e.${table.id}, e.seq limit $4`,
      values: [this.networkId, after?.id ?? NIL, after?.seq ?? 0, limit],
    });
    return rows.map((row) => ({ event: toEvent(row), head: headOf(row), contradicts: row.contradicts, rootNo: row.root_no, waitingHash: row.waiting_hash }));
  }

  async withoutEvents(kind: ChainKind, afterId: string | null, limit: number): Promise<ChainPlace[]> {
    const table = TABLES[kind];
    const { rows } = await this.client.query<ChainPlace>({
      name: `audit_${kind}_empty`,
      text: `select h.id, h.seq from ${table.heads} h where h.network_id = $1 and h.id > $2::uuid and h.seq > 0
               and not exists (select from ${table.events} e where e.network_id = $1 and e.${table.id} = h.id) order by h.id limit $3`,
      values: [this.networkId, afterId ?? NIL, limit],
    });
    return rows;
  }

  async assigned(rootNo: number): Promise<AssignedEvent[]> {
    const { rows } = await this.client.query<{ leaf_index: number; chain_id: string; seq: number; hash: string | null; recorded_at: Date | null }>({
      name: 'audit_assigned',
      text: `select r.leaf_index, r.chain_id, r.seq, coalesce(i.hash, c.hash) as hash, coalesce(i.recorded_at, c.recorded_at) as recorded_at
             from custody_root_event r
             left join custody_event i on i.network_id = $1 and i.item_id = r.chain_id and i.seq = r.seq
             left join container_event c on c.network_id = $1 and c.container_id = r.chain_id and c.seq = r.seq
             where r.network_id = $1 and r.root_no = $2 order by r.leaf_index`,
      values: [this.networkId, rootNo],
    });
    return rows.map((row) => ({ leafIndex: row.leaf_index, itemId: row.chain_id, seq: row.seq, event: row.hash === null || row.recorded_at === null ? null : { hash: row.hash, recordedAtMs: row.recorded_at.getTime() } }));
  }

  async leaves(rootNo: number): Promise<{ leaves: Uint8Array[]; subtreesHold: boolean }> {
    const { rows } = await this.client.query<{ block_no: number; leaf_hashes: Buffer; subtree: Buffer }>({
      name: 'audit_leaves', text: 'select block_no, leaf_hashes, subtree from custody_root_block where network_id = $1 and root_no = $2 order by block_no', values: [this.networkId, rootNo],
    });
    const blocks = rows.map((row) => ({ blockNo: row.block_no, leaves: splitHashes(row.leaf_hashes), subtree: row.subtree }));
    return { leaves: blocks.flatMap((block) => block.leaves), subtreesHold: blocks.every(({ blockNo, leaves, subtree }, index) => blockNo === index && subtree.equals(treeRoot(leaves))) };
  }

  async assignedNowhere(limit: number): Promise<(ChainPlace & { rootNo: number })[]> {
    const { rows } = await this.client.query<{ id: string; seq: number; root_no: number }>({
      name: 'audit_assigned_nowhere',
      text: `select distinct on (r.root_no) r.chain_id as id, r.seq, r.root_no from custody_root_event r
             where r.network_id = $1 and not exists (select from custody_root k where k.network_id = $1 and k.root_no = r.root_no) order by r.root_no, r.leaf_index limit $2`,
      values: [this.networkId, limit],
    });
    return rows.map((row) => ({ id: row.id, seq: row.seq, rootNo: row.root_no }));
  }

  async waitingForNothing(limit: number): Promise<ChainPlace[]> {
    const { rows } = await this.client.query<ChainPlace>({
      name: 'audit_waiting_for_nothing',
      text: `select w.chain_id as id, w.seq from custody_root_waiting w
             where w.network_id = $1 and not exists (select from custody_event e where e.network_id = $1 and e.item_id = w.chain_id and e.seq = w.seq)
               and not exists (select from container_event e where e.network_id = $1 and e.container_id = w.chain_id and e.seq = w.seq) order by w.chain_id, w.seq limit $2`,
      values: [this.networkId, limit],
    });
    return rows;
  }

  async waiting(): Promise<{ count: number; sinceMs: number | null }> {
    const { rows } = await this.client.query<{ count: number; since: Date | null }>({ name: 'audit_waiting', text: 'select count(*) as count, min(recorded_at) as since from custody_root_waiting where network_id = $1', values: [this.networkId] });
    return { count: rows[0]?.count ?? 0, sinceMs: msOrNull(rows[0]?.since ?? null) };
  }
}

function headOf(row: AuditRow): ItemCustody | null {
  if (row.head_id === null) return null;
  const keeper = row.head_keeper_kind === null || row.head_keeper_id === null ? null : { kind: row.head_keeper_kind, id: row.head_keeper_id };
  return { networkId: row.network_id, itemId: row.head_id, seq: row.head_seq, headHash: row.head_hash, keeper, stage: row.head_stage, matters: toMatters(row) };
}
