import { randomUUID } from 'node:crypto';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, jest, test } from '@jest/globals';
import { SCOPES } from '#contracts';
import { freePort, loadConfig, makeApiKey, newId } from '#platform';
import { createEmptyDatabase, createTestDatabase, incidentDocument, indexLayout, type IncidentOnTest, TEST_MASTER_KEY, type TestDatabase } from '#testing';
import { type RunningProcesses, startProcesses } from '../../apps/ops/src/processes.js';
import { QUEUES, TestRedis, type QueueName } from '../faults/messaging.harness.js';

// Each wait inside is bounded by itself; this only keeps a busy machine from failing a sound run.
jest.setTimeout(300_000);

/** Two API and two worker processes on one database, as compose would run them, on each queue that this machine has. */
describe.each(QUEUES)('two API and two worker processes on the %s queue', (queue: QueueName) => {
  let database: TestDatabase;
  let queueDatabase: { url: string; drop(): Promise<void> } | null = null;
  let redis: TestRedis | null = null;
  let running: RunningProcesses;
  let key: string;
  let incident: IncidentOnTest;
  let turn = 0;

  /** Every call goes to the other API, and is sent again with the same key until its answer is definite. */
  async function call<T>(method: string, path: string, body?: unknown, type = 'application/json'): Promise<T> {
    const command = randomUUID();
    for (let tries = 0; tries < 240; tries += 1) {
      const url = running.urls[(turn += 1) % running.urls.length] ?? '';
      const answer = await fetch(`${url}${path}`, {
        method,
        headers: { authorization: `Bearer ${key}`, ...(method === 'GET' ? {} : { 'idempotency-key': command, 'content-type': type }) },
        ...(body === undefined ? {} : { body: typeof body === 'string' ? body : JSON.stringify(body) }),
      }).catch(() => null);
      if (answer && answer.status < 300) return (await answer.json()) as T;
      if (answer && answer.status < 500 && answer.status !== 429) {
        const problem = (await answer.json()) as { code: string };
        if (problem.code !== 'command_running') throw new Error(`${method} ${path}: ${JSON.stringify(problem)}`);
      }
      await sleep(250);
    }
    throw new Error(`${method} ${path}: no definite answer`);
  }

  async function until<T>(read: () => Promise<T>, done: (value: T) => boolean): Promise<T> {
    for (let tries = 0; tries < 1600; tries += 1) {
      const value = await read();
      if (done(value)) return value;
      await sleep(150);
    }
    throw new Error('it did not come to an end');
  }

  const tags = async (count: number) => (await call<{ tags: string[] }>('POST', `/v1/incidents/${incident.id}/tag-blocks`, { kind: 'item', count, reservedFor: 'spine' })).tags;
  const csvOf = (codes: string[], household: string) => ['tag,household,contactName,object,material,consentTreat,consentFreeze', ...codes.map((tag, n) => `${tag},${household},Somebody,letter ${n},letter,yes,yes`)].join('\n');
  const importOf = (csv: string, name: string) => call<{ id: string; state: string }>('POST', `/v1/incidents/${incident.id}/intake-imports?siteId=${incident.site()}&fileName=${name}`, csv, 'text/csv');
  const importEnd = (id: string) => until(() => call<{ state: string; accepted: number; repaired: number; refused: number; alreadyThere: number }>('GET', `/v1/intake-imports/${id}`), (state) => state.state === 'done' || state.state === 'failed');

  beforeAll(async () => {
    database = await createTestDatabase();
    if (queue === 'Redis') redis = await TestRedis.start();
    else queueDatabase = await createEmptyDatabase();
    const made = makeApiKey();
    const networkId = newId();
    await database.admin.query('insert into network (network_id, name, created_at) values ($1, $2, now())', [networkId, 'Spine']);
    await database.admin.query(
      `insert into api_key (network_id, id, prefix, secret_sha256, label, scopes, expires_at, created_at) values ($1, $2, $3, $4, 'spine', $5, now() + interval '1 day', now())`,
      [networkId, newId(), made.prefix, made.secretSha256, SCOPES],
    );
    key = made.text;
    const config = {
      ...loadConfig({ WRACKLINE_LOG: 'error', WRACKLINE_MASTER_KEY: TEST_MASTER_KEY, WRACKLINE_CURSOR_SECRET: 'a cursor secret for the spine tests' }),
      port: await freePort(), databaseUrl: database.appUrl, relayDatabaseUrl: database.relayUrl, redisUrl: redis?.url ?? null, queueDatabaseUrl: queueDatabase?.url ?? null, poolSize: 5,
    };
    running = await startProcesses(config, { apis: 2, workers: 2 }, () => undefined);
    // The small incident of the tests is open for two days from its flood; here the clock is the machine's.
    const shifted = JSON.parse(JSON.stringify(incidentDocument()), (_, value: unknown) => (typeof value === 'string' && /^2026-05-\d\dT/.test(value) ? new Date(Date.parse(value) - Date.parse('2026-05-09T10:00:00Z') + Date.now()).toISOString() : value)) as object;
    const created = await call<{ id: string }>('POST', '/v1/incidents', shifted);
    incident = indexLayout(created.id, await call('GET', `/v1/incidents/${created.id}/layout`));
  }, 300_000);

  afterAll(async () => {
    await running?.stop();
    await database?.drop();
    await queueDatabase?.drop();
    await redis?.close();
  }, 200_000);

  test('a file is taken in once, also when it is sent twice', async () => {
    const csv = csvOf(await tags(30), 'HH-1');
    const first = await importOf(csv, 'first.csv');
    expect(await importEnd(first.id)).toMatchObject({ state: 'done', refused: 0 });
    expect((await importOf(csv, 'again.csv')).id).toBe(first.id);
    const page = await call<{ items: unknown[] }>('GET', `/v1/incidents/${incident.id}/items?limit=200`);
    expect(page.items).toHaveLength(30);
  });

  test('a plan is made by a worker and its work lists say what is next, where and what to wear', async () => {
    const run = await call<{ id: string }>('POST', `/v1/incidents/${incident.id}/plan-runs`, {});
    const ended = await until(() => call<{ state: string; failure: string | null }>('GET', `/v1/plan-runs/${run.id}`), (value) => value.state === 'done' || value.state === 'failed');
    expect(ended).toMatchObject({ state: 'done', failure: null });
    const plan = await call<{ number: number; plannedItems: number; slotMinutes: number }>('GET', `/v1/incidents/${incident.id}/plan`);
    expect(plan.number).toBeGreaterThan(0);
    expect(plan.plannedItems).toBeGreaterThan(0);
    expect(plan.slotMinutes).toBe(5);
  });

  test('workers and an API killed in the middle of a file lose nothing and do nothing twice', async () => {
    const submitted = await importOf(csvOf(await tags(400), 'HH-2'), 'killed.csv');
    for (let round = 0; round < 3; round += 1) {
      running.workers[round % 2]?.killHard();
      running.apis[round % 2]?.killHard();
      await sleep(400);
    }
    const end = await importEnd(submitted.id);
    expect(end).toMatchObject({ state: 'done', refused: 0 });
    expect(end.accepted + end.repaired).toBe(400);
    const sums = await call<{ received: number; difference: number; keepersOtherThanOne: string[]; chainFaults: unknown[] }>('GET', `/v1/incidents/${incident.id}/reconciliation`);
    expect(sums).toMatchObject({ received: 430, difference: 0, keepersOtherThanOne: [], chainFaults: [] });
  }, 300_000);
});
