import { setTimeout as pause } from 'node:timers/promises';
import pg from 'pg';
import type { CustodyEvent, ItemCustody, Keeper } from '#custody';
import type { StoredHistory } from '#testing/salvage';
import { workerContext } from '#messaging';
import { createPool, PgUnitOfWork } from '#persistence';
import { parseMasterKeys } from '#platform';
import type { SoakNetwork } from './tablets.js';

/** Seals personal data of a run; worth nothing elsewhere. */
export const SOAK_MASTER_KEY = `1:${Buffer.alloc(32, 9).toString('base64')}`;

const POLL_MS = 150;

/** Waits until no work is due any more; questions to a family that still gather for one message are not. @throws Error when some is left after the time given, milliseconds */
export async function untilDrained(ownerUrl: string, withinMs: number): Promise<void> {
  const untilMs = performance.now() + withinMs;
  const client = new pg.Client({ connectionString: ownerUrl });
  await client.connect();
  try {
    for (;;) {
      const { rows } = await client.query<{ due: number; dead: number; kinds: string | null }>(
        `select count(*) filter (where done_at is null and dead_at is null)::int as due, count(*) filter (where dead_at is not null)::int as dead,
           string_agg(distinct kind, ', ') filter (where done_at is null) as kinds
         from outbox where not_before is null and kind <> 'custody.root' and not (kind = 'family.look' and tries = 0 and coalesce(leased_until > clock_timestamp(), false))`,
      );
      const { due = 0, dead = 0, kinds } = rows[0] ?? {};
      if (dead > 0) throw new Error(`the worker gave up ${dead} rows of the outbox (${kinds})`);
      if (due === 0) return;
      if (performance.now() > untilMs) throw new Error(`${due} rows of the outbox are still due (${kinds})`);
      await pause(POLL_MS);
    }
  } finally {
    await client.end();
  }
}

interface EventRow {
  network_id: string; item_id: string; seq: number; command_id: string; kind: CustodyEvent['kind']; from_kind: Keeper['kind'] | null; from_id: string | null; to_kind: Keeper['kind']; to_id: string;
  stage: CustodyEvent['stage']; actor_id: string; occurred_at: Date; recorded_at: Date; refs: Record<string, string>; corrects_seq: number | null; corrects_reason: string | null; prev_hash: string; hash: string; form: 1;
}

function toEvent(row: EventRow): CustodyEvent {
  return {
    v: row.form, networkId: row.network_id, itemId: row.item_id, seq: row.seq, commandId: row.command_id, kind: row.kind,
    from: row.from_kind === null ? null : { kind: row.from_kind, id: row.from_id ?? '' }, to: { kind: row.to_kind, id: row.to_id }, stage: row.stage, actorId: row.actor_id,
    occurredAtMs: row.occurred_at.getTime(), recordedAtMs: row.recorded_at.getTime(), refs: row.refs,
    corrects: row.corrects_seq === null ? null : { seq: row.corrects_seq, reason: row.corrects_reason ?? '' }, prevHash: row.prev_hash, hash: row.hash,
  };
}

/** Why each event happened, in the words of the clients, opened with the key of the run. */
async function reasonsOf(ownerUrl: string, networks: readonly SoakNetwork[]): Promise<Map<string, string>> {
  const pool = createPool({ connectionString: ownerUrl, max: 1, applicationName: 'wrackline-soak', onError: () => undefined });
  try {
    const work = new PgUnitOfWork(pool, parseMasterKeys(SOAK_MASTER_KEY, 'soak'));
    const reasons = new Map<string, string>();
    for (const { networkId, items } of networks) {
      await work.read(workerContext(networkId, 'soak', ''), async (stores) => {
        for (const { id } of items) {
          const chain = await stores.custody.chain(id, 0, 1_000_000);
          for (const [seq, words] of await stores.custody.wordsOf(id, chain.map((event) => event.seq))) if (words.reason) reasons.set(`${id}|${seq}`, words.reason.text);
        }
      });
    }
    return reasons;
  } finally {
    await pool.end();
  }
}

/** All that the database holds of the run, read as its owner, past the service. */
export async function readStored(ownerUrl: string, networks: readonly SoakNetwork[]): Promise<StoredHistory> {
  const client = new pg.Client({ connectionString: ownerUrl });
  await client.connect();
  try {
    const reasons = await reasonsOf(ownerUrl, networks);
    const events = (await client.query<EventRow>('select * from custody_event')).rows.map(toEvent).map((event) => ({ ...event, told: reasons.get(`${event.itemId}|${event.seq}`) }));
    const heads = await client.query<{ network_id: string; id: string; seq: number; head_hash: string; keeper_kind: Keeper['kind']; keeper_id: string; stage: ItemCustody['stage'] }>(
      'select network_id, id, seq, head_hash, keeper_kind, keeper_id, stage from item',
    );
    const ledger = await client.query<{ itemId: string; seq: number }>(
      'select chain_id as "itemId", seq from custody_root_waiting union all select chain_id, seq from custody_root_event',
    );
    const effects = await client.query<{ subject_id: string; done_at: Date | null }>(`select subject_id, done_at from outbox where kind = 'climate.readings'`);
    return {
      events,
      heads: heads.rows.map((row) => ({ networkId: row.network_id, itemId: row.id, seq: row.seq, headHash: row.head_hash, keeper: { kind: row.keeper_kind, id: row.keeper_id }, stage: row.stage, matters: { handOver: null, disputed: false, missing: false } })),
      before: new Map(networks.flatMap(({ items }) => items.map(({ id, seq }) => [id, seq] as const))),
      ledger: ledger.rows,
      watched: new Set(networks.flatMap(({ freezers }) => freezers.map(({ id }) => id))),
      effects: effects.rows.map((row) => ({ subjectId: row.subject_id, doneAtMs: row.done_at?.getTime() ?? null })),
    };
  } finally {
    await client.end();
  }
}
