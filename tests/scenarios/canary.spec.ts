/** What is said to any route is in no log, job or outbox row, and in no entry of the audit; `PreparedIncident` puts its marker into every free text. */
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import pg from 'pg';
import { createLogger, loadConfig } from '#platform';
import { createEmptyDatabase, type PreparedNetwork, prepareNetworks, startTestServer, TEST_MASTER_KEY, type TestServer } from '#testing';
import { composeWork } from '../../apps/worker/src/handlers.js';
import { startWorker, type RunningWorker } from '../../apps/worker/src/start-worker.js';
import { operationsOf } from './tenant-matrix/document.js';
import { fill } from './tenant-matrix/prepared.js';
import { send } from './tenant-matrix/request.js';
import { ROWS } from './tenant-matrix/rows/index.js';

const CANARY = 'Zwirbelquist';
const lines: string[] = [];
let server: TestServer;
let ours: PreparedNetwork;
let queue: Awaited<ReturnType<typeof createEmptyDatabase>>;
let worker: RunningWorker | undefined;

beforeAll(async () => {
  server = await startTestServer({ log: (line) => void lines.push(line) });
  ({ ours } = await prepareNetworks(server, (incident) => fill(incident, server)));
  queue = await createEmptyDatabase();
  const config = loadConfig({ WRACKLINE_LOG: 'debug', WRACKLINE_MASTER_KEY: TEST_MASTER_KEY, WRACKLINE_STATE_DIR: server.filesFolder, DATABASE_URL: server.database.appUrl, DATABASE_RELAY_URL: server.database.relayUrl, QUEUE_DATABASE_URL: queue.url, WRACKLINE_PLAN_ITERATIONS: '1' });
  worker = await startWorker(config, createLogger('worker', 'debug', { write: (line: string) => void lines.push(line) }), composeWork, { tuning: { pollMs: 50 } });
  await worker.ready;
}, 300_000);
afterAll(async () => {
  await worker?.stop();
  await server?.close();
  await queue?.drop();
}, 60_000);

/** The same body with the canary in every text of more than one word, in a member that nobody knows, and cut off in the middle. */
function spoiled(body: unknown): (string | object)[] {
  if (typeof body !== 'object' || body === null || Array.isArray(body)) return [`{"name": "${CANARY}`];
  return [{ ...body, unknown: CANARY }, `${JSON.stringify({ ...body, name: CANARY }).slice(0, -3)}`];
}

test('no word that was sent to any route, well or badly, is in a log line, an outbox row, a job or an entry of the audit', async () => {
  const { first, network } = ours;
  let [sent, taken] = [0, 0];
  for (const operation of operationsOf(server)) {
    const row = ROWS[operation.id];
    if (!row) continue;
    const parts = await row.request(first);
    const answers = [await send(server, operation, parts, network.key)];
    if (parts.body !== undefined && parts.contentType === undefined) for (const body of spoiled(parts.body)) answers.push(await send(server, operation, { ...parts, body }, network.key));
    answers.push(await send(server, operation, { ...parts, query: { ...parts.query, unknown: CANARY } }, network.key));
    sent += answers.length;
    taken += answers.filter(({ status }) => status < 300).length;
  }
  expect(taken).toBeGreaterThan(Object.keys(ROWS).length * 0.8);
  // Whatever was rung for is done, or at work.
  const client = new pg.Client({ connectionString: queue.url });
  await client.connect();
  const jobs: string[] = [];
  try {
    for (let look = 0; look < 40; look += 1) {
      const { rows: tables } = await client.query<{ name: string }>(`select format('%I.%I', schemaname, tablename) as name from pg_tables where schemaname = 'bullmq'`);
      for (const { name } of tables) jobs.push(...(await client.query<{ row: string }>(`select t::text as row from ${name} t`)).rows.map(({ row }) => row));
      await new Promise((resolve) => setTimeout(resolve, 250));
    }
  } finally {
    await client.end();
  }
  const rowsOf = async (table: string) => (await server.admin.query<{ row: string }>(`select t::text as row from ${table} t`)).rows.map(({ row }) => row);
  const places = { logs: lines, jobs, outbox: await rowsOf('outbox'), audit: await rowsOf('audit_entry') };
  for (const all of Object.values(places)) expect(all.length).toBeGreaterThan(0);
  const words = [CANARY, first.marker, ours.second.marker].flatMap((word) => [word, Buffer.from(word).toString('hex')]);
  const found = Object.entries(places).flatMap(([place, all]) => all.filter((text) => words.some((word) => text.includes(word))).map((text) => `${place}: ${text.slice(0, 300)}`));
  process.stdout.write(`canary: ${sent} requests to ${Object.keys(ROWS).length} routes, ${taken} taken; ${Object.entries(places).map(([place, all]) => `${all.length} ${place}`).join(', ')}: ${found.length} hits\n`);
  expect([...new Set(found)].slice(0, 20)).toEqual([]);
}, 400_000);
