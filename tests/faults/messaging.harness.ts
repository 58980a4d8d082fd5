import { type ChildProcess, fork, spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Writable } from 'node:stream';
import { setTimeout as sleep } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { Redis } from 'ioredis';
import pg from 'pg';
import { pino } from 'pino';
import { type Config, type Logger, freePort, loadConfig, newId } from '#platform';
import { type TestDatabase, TEST_MASTER_KEY, createEmptyDatabase, createTestDatabase } from '#testing';

export type QueueName = 'PostgreSQL' | 'Redis';

/** The queues this machine can test: the Redis half needs `redis-server` on the path, and CI insists on it. */
export const QUEUES: QueueName[] = hasRedis() ? ['PostgreSQL', 'Redis'] : ['PostgreSQL'];

function hasRedis(): boolean {
  const found = spawnSync('redis-server', ['--version']).status === 0;
  if (!found && process.env['WRACKLINE_TEST_REDIS'] === 'required') throw new Error('redis-server is not on the path. Install it, or unset WRACKLINE_TEST_REDIS to test the PostgreSQL queue only.');
  return found;
}

/** A queue of its own for one bench, with the ways to lose it. */
export interface TestQueue {
  env: Record<string, string>;
  config: { redisUrl: string | null; queueDatabaseUrl: string | null };
  /** Throws everything in the queue away while it runs. */
  empty(): Promise<void>;
  close(): Promise<void>;
}

/** A Redis server that keeps nothing on disk. */
export class TestRedis implements TestQueue {
  #server: ChildProcess | null = null;

  private constructor(
    private readonly folder: string,
    readonly port: number,
  ) {}

  static async start(): Promise<TestRedis> {
    const redis = new TestRedis(await mkdtemp(join(tmpdir(), 'wl-redis-')), await freePort());
    await redis.up();
    return redis;
  }

  get url(): string {
    return `redis://127.0.0.1:${this.port}`;
  }

  get env(): Record<string, string> {
    return { REDIS_URL: this.url };
  }

  get config(): TestQueue['config'] {
    return { redisUrl: this.url, queueDatabaseUrl: null };
  }

  async up(): Promise<void> {
    this.#server = spawn('redis-server', ['--port', String(this.port), '--bind', '127.0.0.1', '--dir', this.folder, '--save', '', '--maxmemory-policy', 'noeviction'], { stdio: 'ignore' });
    const client = new Redis(this.url, { retryStrategy: () => 50, maxRetriesPerRequest: null });
    client.on('error', () => undefined);
    await client.ping();
    client.disconnect();
  }

  /** Ends the server at once; what it held is gone. */
  async kill(): Promise<void> {
    const server = this.#server;
    if (!server || server.exitCode !== null) return;
    const gone = once(server, 'exit');
    server.kill('SIGKILL');
    await gone;
  }

  async empty(): Promise<void> {
    const client = new Redis(this.url);
    await client.flushall();
    client.disconnect();
  }

  async close(): Promise<void> {
    await this.kill();
    await rm(this.folder, { recursive: true, force: true });
  }
}

async function postgresQueue(): Promise<TestQueue> {
  const database = await createEmptyDatabase();
  return {
    env: { QUEUE_DATABASE_URL: database.url },
    config: { redisUrl: null, queueDatabaseUrl: database.url },
    async empty() {
      const client = new pg.Client({ connectionString: database.url });
      await client.connect();
      const { rows } = await client.query<{ there: boolean }>("select to_regclass('bullmq.job') is not null as there");
      if (rows[0]?.there) await client.query('delete from bullmq.job; delete from bullmq.event');
      await client.end();
    },
    close: () => database.drop(),
  };
}

/** A network with one incident: enough for an outbox row and its effect. */
export interface Tenant {
  networkId: string;
  incidentId: string;
}

/** Everything one spec needs: a database, a queue, rows, and counts of what became of them. */
export class Bench {
  readonly log: string[] = [];
  readonly #children: ChildProcess[] = [];

  private constructor(
    readonly database: TestDatabase,
    readonly queue: TestQueue,
  ) {}

  static async open(name: QueueName): Promise<Bench> {
    return new Bench(await createTestDatabase(), name === 'Redis' ? await TestRedis.start() : await postgresQueue());
  }

  get env(): Record<string, string> {
    return { WRACKLINE_LOG: 'warn', WRACKLINE_MASTER_KEY: TEST_MASTER_KEY, DATABASE_URL: this.database.appUrl, DATABASE_RELAY_URL: this.database.relayUrl, ...this.queue.env };
  }

  config(changed: Partial<Config> = {}): Config {
    return { ...loadConfig(this.env), ...changed };
  }

  /** A logger whose lines the test can read. */
  logger(): Logger {
    const log = this.log;
    const sink = new Writable({
      write(chunk: Buffer, _encoding, done) {
        log.push(chunk.toString('utf8'));
        done();
      },
    });
    return pino({ level: 'debug' }, sink);
  }

  async tenant(): Promise<Tenant> {
    const tenant = { networkId: newId(), incidentId: newId() };
    await this.database.admin.query("insert into network (network_id, name, created_at) values ($1, 'Test network', now())", [tenant.networkId]);
    await this.database.admin.query(
      "insert into incident (network_id, id, name, flood_at, created_at, updated_at) values ($1, $2, 'Test flood', now(), now(), now())",
      [tenant.networkId, tenant.incidentId],
    );
    return tenant;
  }

  /** Appends rows as the API does: below the policy of the network, in a transaction, without telling the queue. */
  async append(tenant: Tenant, count: number, kind: 'plan.requested' | 'intake_import.submitted' = 'plan.requested'): Promise<string[]> {
    const ids = Array.from({ length: count }, () => newId());
    const client = new pg.Client({ connectionString: this.database.appUrl });
    await client.connect();
    await client.query('begin');
    await client.query("select set_config('app.network_id', $1, true)", [tenant.networkId]);
    await client.query('insert into outbox (network_id, id, incident_id, kind, subject_id) select $1, u.id, $2, $3, u.id from unnest($4::uuid[]) as u (id)', [tenant.networkId, tenant.incidentId, kind, ids]);
    await client.query('commit');
    await client.end();
    return ids;
  }

  async count(where: string, values: unknown[] = []): Promise<number> {
    const { rows } = await this.database.admin.query<{ n: string | number }>(`select count(*) as n from outbox where ${where}`, values);
    return Number(rows[0]?.n);
  }

  /** How often the effect of each row took place, by outbox id; see `effect` in messaging.effect.mjs. */
  async effects(): Promise<Map<string, number>> {
    const { rows } = await this.database.admin.query<{ outbox_id: string; n: string | number }>("select split_part(code, '/', 1) as outbox_id, count(*) as n from household group by 1");
    return new Map(rows.map((row) => [row.outbox_id, Number(row.n)]));
  }

  /** A worker process of the built program, with the handlers of messaging.worker.mjs. */
  startChild(options: { handlerMs: number; holdAfter?: number; tuning: Record<string, number> }): Promise<ChildProcess> {
    return this.#start(new URL('./messaging.worker.mjs', import.meta.url), [JSON.stringify(options)]);
  }

  /** The worker process as `npm start` starts it. */
  startProgram(): Promise<ChildProcess> {
    return this.#start(new URL('../../dist/apps/worker/src/main.js', import.meta.url), []);
  }

  async #start(script: URL, args: string[]): Promise<ChildProcess> {
    const child = fork(fileURLToPath(script), args, { env: { PATH: process.env['PATH'] ?? '', ...this.env }, execArgv: [], stdio: ['ignore', 'inherit', 'inherit', 'ipc'] });
    this.#children.push(child);
    const started = await Promise.race([once(child, 'message').then(() => true), once(child, 'exit').then(() => false)]);
    if (!started) throw new Error('the worker process ended before it was ready');
    return child;
  }

  /** Forgets rows, jobs, effects and log lines, and ends the child processes, for the next test. */
  async clear(): Promise<void> {
    await this.#endChildren();
    await this.database.admin.query('delete from outbox; delete from household_word; delete from household_contact; delete from household_key; delete from household; delete from plan_run; delete from plan_ground; delete from plan_revision');
    await this.queue.empty();
    this.log.length = 0;
  }

  async #endChildren(): Promise<void> {
    for (const child of this.#children.splice(0)) {
      if (child.exitCode !== null || child.signalCode !== null) continue;
      const gone = once(child, 'exit');
      child.kill('SIGKILL');
      await gone;
    }
  }

  async close(): Promise<void> {
    await this.#endChildren();
    await this.queue.close();
    await this.database.drop();
  }
}

/** For what does not come at all. What comes is seen at once, on a busy machine as well. */
const IN_VAIN_MS = 90_000;

/** Waits for a condition of the database; fails with what was waited for. */
export async function until(what: string, holds: () => Promise<boolean>): Promise<void> {
  const deadlineMs = Date.now() + IN_VAIN_MS;
  while (!(await holds())) {
    if (Date.now() > deadlineMs) throw new Error(`not within ${IN_VAIN_MS} ms: ${what}`);
    await sleep(25);
  }
}
