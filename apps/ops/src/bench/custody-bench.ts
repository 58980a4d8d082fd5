import { createHash, randomUUID } from 'node:crypto';
import pg from 'pg';
import { beforeIntake, decide, evolve, isRefusal, verifyChain, type CustodyEvent, type Keeper } from '#custody';
import type { BenchClient, BenchWorld } from './world.js';

export interface BenchItem {
  id: string;
  seq: number;
  at: number;
  headHash: string;
}

/** Moves each client's own items to and fro between two waiting areas through HTTP for a time; answers commands per second. */
export async function custodyThroughHttp(client: BenchClient, world: BenchWorld, items: BenchItem[], connections: number, seconds: number): Promise<number> {
  const untilMs = Date.now() + seconds * 1_000;
  let done = 0;
  const worker = async (mine: BenchItem[]) => {
    for (let turn = 0; Date.now() < untilMs; turn += 1) {
      const item = mine[turn % mine.length];
      if (!item) return;
      const to = (item.at + 1) % world.holding.length;
      await client.call('POST', `/v1/items/${item.id}/custody-events`, { kind: 'moved', from: world.holding[item.at], to: world.holding[to] });
      item.at = to;
      done += 1;
    }
  };
  const startedMs = Date.now();
  await Promise.all(split(items, connections).map(worker));
  return (done * 1_000) / (Date.now() - startedMs);
}

/** The same statements with the same number of connections, and nothing else around them. */
export async function custodyThroughSql(appUrl: string, networkId: string, principalId: string, world: BenchWorld, items: BenchItem[], connections: number, seconds: number): Promise<number> {
  const pool = new pg.Pool({ connectionString: appUrl, max: connections });
  const untilMs = Date.now() + seconds * 1_000;
  let done = 0;
  const worker = async (mine: BenchItem[]) => {
    for (let turn = 0; Date.now() < untilMs; turn += 1) {
      const item = mine[turn % mine.length];
      if (!item) return;
      await oneMove(pool, networkId, principalId, world, item);
      done += 1;
    }
  };
  const startedMs = Date.now();
  await Promise.all(split(items, connections).map(worker));
  const rate = (done * 1_000) / (Date.now() - startedMs);
  await pool.end();
  return rate;
}

const APPEND = `with moved as (
    update item set seq = $4, head_hash = $19, keeper_kind = $9, keeper_id = $10, stage = $11, version = version + 1, updated_at = $14,
      hand_over_id = null, hand_over_to_kind = null, hand_over_to_id = null, disputed = false, missing = false, last_seen_at = greatest(last_seen_at, least($13::timestamptz, $14::timestamptz))
    where network_id = $1 and id = $3 and incident_id = $2 and seq = $4 - 1 and head_hash = $18 returning version
  ), written as (
    insert into custody_event (network_id, incident_id, item_id, seq, command_id, kind, from_kind, from_id, to_kind, to_id, stage, actor_id, occurred_at, recorded_at, refs, corrects_seq, corrects_reason, prev_hash, hash, form)
    select $1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15::jsonb, $16, $17, $18, $19, $20 from moved returning seq
  ) select moved.version from moved, written`;

async function oneMove(pool: pg.Pool, networkId: string, principalId: string, world: BenchWorld, item: BenchItem): Promise<void> {
  const [from, to] = [world.holding[item.at], world.holding[(item.at + 1) % world.holding.length]];
  if (!from || !to) throw new Error('the bench needs two waiting areas');
  const client = await pool.connect();
  const now = new Date();
  const key = randomUUID();
  const hash = createHash('sha256').update(`${item.headHash}${item.seq}`).digest('hex');
  try {
    await client.query(`begin; select set_config('app.network_id', '${networkId}', true), set_config('app.incident_id', '', true), set_config('app.principal_id', '${principalId}', true)`);
    await client.query({ name: 'begin_command', text: 'select verdict, status, body, headers from begin_command($1, $2, $3, $4)', values: [principalId, 'recordPassing', key, hash] });
    await client.query({ name: 'item_lock', text: 'select * from item where network_id = $1 and id = $2 for update', values: [networkId, item.id] });
    await client.query({
      name: 'place_holding',
      text: `select h.id, h.site_id, z.kind as zone, h.code, h.name, null::text[] as steps, null::int as capacity from holding_area h
             join zone z on z.network_id = h.network_id and z.id = h.zone_id where h.network_id = $1 and h.incident_id = $2 and h.id = $3`,
      values: [networkId, world.incidentId, to.id],
    });
    await client.query({
      name: 'custody_append',
      text: APPEND,
      values: [networkId, world.incidentId, item.id, item.seq + 1, randomUUID(), 'moved', from.kind, from.id, to.kind, to.id, 'waiting', principalId, now, now, '{}', null, null, item.headHash, hash, 1],
    });
    await client.query({
      name: 'finish_command',
      text: `insert into idempotency_record (network_id, principal_id, operation, idempotency_key, fingerprint, status, body, headers) values ($1, $2, $3, $4, $5, $6, $7, $8)`,
      values: [networkId, principalId, 'recordPassing', key, hash, 201, JSON.stringify({ itemId: item.id, hash, from, to, refs: {}, seq: item.seq }), '{}'],
    });
    await client.query('commit');
  } finally {
    client.release();
  }
  item.seq += 1;
  item.at = (item.at + 1) % world.holding.length;
  item.headHash = hash;
}

const CHAIN_LENGTH = 20;
const CHAINS = 100;

/** Events per second that `verifyChain` checks: every hash reckoned anew, every link, keeper and stage held against the one before. One thread. */
export function eventsVerifiedPerSecond(seconds: number): number {
  const chains = Array.from({ length: CHAINS }, (_, index) => movesToAndFro(`item-${index}`));
  const startedMs = performance.now();
  let checked = 0;
  while (performance.now() - startedMs < seconds * 1_000) {
    for (const chain of chains) {
      if (verifyChain(chain).length > 0) throw new Error('a sound chain has faults');
      checked += chain.length;
    }
  }
  return (checked * 1_000) / (performance.now() - startedMs);
}

function movesToAndFro(itemId: string): CustodyEvent[] {
  const events: CustodyEvent[] = [];
  let state = beforeIntake('network', itemId);
  while (events.length < CHAIN_LENGTH) {
    const to: Keeper = { kind: 'holding', id: `area-${events.length % 2}` };
    const kind = events.length === 0 ? ('taken-in' as const) : ('moved' as const);
    const outcome = decide(state, { kind, from: state.keeper, to, commandId: `${itemId}-${events.length}`, actorId: 'bench', occurredAtMs: 0, refs: { personId: 'bench' } }, 0);
    if (isRefusal(outcome)) throw new Error(outcome.text);
    events.push(outcome);
    state = evolve(state, outcome);
  }
  return events;
}

function split<T>(list: T[], parts: number): T[][] {
  return Array.from({ length: parts }, (_, part) => list.filter((_entry, index) => index % parts === part));
}
