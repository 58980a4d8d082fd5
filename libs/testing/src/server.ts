import { createHash, randomBytes } from 'node:crypto';
import type pg from 'pg';
import supertest from 'supertest';
import type { UnitOfWork } from '#application';
import { NEWEST_RELEASE } from '#care';
import { SCOPES, type Scope } from '#contracts';
import { PgUnitOfWork, PrismaConfigWork, createPool, type Pool } from '#persistence';
import { createLogger, newId } from '#platform';
import { createTestDatabase, type TestDatabase } from './database.js';
import { incidentDocument, type IncidentOnTest, indexLayout } from './incident.js';

/** The morning after an invented flood; the clock of every test server starts here. */
export const MORNING_MS = Date.parse('2026-05-09T07:00:00Z');

/** The API module, given by the test through dynamic import so that this library does not depend on an app. */
export interface ApiModule {
  listen(parts: unknown, host: string, port: number): Promise<{ url: string; document: unknown; close(): Promise<void> }>;
}

export interface TestClient {
  readonly key: string;
  get(path: string, headers?: Record<string, string>): supertest.Test;
  post(path: string, body?: string | object, headers?: Record<string, string>): supertest.Test;
  put(path: string, body?: object, headers?: Record<string, string>): supertest.Test;
  patch(path: string, body?: object, headers?: Record<string, string>): supertest.Test;
  delete(path: string, headers?: Record<string, string>): supertest.Test;
}

export interface TestNetwork extends TestClient {
  networkId: string;
  as(key: string | null): TestClient;
  newKey(options?: { scopes?: readonly Scope[]; incidentId?: string; expiresAt?: Date }): Promise<string>;
  /** Registers the small incident through the API and answers its ids by code. */
  incident(change?: (document: ReturnType<typeof incidentDocument>) => void): Promise<IncidentOnTest>;
}

export interface TestServer {
  url: string;
  document: { paths: Record<string, Record<string, { operationId: string }>>; components: unknown };
  database: TestDatabase;
  admin: pg.Pool;
  pool: Pool;
  unitOfWork: UnitOfWork;
  clock: { nowMs(): number; set(ms: number): void };
  network(name?: string): Promise<TestNetwork>;
  close(): Promise<void>;
}

/** A listening API on a fresh database. */
export async function startTestServer(options: { ratePerMinute?: number } = {}): Promise<TestServer> {
  const database = await createTestDatabase();
  const onError = () => undefined;
  const pool = createPool({ connectionString: database.appUrl, max: 6, applicationName: 'test-api', onError });
  const configPool = createPool({ connectionString: database.appUrl, max: 3, applicationName: 'test-config', onError });
  const configWork = new PrismaConfigWork(configPool);
  const unitOfWork = new PgUnitOfWork(pool);
  let nowMs = MORNING_MS;
  const clock = { nowMs: () => nowMs, set: (ms: number) => void (nowMs = ms) };
  const apiModule = (await import('../../../apps/api/src/server.js')) as unknown as ApiModule;
  const parts = {
    unitOfWork, configWork, clock, pool,
    logger: createLogger('test', 'silent'),
    settings: { cursorSecret: 'a cursor secret for tests, 32 chars+', ratePerMinute: options.ratePerMinute ?? 100_000, redisUrl: null, version: '0.0.0-test' },
  };
  const api = await apiModule.listen(parts, '127.0.0.1', 0);
  return {
    url: api.url,
    document: api.document as TestServer['document'],
    database, admin: database.admin, pool, unitOfWork, clock,
    network: (name) => createNetwork(database.admin, api.url, name),
    async close() {
      await api.close();
      await configWork.close();
      await Promise.all([pool.end(), configPool.end()]);
      await database.drop();
    },
  };
}

async function createNetwork(admin: pg.Pool, url: string, name = 'Test network'): Promise<TestNetwork> {
  const networkId = newId();
  await admin.query('insert into network (network_id, name, rule_book_release, created_at) values ($1, $2, $3, now())', [networkId, name, NEWEST_RELEASE]);
  const newKey: TestNetwork['newKey'] = (options = {}) => insertKey(admin, networkId, options);
  const client = clientFor(url, await newKey());
  return {
    ...client,
    networkId,
    newKey,
    as: (key) => clientFor(url, key ?? ''),
    async incident(change) {
      const document = incidentDocument();
      change?.(document);
      const created = await client.post('/v1/incidents', document);
      if (created.status !== 201) throw new Error(`the test incident was refused: ${JSON.stringify(created.body)}`);
      const layout = await client.get(`/v1/incidents/${created.body.id}/layout`).expect(200);
      return indexLayout(created.body.id as string, layout.body);
    },
  };
}

/** A key row as the API would make it; the format is that of `makeApiKey`. */
async function insertKey(admin: pg.Pool, networkId: string, options: { scopes?: readonly Scope[]; incidentId?: string; expiresAt?: Date }): Promise<string> {
  const { makeApiKey } = await import('#platform');
  const key = makeApiKey();
  await admin.query(
    `insert into api_key (network_id, id, prefix, secret_sha256, label, scopes, limited_to_incident_id, expires_at, created_at)
     values ($1, $2, $3, $4, 'test', $5, $6, $7, now())`,
    [networkId, newId(), key.prefix, key.secretSha256, options.scopes ?? SCOPES, options.incidentId ?? null, options.expiresAt ?? new Date(Date.now() + 86_400_000)],
  );
  return key.text;
}

function clientFor(url: string, key: string): TestClient {
  const http = supertest(url);
  const authorised = (request: supertest.Test, headers: Record<string, string>) => {
    if (key) request.set('authorization', `Bearer ${key}`);
    return request.set(headers);
  };
  const command = (headers: Record<string, string>) => ({ 'idempotency-key': `"${newId()}"`, ...headers });
  return {
    key,
    get: (path, headers = {}) => authorised(http.get(path), headers),
    post: (path, body = {}, headers = {}) => authorised(http.post(path), command(headers)).send(body),
    put: (path, body = {}, headers = {}) => authorised(http.put(path), command(headers)).send(body),
    patch: (path, body = {}, headers = {}) => authorised(http.patch(path), { 'content-type': 'application/merge-patch+json', ...command(headers) }).send(JSON.stringify(body)),
    delete: (path, headers = {}) => authorised(http.delete(path), command(headers)),
  };
}

/** Hex SHA-256, for tests that compare stored hashes. */
export function sha256Hex(value: string | Buffer): string {
  return createHash('sha256').update(value).digest('hex');
}

export function randomHex(bytes: number): string {
  return randomBytes(bytes).toString('hex');
}
