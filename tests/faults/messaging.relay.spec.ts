import { afterAll, beforeAll, beforeEach, describe, expect, test } from '@jest/globals';
import type { OutboxTicket } from '#application';
import { PgOutboxRelay, type Pool, createPool, relayFaults } from '#persistence';
import { backOffMs, doorbellJobId, inTurns, readDoorbell } from '#messaging';
import { newId } from '#platform';
import { Bench, type Tenant, until } from './messaging.harness.js';

const LIMITS = { perNetwork: 10, maxTries: 8, leaseMs: 60_000 };

describe('the relay on the outbox', () => {
  let bench: Bench;
  let pool: Pool;
  let relay: PgOutboxRelay;

  beforeAll(async () => {
    bench = await Bench.open('PostgreSQL');
    pool = createPool({ connectionString: bench.database.relayUrl, max: 8, applicationName: 'test-relay', onError: () => undefined });
    relay = new PgOutboxRelay(pool);
  });
  afterAll(async () => {
    await pool.end();
    await bench.close();
  });
  beforeEach(() => bench.database.admin.query('truncate outbox'));

  async function oneRow(): Promise<{ tenant: Tenant; ticket: OutboxTicket }> {
    const tenant = await bench.tenant();
    await bench.append(tenant, 1);
    const ticket = (await relay.lease(LIMITS))[0];
    if (!ticket) throw new Error('no ticket');
    return { tenant, ticket };
  }

  /** Lets the lease of every row end without waiting for it. */
  const endLeases = () => bench.database.admin.query("update outbox set leased_until = clock_timestamp() - interval '1 second'");

  test('leases the oldest rows of every network, no more of one than its share', async () => {
    const [large, small] = [await bench.tenant(), await bench.tenant()];
    const ids = await bench.append(large, 40);
    await bench.append(small, 3);
    const tickets = await relay.lease(LIMITS);
    expect(tickets.filter((ticket) => ticket.networkId === small.networkId)).toHaveLength(3);
    expect(tickets.filter((ticket) => ticket.networkId === large.networkId).map((ticket) => ticket.outboxId).sort()).toEqual(ids.slice(0, 10));
    expect(await relay.lease(LIMITS)).toEqual([]);
  });

  test('relays that look at the same moment together lease no more than the share and no row twice', async () => {
    const tenants = [await bench.tenant(), await bench.tenant(), await bench.tenant()];
    for (const tenant of tenants) await bench.append(tenant, 50);
    const looks = await Promise.all(Array.from({ length: 8 }, () => relay.lease(LIMITS)));
    const leased = looks.flat().map((ticket) => ticket.outboxId);
    expect(new Set(leased).size).toBe(leased.length);
    expect(leased).toHaveLength(30);
  });

  test('a lease that ends makes the row due again under the same number, because no run has begun', async () => {
    const { ticket } = await oneRow();
    await endLeases();
    expect(await relay.lease(LIMITS)).toEqual([ticket]);
    expect(doorbellJobId(ticket)).toBe(`ob-${ticket.outboxId}-0`);
  });

  test('only one run begins on a ticket, and a begun run takes the next number', async () => {
    const { ticket } = await oneRow();
    const begun = await Promise.all(Array.from({ length: 6 }, () => relay.begin(ticket, 60_000)));
    expect(begun.filter(Boolean)).toHaveLength(1);
    expect(await bench.count('tries = 1 and leased_until > clock_timestamp()')).toBe(1);
  });

  test('a run that was overtaken can neither prolong nor postpone the row', async () => {
    const { ticket } = await oneRow();
    const first = { ...ticket, tries: 1 };
    expect(await relay.begin(ticket, 60_000)).toBe(true);
    expect(await relay.renew(first, 60_000)).toBe(true);
    await endLeases();
    const again = (await relay.lease(LIMITS))[0];
    expect(again).toEqual(first);
    expect(await relay.begin(first, 60_000)).toBe(true);
    expect(await relay.renew(first, 60_000)).toBe(false);
    expect(await relay.postpone([first], 5)).toBe(0);
    expect(await relay.renew({ ...ticket, tries: 2 }, 60_000)).toBe(true);
  });

  test('a row of another network is reached by no pair of ids but its own', async () => {
    const { ticket } = await oneRow();
    const other = await bench.tenant();
    const forged = { ...ticket, networkId: other.networkId };
    expect(await relay.begin(forged, 60_000)).toBe(false);
    expect(await relay.renew(forged, 60_000)).toBe(false);
    expect(await relay.bury(forged, 'forged')).toBe(false);
    expect(await bench.count('tries = 0 and dead_at is null')).toBe(1);
  });

  test('rows done, dead or out of tries are not leased; those out of tries are shown once their lease has ended', async () => {
    const tenant = await bench.tenant();
    const [done, dead, spent, open] = await bench.append(tenant, 4);
    await bench.database.admin.query('update outbox set done_at = now() where id = $1', [done]);
    await bench.database.admin.query('update outbox set dead_at = now() where id = $1', [dead]);
    await bench.database.admin.query("update outbox set tries = 8, leased_until = clock_timestamp() + interval '1 minute' where id = $1", [spent]);
    expect((await relay.lease(LIMITS)).map((ticket) => ticket.outboxId)).toEqual([open]);
    expect(await relay.exhausted(8, 10)).toEqual([]);
    await endLeases();
    const exhausted = await relay.exhausted(8, 10);
    expect(exhausted.map(({ message }) => message.id)).toEqual([spent]);
    expect(await relay.bury({ networkId: tenant.networkId, outboxId: String(spent), tries: 8 }, 'tried often enough')).toBe(true);
    expect(await bench.count("id = $1 and dead_at is not null and dead_reason = 'tried often enough'", [spent])).toBe(1);
    expect(await relay.exhausted(8, 10)).toEqual([]);
  });

  test('a row whose transaction is open or rolled back is never rung for', async () => {
    const tenant = await bench.tenant();
    const client = await bench.database.admin.connect();
    await client.query('begin');
    await client.query("insert into outbox (network_id, id, incident_id, kind, subject_id) values ($1, $2, $3, 'plan.requested', $2)", [tenant.networkId, newId(), tenant.incidentId]);
    expect(await relay.lease(LIMITS)).toEqual([]);
    await client.query('rollback');
    client.release();
    expect(await relay.lease(LIMITS)).toEqual([]);
  });

  test('the login of the relay sees the outbox of all networks and nothing of theirs beside it', async () => {
    expect(await relayFaults(pool)).toEqual([]);
    await expect(pool.query('select * from item')).rejects.toMatchObject({ code: '42501' });
    await expect(pool.query('select * from household_contact')).rejects.toMatchObject({ code: '42501' });
  });

  test('removes rows that were done long enough ago, the oldest first and no more than asked for, and never one that is not done', async () => {
    const tenants = [await bench.tenant(), await bench.tenant()];
    const ids = (await Promise.all(tenants.map((tenant) => bench.append(tenant, 4)))).flat();
    const set = (change: string, id = '') => bench.database.admin.query(`update outbox set ${change} where id = $1`, [id]);
    const [oldest, old, fresh, open, dead, leased] = ids;
    await bench.database.admin.query("update outbox set created_at = now() - interval '30 days'");
    await set("done_at = now() - interval '9 days'", oldest);
    await set("done_at = now() - interval '8 days'", old);
    await set("done_at = now() - interval '6 days'", fresh);
    await set("dead_at = now() - interval '20 days'", dead);
    await set("leased_until = now() - interval '20 days', tries = 8", leased);
    const there = async () => new Set((await bench.database.admin.query<{ id: string }>('select id from outbox')).rows.map((row) => row.id));
    expect(await relay.prune(7 * 86_400_000, 1)).toBe(1);
    expect((await there()).has(String(oldest))).toBe(false);
    expect((await there()).has(String(old))).toBe(true);
    expect(await relay.prune(7 * 86_400_000, 100)).toBe(1);
    expect(await there()).toEqual(new Set(ids.filter((id) => id !== oldest && id !== old)));
    expect(await relay.prune(0, 100)).toBe(1);
    expect(await there()).toEqual(new Set(ids.filter((id) => id !== oldest && id !== old && id !== fresh)));
    expect((await there()).has(String(open))).toBe(true);
  });

  test('removes no more rows than asked for, whichever way the planner joins them', async () => {
    for (const join of ['nestloop', 'hashjoin', 'mergejoin']) {
      await bench.append(await bench.tenant(), 8);
      await bench.database.admin.query('analyze outbox');
      await bench.database.admin.query("update outbox set done_at = now() - interval '9 days'");
      const others = ['nestloop', 'hashjoin', 'mergejoin', 'memoize', 'material', 'indexscan', 'indexonlyscan', 'bitmapscan'].filter((name) => name !== join).map((name) => `-c enable_${name}=off`);
      const url = new URL(bench.database.relayUrl);
      url.searchParams.set('options', others.join(' '));
      const oneWay = createPool({ connectionString: url.toString(), max: 1, applicationName: 'test-relay-join', onError: () => undefined });
      try {
        const { rows } = await oneWay.query<{ setting: string }>(`select current_setting('enable_${join}') || current_setting('enable_memoize') as setting`);
        expect(rows[0]?.setting).toBe('onoff');
        expect(await new PgOutboxRelay(oneWay).prune(86_400_000, 1)).toBe(1);
        expect(await bench.count('true')).toBe(7);
      } finally {
        await oneWay.end();
      }
      await bench.database.admin.query('truncate outbox');
    }
  });

  test('relays that prune at the same moment remove each row once', async () => {
    await bench.append(await bench.tenant(), 60);
    await bench.database.admin.query("update outbox set done_at = now() - interval '9 days'");
    const removed = await Promise.all(Array.from({ length: 6 }, () => relay.prune(86_400_000, 20)));
    expect(removed.reduce((sum, count) => sum + count, 0) + (await bench.count('true'))).toBe(60);
    await relay.prune(86_400_000, 100);
    expect(await bench.count('true')).toBe(0);
  });

  test('forgets answers to commands after their time, as many as asked for, and never one of the last day', async () => {
    const { networkId } = await bench.tenant();
    const answered = async (ago: string) => {
      const key = newId();
      await bench.database.admin.query("insert into idempotency_record (network_id, principal_id, operation, idempotency_key, fingerprint, status, body, headers, created_at) values ($1, $1, 'o', $2, 'f', 201, '{}', '{}', now() - $3::interval)", [networkId, key, ago]);
      return key;
    };
    const [, , kept, young] = [await answered('40 days'), await answered('31 days'), await answered('29 days'), await answered('1 hour')];
    const there = async () => new Set((await bench.database.admin.query<{ key: string }>('select idempotency_key as key from idempotency_record where network_id = $1', [networkId])).rows.map(({ key }) => key));
    expect(await relay.forgetAnswers(30 * 86_400_000, 1)).toBe(1);
    expect(await relay.forgetAnswers(30 * 86_400_000, 100)).toBe(1);
    expect(await there()).toEqual(new Set([kept, young]));
    expect(await relay.forgetAnswers(0, 100)).toBe(1);
    expect(await there()).toEqual(new Set([young]));
  });

  test('tells how many rows are open and dead and how long the oldest open one waits', async () => {
    expect(await relay.standing()).toEqual({ open: 0, oldestOpenAgeS: null, dead: 0 });
    const [waits, done, dead] = await bench.append(await bench.tenant(), 3);
    await bench.append(await bench.tenant(), 1);
    await bench.database.admin.query("update outbox set created_at = now() - interval '2 hours' where id = $1", [waits]);
    await bench.database.admin.query("update outbox set created_at = now() - interval '3 hours', done_at = now() where id = $1", [done]);
    await bench.database.admin.query("update outbox set created_at = now() - interval '4 hours', dead_at = now() where id = $1", [dead]);
    const standing = await relay.standing();
    expect(standing).toMatchObject({ open: 2, dead: 1 });
    expect(Math.floor((standing.oldestOpenAgeS ?? 0) / 3_600)).toBe(2);
  });

  test('the application login is refused as relay, and so is one that could bypass the policies', async () => {
    const app = createPool({ connectionString: bench.database.appUrl, max: 1, applicationName: 'test', onError: () => undefined });
    expect((await relayFaults(app)).join(' ')).toContain('DATABASE_RELAY_URL');
    await app.end();
    expect((await relayFaults(bench.database.admin)).join(' ')).toContain('bypass row-level security');
  });

  test('a look at 20 000 waiting rows reads only the few it leases', async () => {
    const tenant = await bench.tenant();
    await bench.database.admin.query(
      "insert into outbox (network_id, id, incident_id, kind, subject_id) select $1, uuidv7(), $2, 'plan.requested', uuidv7() from generate_series(1, 20000)",
      [tenant.networkId, tenant.incidentId],
    );
    await bench.database.admin.query('vacuum analyze outbox');
    const single = createPool({ connectionString: bench.database.relayUrl, max: 1, applicationName: 'test-relay-cost', onError: () => undefined });
    const rowsRead = async () => {
      const { rows } = await bench.database.admin.query<{ n: string }>("select coalesce(seq_tup_read, 0) + coalesce(idx_tup_fetch, 0) as n from pg_stat_user_tables where relname = 'outbox'");
      return Number(rows[0]?.n);
    };
    // A connection hands in what it has read when it ends, and otherwise some seconds after its last statement, which may be in the middle of this.
    await bench.database.admin.query("select pg_terminate_backend(pid, 10000) from pg_stat_activity where datname = current_database() and backend_type = 'client backend' and pid <> pg_backend_pid()");
    await bench.database.admin.query('select pg_stat_force_next_flush()');
    const before = await rowsRead();
    await single.query('select pg_stat_force_next_flush()');
    expect(await new PgOutboxRelay(single).lease(LIMITS)).toHaveLength(10);
    await single.end();
    await until('the statistics are written', async () => (await rowsRead()) > before);
    expect((await rowsRead()) - before).toBeLessThan(200);
  });
});

describe('doorbells', () => {
  const [networkId, outboxId] = [newId(), newId()];

  test('a doorbell survives the way through the queue', () => {
    const ticket = { networkId, outboxId, tries: 3 };
    expect(readDoorbell({ jobId: doorbellJobId(ticket), data: { networkId, outboxId } })).toEqual(ticket);
  });

  test.each([
    ['no data', `ob-${outboxId}-0`, null],
    ['a text', `ob-${outboxId}-0`, 'ring'],
    ['no network', `ob-${outboxId}-0`, { outboxId }],
    ['an id that is SQL', `ob-${outboxId}-0`, { networkId: "' or true --", outboxId }],
    ['a job id of another row', `ob-${newId()}-0`, { networkId, outboxId }],
    ['a job id of another form', 'clean-up', { networkId, outboxId }],
  ])('a job with %s is no doorbell', (_what, jobId, data) => {
    expect(readDoorbell({ jobId, data })).toBeNull();
  });

  test('rings go round the networks, so that a short list is not behind a long one', () => {
    const long = Array.from({ length: 5 }, () => ({ networkId, outboxId: newId(), tries: 0 }));
    const short = { networkId: newId(), outboxId: newId(), tries: 0 };
    const order = inTurns([...[...long].reverse(), short]);
    expect(order).toHaveLength(6);
    expect(order.slice(0, 2)).toEqual(expect.arrayContaining([long[0], short]));
    expect(order.filter((ticket) => ticket.networkId === networkId)).toEqual(long);
  });

  test('the delay after a failed run doubles up to its cap and never falls below half of that', () => {
    const tuning = { backOffBaseMs: 2_000, backOffCapMs: 60_000 };
    expect([1, 2, 3, 4, 5, 6, 7].map((run) => backOffMs(tuning, run, () => 1))).toEqual([2_000, 4_000, 8_000, 16_000, 32_000, 60_000, 60_000]);
    expect([1, 5, 7].map((run) => backOffMs(tuning, run, () => 0))).toEqual([1_000, 16_000, 30_000]);
  });
});
