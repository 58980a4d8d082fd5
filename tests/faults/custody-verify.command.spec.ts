/** `npm run ops -- verify` as the operator starts it, and the worker that makes the roots, as processes of their own. */
import { execFile } from 'node:child_process';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import { createLogger, loadConfig, projectRoot, type Config } from '#platform';
import { createEmptyDatabase, TEST_MASTER_KEY } from '#testing';
import { composeWork } from '../../apps/worker/src/handlers.js';
import { startWorker } from '../../apps/worker/src/start-worker.js';
import { looksOf } from '../api/support/custody-roots.js';
import { TamperBench } from './custody-tamper.harness.js';

let bench: TamperBench;
let folder: string;
beforeAll(async () => {
  bench = await TamperBench.open();
  folder = await mkdtemp(join(tmpdir(), 'wl-verify-'));
}, 400_000);
afterAll(async () => {
  await rm(folder, { recursive: true });
  await bench.close();
});

function verify(...args: string[]): Promise<{ code: number; lines: string[] }> {
  const { database } = bench.server;
  const env = { PATH: process.env['PATH'], DATABASE_URL: database.appUrl, DATABASE_RELAY_URL: database.relayUrl, QUEUE_DATABASE_URL: database.appUrl };
  return new Promise((resolve) => {
    execFile(process.execPath, [join(projectRoot(), 'dist/apps/ops/src/main.js'), 'verify', ...args], { env, timeout: 180_000 }, (error, stdout, stderr) => resolve({ code: typeof error?.code === 'number' ? error.code : error ? -1 : 0, lines: `${stdout}${stderr}`.trim().split('\n') }));
  });
}

test('a sound database: every network, how much was checked and how fast, and 0', async () => {
  const { code, lines } = await verify();
  expect(lines.join('\n')).toMatch(/^networks: 1, chains: \d+, events: \d+, roots: 2\nwaiting for a root: 3, the earliest since 2026-05-09T07:00:00.000Z\nevents per second: \d+\nfaults: 0$/);
  expect(code).toBe(0);
}, 200_000);

test('a fault is one line with network, item and event, and the end is 1', async () => {
  const { networkId } = bench.network;
  let found: Awaited<ReturnType<typeof verify>> | undefined;
  await bench.after((sql) => sql.query("update custody_event set actor_id = gen_random_uuid() where item_id = $1 and seq = 2", [bench.items[0]]), async () => {
    found = await verify('--network', networkId);
    return [];
  });
  expect(found?.code).toBe(1);
  expect(found?.lines).toContain(`network ${networkId} item ${bench.items[0]} event 2: hash: its content is not what was hashed`);
  expect(found?.lines.at(-1)).toBe('faults: 1');
}, 200_000);

test('roots that were exported are held against the database, from the file as the API gave it', async () => {
  const file = join(folder, 'roots.json');
  const { text, body } = await bench.network.get('/v1/custody-roots').expect(200);
  await writeFile(file, text);
  expect((await verify('--root', file)).code).toBe(0);
  const one = join(folder, 'root-1.json');
  await writeFile(one, JSON.stringify(body.items[0]));
  let found: Awaited<ReturnType<typeof verify>> | undefined;
  await bench.after((sql) => sql.query('delete from custody_root where root_no = 1'), async () => {
    found = await verify('--root', one);
    return [];
  });
  expect(found?.code).toBe(1);
  expect(found?.lines).toContain(`network ${bench.network.networkId} root 1: root_missing: the root is not there`);
}, 200_000);

test.each([['--nonsense'], ['--network', 'no-id'], ['word']])('what is not asked rightly is answered with how to ask, and 2: %s', async (...args) => {
  const { code, lines } = await verify(...args);
  expect([code, lines[0]?.startsWith('verify ')]).toEqual([2, true]);
}, 200_000);

test('a file that holds no root is refused, not passed over', async () => {
  const file = join(folder, 'empty.json');
  await writeFile(file, '{"items":[]}');
  const { code, lines } = await verify('--root', file);
  expect([code, lines[0]]).toEqual([1, expect.stringContaining('holds no custody root')]);
}, 200_000);

test('the worker does the look that lies in the outbox, with the key of its configuration, and leaves the next one', async () => {
  const queue = await createEmptyDatabase();
  const { database } = bench.server;
  const config: Config = {
    ...loadConfig({ DATABASE_URL: database.appUrl, DATABASE_RELAY_URL: database.relayUrl, QUEUE_DATABASE_URL: queue.url, WRACKLINE_MASTER_KEY: TEST_MASTER_KEY, WRACKLINE_CUSTODY_ROOT_MS: '1000', WRACKLINE_CUSTODY_SIGNING_KEY: Buffer.alloc(32, 7).toString('base64') }),
  };
  const [before] = await looksOf(bench.server, bench.network);
  await database.admin.query('update outbox set not_before = null where id = $1', [before?.id]);
  const worker = await startWorker(config, createLogger('test', 'silent'), composeWork);
  try {
    await worker.ready;
    let roots = 0;
    for (const untilMs = Date.now() + 90_000; Date.now() < untilMs && roots < 3;) {
      await new Promise((resolve) => setTimeout(resolve, 200));
      roots = (await bench.network.get('/v1/custody-roots').expect(200)).body.items.length;
    }
    // The events of the bench are of May; by the clock of the worker their hour is over for long.
    expect(roots).toBe(3);
    expect(await bench.verify()).toEqual([]);
  } finally {
    await worker.stop();
    await queue.drop();
  }
  expect(await looksOf(bench.server, bench.network)).toHaveLength(1);
}, 240_000);
