import type { CustodyKeyRecord, CustodyRootStore, EventRoot, LeafBlock, WaitingEvent } from '#application';
import type { SignedRoot } from '#custody';
import type { Client } from '../pool.js';
import { at } from './row.js';

interface RootRow {
  network_id: string;
  root_no: number;
  from_ms: number;
  to_ms: number;
  event_count: number;
  merkle_root: string;
  prev_root_hash: string;
  key_id: string;
  form: 1;
  hash: string;
  signature: string;
}

interface WaitingRow {
  incident_id: string;
  chain_id: string;
  seq: number;
  recorded_at: Date;
  hash: string;
}

const HASH_BYTES = 32;

// Not as timestamps: whatever is finer than a millisecond is no statement of ours and must show.
const ROOT = `network_id, root_no, (extract(epoch from period_from) * 1000)::float8 as from_ms, (extract(epoch from period_to) * 1000)::float8 as to_ms,
  event_count, merkle_root, prev_root_hash, key_id, form, hash, signature`;

export function toRoot(row: RootRow): SignedRoot {
  return {
    v: row.form, networkId: row.network_id, rootNo: row.root_no, fromMs: row.from_ms, toMs: row.to_ms, eventCount: row.event_count,
    merkleRoot: row.merkle_root, prevRootHash: row.prev_root_hash, keyId: row.key_id, hash: row.hash, signature: row.signature,
  };
}

/** Hashes that are stored one after the other; a rest that is no whole hash is one that is wrong. */
export function splitHashes(bytes: Buffer): Uint8Array[] {
  return Array.from({ length: Math.ceil(bytes.length / HASH_BYTES) }, (_, index) => new Uint8Array(bytes.subarray(index * HASH_BYTES, (index + 1) * HASH_BYTES)));
}

export class PgCustodyRootStore implements CustodyRootStore {
  constructor(
    private readonly client: Client,
    private readonly networkId: string,
  ) {}

  async lockLine(): Promise<void> {
    await this.client.query({ name: 'root_line', text: "select pg_advisory_xact_lock(hashtextextended('custody root ' || $1::text, 0))", values: [this.networkId] });
  }

  async takeWaiting(beforeMs: number, limit: number): Promise<WaitingEvent[]> {
    const { rows } = await this.client.query<WaitingRow>({
      name: 'root_take',
      text: `with due as materialized (
               select chain_id, seq from custody_root_waiting where network_id = $1 and recorded_at < $2 order by recorded_at, chain_id, seq limit $3
             ), taken as (
               delete from custody_root_waiting w using due where w.network_id = $1 and w.chain_id = due.chain_id and w.seq = due.seq
               returning w.incident_id, w.chain_id, w.seq, w.recorded_at, w.hash
             ) select * from taken order by recorded_at, chain_id, seq`,
      values: [this.networkId, at(beforeMs), limit],
    });
    return rows.map((row) => ({ incidentId: row.incident_id, itemId: row.chain_id, seq: row.seq, recordedAtMs: row.recorded_at.getTime(), hash: row.hash }));
  }

  async insertKey({ keyId, publicKey, firstUsedAtMs }: CustodyKeyRecord): Promise<void> {
    await this.client.query({
      name: 'root_key',
      text: 'insert into custody_key (network_id, key_id, public_key, first_used_at) values ($1, $2, $3, $4) on conflict (network_id, key_id) do nothing',
      values: [this.networkId, keyId, publicKey, at(firstUsedAtMs)],
    });
  }

  async insert(root: SignedRoot, events: readonly WaitingEvent[], blocks: readonly LeafBlock[]): Promise<void> {
    await this.client.query({
      name: 'root_insert',
      text: `insert into custody_root (network_id, root_no, period_from, period_to, event_count, merkle_root, prev_root_hash, key_id, form, hash, signature)
             values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)`,
      values: [this.networkId, root.rootNo, at(root.fromMs), at(root.toMs), root.eventCount, root.merkleRoot, root.prevRootHash, root.keyId, root.v, root.hash, root.signature],
    });
    await this.client.query({
      name: 'root_events',
      text: `insert into custody_root_event (network_id, incident_id, chain_id, seq, root_no, leaf_index)
             select $1, e.incident_id, e.chain_id, e.seq, $2, e.place - 1
             from unnest($3::uuid[], $4::uuid[], $5::int[]) with ordinality as e (incident_id, chain_id, seq, place)`,
      values: [this.networkId, root.rootNo, events.map((event) => event.incidentId), events.map((event) => event.itemId), events.map((event) => event.seq)],
    });
    await this.client.query({
      name: 'root_blocks',
      text: `insert into custody_root_block (network_id, root_no, block_no, leaf_hashes, subtree)
             select $1, $2, b.place - 1, b.leaf_hashes, b.subtree from unnest($3::bytea[], $4::bytea[]) with ordinality as b (leaf_hashes, subtree, place)`,
      values: [this.networkId, root.rootNo, blocks.map(({ leaves }) => Buffer.concat(leaves)), blocks.map(({ subtree }) => Buffer.from(subtree))],
    });
  }

  async last(): Promise<SignedRoot | null> {
    const { rows } = await this.client.query<RootRow>({ name: 'root_last', text: `select ${ROOT} from custody_root where network_id = $1 order by root_no desc limit 1`, values: [this.networkId] });
    return rows[0] ? toRoot(rows[0]) : null;
  }

  async find(rootNo: number): Promise<SignedRoot | null> {
    return (await this.findMany([rootNo]))[0] ?? null;
  }

  async findMany(rootNos: readonly number[]): Promise<SignedRoot[]> {
    const { rows } = await this.client.query<RootRow>({ name: 'root_find', text: `select ${ROOT} from custody_root where network_id = $1 and root_no = any($2::int[]) order by root_no`, values: [this.networkId, rootNos] });
    return rows.map(toRoot);
  }

  async page(limit: number, afterNo: number): Promise<SignedRoot[]> {
    const { rows } = await this.client.query<RootRow>({ name: 'root_page', text: `select ${ROOT} from custody_root where network_id = $1 and root_no > $2 order by root_no limit $3`, values: [this.networkId, afterNo, limit] });
    return rows.map(toRoot);
  }

  async keys(): Promise<CustodyKeyRecord[]> {
    const { rows } = await this.client.query<{ key_id: string; public_key: string; first_used_at: Date }>({
      name: 'root_keys', text: 'select key_id, public_key, first_used_at from custody_key where network_id = $1 order by first_used_at, key_id', values: [this.networkId],
    });
    return rows.map((row) => ({ keyId: row.key_id, publicKey: row.public_key, firstUsedAtMs: row.first_used_at.getTime() }));
  }

  async rootsOf(itemId: string, afterSeq: number, upToSeq: number): Promise<EventRoot[]> {
    const { rows } = await this.client.query<{ seq: number; root_no: number; leaf_index: number }>({
      name: 'root_of_events',
      text: 'select seq, root_no, leaf_index from custody_root_event where network_id = $1 and chain_id = $2 and seq > $3 and seq <= $4 order by seq',
      values: [this.networkId, itemId, afterSeq, upToSeq],
    });
    return rows.map((row) => ({ seq: row.seq, rootNo: row.root_no, leafIndex: row.leaf_index }));
  }

  async block(rootNo: number, blockNo: number): Promise<Uint8Array[]> {
    const { rows } = await this.client.query<{ leaf_hashes: Buffer }>({
      name: 'root_block', text: 'select leaf_hashes from custody_root_block where network_id = $1 and root_no = $2 and block_no = $3', values: [this.networkId, rootNo, blockNo],
    });
    return rows[0] ? splitHashes(rows[0].leaf_hashes) : [];
  }

  async subtrees(rootNo: number): Promise<Uint8Array[]> {
    const { rows } = await this.client.query<{ subtree: Buffer }>({ name: 'root_subtrees', text: 'select subtree from custody_root_block where network_id = $1 and root_no = $2 order by block_no', values: [this.networkId, rootNo] });
    return rows.map(({ subtree }) => new Uint8Array(subtree));
  }
}
