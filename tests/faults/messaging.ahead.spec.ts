/** Rows that lie in the outbox ahead of their time: a look at every room and freezer in ten minutes. */
import { afterAll, beforeAll, beforeEach, expect, test } from '@jest/globals';
import { createPool, PgOutboxRelay, PgUnitOfWork, type Pool } from '#persistence';
import { workerContext } from '#messaging';
import { newId } from '#platform';
import { Bench, type Tenant } from './messaging.harness.js';

const LIMITS = { perNetwork: 10, maxTries: 8, leaseMs: 60_000 };

let bench: Bench;
let pool: Pool;
let app: Pool;
let relay: PgOutboxRelay;
let work: PgUnitOfWork;

beforeAll(async () => {
  bench = await Bench.open('PostgreSQL');
  const login = (connectionString: string) => createPool({ connectionString, max: 8, applicationName: 'test', onError: () => undefined });
  [pool, app] = [login(bench.database.relayUrl), login(bench.database.appUrl)];
  relay = new PgOutboxRelay(pool);
  work = new PgUnitOfWork(app);
});
afterAll(async () => {
  await Promise.all([pool.end(), app.end()]);
  await bench.close();
});
beforeEach(() => bench.database.admin.query('truncate outbox'));

function ahead(tenant: Tenant, subjectId: string, aheadMs: number): Promise<void> {
  return work.write(workerContext(tenant.networkId, 'test', ''), (stores) => stores.outbox.appendAhead({ id: newId(), incidentId: tenant.incidentId, kind: 'climate.tick', subjectId, traceparent: '' }, aheadMs));
}

test('a hundred rooms that are looked at in ten minutes leave a network its whole share of what may be out', async () => {
  const tenant = await bench.tenant();
  for (let room = 0; room < 100; room += 1) await ahead(tenant, newId(), 600_000);
  const due = await bench.append(tenant, 12);
  expect((await relay.lease(LIMITS)).map(({ outboxId }) => outboxId).toSorted()).toEqual(due.slice(0, 10));
});

test('they are not open before their time, and due when it has come', async () => {
  const tenant = await bench.tenant();
  await ahead(tenant, newId(), 600_000);
  expect(await relay.lease(LIMITS)).toEqual([]);
  expect(await relay.standing()).toEqual({ open: 0, oldestOpenAgeS: null, dead: 0 });
  await bench.database.admin.query("update outbox set created_at = clock_timestamp() - interval '10 minutes', not_before = clock_timestamp() - interval '3 seconds'");
  const standing = await relay.standing();
  expect(standing.open).toBe(1);
  expect(standing.oldestOpenAgeS).toBeLessThan(60);
  expect(await relay.lease(LIMITS)).toHaveLength(1);
});

test('of each subject one lies ahead, however many write it at once, and a new one once its work has begun', async () => {
  const tenant = await bench.tenant();
  const room = newId();
  await Promise.all(Array.from({ length: 6 }, () => ahead(tenant, room, 600_000)));
  expect(await bench.count('subject_id = $1', [room])).toBe(1);
  await bench.database.admin.query("update outbox set not_before = clock_timestamp() - interval '1 second'");
  const [ticket] = await relay.lease(LIMITS);
  expect(await relay.begin(ticket!, 60_000)).toBe(true);
  await ahead(tenant, room, 600_000);
  expect(await bench.count('subject_id = $1', [room])).toBe(2);
});
