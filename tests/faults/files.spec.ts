import { afterAll, afterEach, beforeAll, expect, test } from '@jest/globals';
import { type ChildProcess, fork } from 'node:child_process';
import { once } from 'node:events';
import { readdir } from 'node:fs/promises';
import { request } from 'node:http';
import { setTimeout as sleep } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { freePort } from '#platform';
import { createEmptyDatabase, TEST_MASTER_KEY } from '#testing';
import { FileBench, sha256, TUS } from '../api/support/files.js';
import { jpeg } from '../api/support/pictures.js';
import { until } from './messaging.harness.js';

/** Real processes of the built program, killed with kill -9 in the middle of uploads and checks; bounded to a few kills. */
let bench: FileBench;
let queue: Awaited<ReturnType<typeof createEmptyDatabase>>;
const children: ChildProcess[] = [];

beforeAll(async () => {
  bench = await FileBench.open();
  queue = await createEmptyDatabase();
});
afterEach(async () => {
  for (const child of children.splice(0)) await killed(child);
});
afterAll(async () => {
  await queue?.drop();
  await bench?.close();
});

async function started(app: 'api' | 'worker', env: Record<string, string> = {}): Promise<ChildProcess> {
  const { appUrl, relayUrl } = bench.server.database;
  // A job that died before its row had begun is the queue's again only after its lock: the worker for fault runs has short ones.
  const script = app === 'api' ? '../../dist/apps/api/src/main.js' : './custody-history.worker.mjs';
  const child = fork(fileURLToPath(new URL(script, import.meta.url)), [], {
    env: { PATH: process.env['PATH'] ?? '', WRACKLINE_LOG: 'error', WRACKLINE_MASTER_KEY: TEST_MASTER_KEY, WRACKLINE_CURSOR_SECRET: 'a cursor secret for tests, 32 chars+', WRACKLINE_FILE_FOLDER: bench.server.filesFolder, DATABASE_URL: appUrl, DATABASE_RELAY_URL: relayUrl, QUEUE_DATABASE_URL: queue.url, ...env },
    execArgv: [], stdio: ['ignore', 'inherit', 'inherit', 'ipc'],
  });
  children.push(child);
  const ready = await Promise.race([once(child, 'message').then(() => true), once(child, 'exit').then(() => false)]);
  if (!ready) throw new Error(`the ${app} ended before it was ready`);
  return child;
}

async function killed(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return;
  const gone = once(child, 'exit');
  child.kill('SIGKILL');
  await gone;
}

/** More than is made durable at once, and so little that three kills leave something to send. */
const SENT_BEFORE_A_KILL = 4_000_000;

/** Sends this much of a body whose whole length the headers tell; answers the status, or null where the other side died. */
function patched(url: string, bytes: Buffer, headers: Record<string, string>): Promise<number | null> {
  return new Promise((resolve) => {
    const sending = request(url, { method: 'PATCH', headers, agent: false }, (answer) => {
      answer.resume();
      resolve(answer.statusCode ?? 0);
    });
    sending.on('error', () => resolve(null));
    if (String(bytes.length) === headers['content-length']) sending.end(bytes);
    else sending.write(bytes);
  });
}

const count = async (sql: string, values: unknown[]): Promise<number> => Number((await bench.server.admin.query<{ n: string }>(`select count(*) as n from ${sql}`, values)).rows[0]?.n);
/** As if the time had passed after which a dead run is believed dead. */
const timePasses = () => bench.server.admin.query("update outbox set leased_until = null, not_before = null where done_at is null and kind in ('file.check', 'file.sweep')");

test('an API that is killed in the middle of a part: the upload goes on from where it was acknowledged, and the file is the same', async () => {
  // The process goes by the clock of this machine.
  bench.server.clock.set(Date.now());
  const port = await freePort();
  const url = `http://127.0.0.1:${port}`;
  const bytes = Buffer.concat([await jpeg(800, 600), Buffer.alloc(14_500_000, 3)]);
  const id = await bench.begun(bytes.length, { sha256: sha256(bytes) });
  const headers = { ...TUS, authorization: `Bearer ${bench.network.key}` };
  const stands = async () => Number((await fetch(`${url}/v1/uploads/${id}`, { method: 'HEAD', headers })).headers.get('upload-offset'));
  const inDatabase = async () => Number((await bench.server.admin.query<{ n: number }>('select offset_bytes as n from file where id = $1', [id])).rows[0]?.n);
  const seen: number[] = [];
  for (const lastTime of [false, false, false, true]) {
    const api = await started('api', { WRACKLINE_PORT: String(port) });
    const from = await stands();
    // What was made durable before the kill is there after it.
    expect(from).toBeGreaterThanOrEqual(seen.at(-1) ?? 0);
    seen.push(from);
    // Some megabytes of what is announced, and then no more until the kill, however late that is.
    const body = lastTime ? bytes.subarray(from) : bytes.subarray(from, from + SENT_BEFORE_A_KILL);
    const sent = patched(`${url}/v1/uploads/${id}`, body, { ...headers, 'upload-offset': String(from), 'content-type': 'application/offset+octet-stream', 'content-length': String(bytes.length - from) });
    if (lastTime) {
      expect(await sent).toBe(204);
      break;
    }
    await until('a part is durable', async () => (await inDatabase()) > from);
    await killed(api);
    expect(await sent).toBeNull();
  }
  process.stdout.write(`upload under kill -9: stood at ${seen.join(', ')} of ${bytes.length} bytes\n`);
  expect(seen.filter((from) => from > 0).length).toBeGreaterThan(0);
  expect(await inDatabase()).toBe(bytes.length);
  expect(await count("outbox where subject_id = $1 and kind = 'file.check'", [id])).toBe(1);
  await bench.work();
  expect(await bench.read(id)).toMatchObject({ state: 'kept', refusal: null, widthPx: 800 });
}, 400_000);

test('a worker that is killed in the middle of checks: every file is kept once, and nothing is left outside that nobody knows of', async () => {
  const made = await Promise.all([1_600, 1_800, 2_000, 2_200].map((width) => jpeg(width, 1_400)));
  const ids: string[] = [];
  for (const bytes of made) ids.push((await bench.send(bytes, 'image/jpeg').expect(201)).body.id as string);
  let kills = 0;
  for (const afterMs of [100, 350, 700, 1_100]) {
    const worker = await started('worker');
    await until('a check has begun or all are done', async () => (await count("outbox where subject_id = any($1) and kind = 'file.check' and done_at is null and tries > 0", [ids])) > 0 || (await count("outbox where subject_id = any($1) and kind = 'file.check' and done_at is null", [ids])) === 0);
    await sleep(afterMs);
    await killed(worker);
    kills += 1;
    await timePasses();
  }
  await started('worker');
  await until('every file is settled', async () => (await count("file where id = any($1) and state = 'kept'", [ids])) === ids.length);
  expect(kills).toBe(4);
  for (const id of ids) expect((await bench.objectsOf(id)).filter(({ state, role }) => state === 'there' && role !== 'part').map(({ role }) => role)).toEqual(['full', 'medium', 'small']);
  // An hour later: what the killed runs had put is swept.
  await bench.server.admin.query("update file_object set made_at = made_at - interval '2 hours'");
  for (const worker of children.splice(0)) await killed(worker);
  await timePasses();
  await bench.work(true);
  const known = (await bench.server.admin.query<{ name: string }>('select name from file_object')).rows.map(({ name }) => name).sort();
  const outside = (await readdir(bench.server.filesFolder, { recursive: true, withFileTypes: true })).filter((entry) => entry.isFile()).map(({ name }) => name).sort();
  expect(outside).toEqual(known);
  expect(await count("file_object where state <> 'there'", [])).toBe(0);
}, 400_000);
