import { createHash, randomBytes, randomUUID } from 'node:crypto';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type pg from 'pg';
import supertest from 'supertest';
import type { AcceptanceReckoner, UnitOfWork } from '#application';
import type { NEWEST_RELEASE } from '#care';
import type { Scope, SCOPES } from '#contracts';
import type { createPool, LocalVault, PgUnitOfWork, PrismaConfigWork } from '#persistence';
import type { createLogger, makeApiKey, newId, parseMasterKeys } from '#platform';
import { createTestDatabase, type TestDatabase } from './database.js';
import { incidentDocument, type IncidentOnTest, indexLayout } from './incident.js';

/** The morning after an invented flood; the clock of every test server starts here. */
export const MORNING_MS = Date.parse('2026-05-09T07:00:00Z');

/** Wraps the keys of personal data of every test database; never used elsewhere. */
export const TEST_MASTER_KEY = `1:${Buffer.alloc(32, 9).toString('base64')}`;

/** What the test server takes from the build; this library does not depend on an app. */
interface Build {
  server: { listen(parts: unknown, host: string, port: number): Promise<{ url: string; document: unknown; close(): Promise<void> }> };
  acceptance: { acceptanceThreads(options: object): TestAcceptance };
  documents: { documentThreads(options: object): { close(): Promise<void> } };
  plans: { planThreads(options: object): { close(): Promise<void> } };
  care: { NEWEST_RELEASE: typeof NEWEST_RELEASE };
  contracts: { SCOPES: typeof SCOPES };
  persistence: { LocalVault: typeof LocalVault; PgUnitOfWork: typeof PgUnitOfWork; PrismaConfigWork: typeof PrismaConfigWork; createPool: typeof createPool };
  platform: { createLogger: typeof createLogger; makeApiKey: typeof makeApiKey; newId: typeof newId; parseMasterKeys: typeof parseMasterKeys };
}

/** Set by `build.environment.mjs`. */
declare const wracklineBuild: (path: string) => Promise<unknown>;

/** The program as it is delivered, one copy for all test files of a worker; `npm test` builds it first. */
async function loadBuild(): Promise<Build> {
  const paths = {
    server: 'apps/api/src/server.js', acceptance: 'apps/api/src/threads/acceptance-threads.js', documents: 'apps/api/src/threads/document-threads.js', plans: 'apps/api/src/threads/plan-threads.js',
    care: 'libs/care/src/index.js', contracts: 'libs/contracts/src/index.js', persistence: 'libs/persistence/src/index.js', platform: 'libs/platform/src/index.js',
  };
  const loaded = await Promise.all(Object.entries(paths).map(async ([name, path]) => [name, await wracklineBuild(path)]));
  return Object.fromEntries(loaded) as Build;
}

export interface TestAcceptance extends AcceptanceReckoner {
  readonly load: { threads: number; running: number; waiting: number };
  close(): Promise<void>;
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
  /** The test's own, for use cases that it calls itself. */
  unitOfWork: UnitOfWork;
  clock: { nowMs(): number; set(ms: number): void };
  acceptance: TestAcceptance;
  /** Where the bytes of files lie; a `LocalVault` on it is the worker's. */
  filesFolder: string;
  network(name?: string): Promise<TestNetwork>;
  close(): Promise<void>;
}

/** A listening API on a fresh database; `threads` narrows its threads, `log` gets every line that it would log. */
export async function startTestServer(options: { ratePerMinute?: number; threads?: object; log?: (line: string) => void } = {}): Promise<TestServer> {
  const database = await createTestDatabase();
  const onError = () => undefined;
  const build = await loadBuild();
  const apiPool = patient(build.persistence.createPool({ connectionString: database.appUrl, max: 6, applicationName: 'test-api', onError }));
  const configPool = patient(build.persistence.createPool({ connectionString: database.appUrl, max: 3, applicationName: 'test-config', onError }));
  const configWork = new build.persistence.PrismaConfigWork(configPool);
  const own = ownWork(database.appUrl);
  let nowMs = MORNING_MS;
  const clock = { nowMs: () => nowMs, set: (ms: number) => void (nowMs = ms) };
  const acceptance = build.acceptance.acceptanceThreads(options.threads ?? {});
  const documents = build.documents.documentThreads({});
  const plans = build.plans.planThreads({});
  const filesFolder = await mkdtemp(join(tmpdir(), 'wl-files-'));
  const parts = {
    vault: new build.persistence.LocalVault(filesFolder),
    unitOfWork: new build.persistence.PgUnitOfWork(apiPool, build.platform.parseMasterKeys(TEST_MASTER_KEY, 'test')), configWork, clock, pool: apiPool, acceptance, plans, documents,
    logger: options.log === undefined ? build.platform.createLogger('test', 'silent') : build.platform.createLogger('test', 'debug', { write: options.log }),
    settings: { cursorSecret: 'a cursor secret for tests, 32 chars+', ratePerMinute: options.ratePerMinute ?? 100_000, redisUrl: null, version: '0.0.0-test' },
  };
  const api = await build.server.listen(parts, '127.0.0.1', 0);
  return {
    url: api.url,
    document: api.document as TestServer['document'],
    database, admin: database.admin, unitOfWork: own.unitOfWork, clock, acceptance, filesFolder,
    network: (name) => createNetwork(build, database.admin, api.url, name),
    async close() {
      await api.close();
      await configWork.close();
      await Promise.all([own.end(), apiPool.end(), configPool.end()]);
      await database.drop();
      await rm(filesFolder, { recursive: true, force: true });
    },
  };
}

/**
 * The product gives up waiting for a connection after 3 s and for a lock after 5 s, and answers 503. A busy machine may stand still for as long, and many
 * requests at once wait for each other: the tests of this server are about other answers, so it waits until nobody would doubt that something hangs.
 */
function patient(pool: pg.Pool): pg.Pool {
  Object.assign(pool.options, { connectionTimeoutMillis: 30_000, lock_timeout: 30_000, statement_timeout: 45_000, idle_in_transaction_session_timeout: 60_000 });
  return pool;
}

/** The use cases' modules are read when a test first needs them, in the test's own realm: there its refusals are instances of what it knows. */
function ownWork(connectionString: string): { unitOfWork: UnitOfWork; end(): Promise<void> } {
  const open = async () => {
    const { PgUnitOfWork, createPool } = await import('#persistence');
    const { parseMasterKeys } = await import('#platform');
    const pool = patient(createPool({ connectionString, max: 6, applicationName: 'test', onError: () => undefined }));
    return { pool, work: new PgUnitOfWork(pool, parseMasterKeys(TEST_MASTER_KEY, 'test')) };
  };
  let opened: ReturnType<typeof open> | null = null;
  const work = async () => (await (opened ??= open())).work;
  return {
    unitOfWork: {
      read: async (context, task) => (await work()).read(context, task),
      write: async (context, task) => (await work()).write(context, task),
      command: async (context, identity, task) => (await work()).command(context, identity, task),
    },
    end: async () => void (await (await opened)?.pool.end()),
  };
}

async function createNetwork(build: Build, admin: pg.Pool, url: string, name = 'Test network'): Promise<TestNetwork> {
  const networkId = build.platform.newId();
  await admin.query('insert into network (network_id, name, rule_book_release, created_at) values ($1, $2, $3, now())', [networkId, name, build.care.NEWEST_RELEASE]);
  const newKey: TestNetwork['newKey'] = (options = {}) => insertKey(build, admin, networkId, options);
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
async function insertKey({ contracts, platform }: Build, admin: pg.Pool, networkId: string, options: { scopes?: readonly Scope[]; incidentId?: string; expiresAt?: Date }): Promise<string> {
  const key = platform.makeApiKey();
  await admin.query(
    `insert into api_key (network_id, id, prefix, secret_sha256, label, scopes, limited_to_incident_id, expires_at, created_at)
     values ($1, $2, $3, $4, 'test', $5, $6, $7, now())`,
    [networkId, platform.newId(), key.prefix, key.secretSha256, options.scopes ?? contracts.SCOPES, options.incidentId ?? null, options.expiresAt ?? new Date(Date.now() + 86_400_000)],
  );
  return key.text;
}

function clientFor(url: string, key: string): TestClient {
  const http = supertest(url);
  const authorised = (request: supertest.Test, headers: Record<string, string>) => {
    if (key) request.set('authorization', `Bearer ${key}`);
    return request.set(headers);
  };
  const command = (headers: Record<string, string>) => ({ 'idempotency-key': `"${randomUUID()}"`, ...headers });
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
