import { readdir, rename } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';

import { afterAll, afterEach, beforeAll, describe, expect, jest, test } from '@jest/globals';

import { createPool } from '#persistence';
import type { Pool } from '#persistence';
import type { EmbeddedPostgres } from '#platform';

import { query, serverPid, Workbench } from './embedded-postgres.harness.js';

// Each wait inside is bounded by itself; this only keeps a busy machine from failing a sound run.
jest.setTimeout(240_000);

let bench: Workbench;
let dataDir: string;
let database: EmbeddedPostgres;

beforeAll(async () => {
  bench = await Workbench.open();
  dataDir = join(bench.dir, 'pg');
  database = await bench.start(dataDir);
  await query(database.adminUrl, 'create table quilt (tag text primary key)');
});
afterEach(async () => {
  await database.stop();
  database = await bench.start(dataDir);
});
afterAll(() => bench.clean());

/** kill -9 of the server process, as the system's out-of-memory killer does it; answers its number. */
async function killServer(): Promise<number> {
  const pid = await serverPid(dataDir);
  process.kill(pid, 'SIGKILL');
  return pid;
}

async function until(what: string, holds: () => Promise<boolean>): Promise<void> {
  const deadline = Date.now() + 60_000;
  while (!(await holds())) {
    if (Date.now() > deadline) throw new Error(`waited too long until ${what}:\n${bench.messages.slice(-12).join('\n')}`);
    await sleep(50);
  }
}

const answers = (url: string) => query(url, 'select 1').then(() => true, () => false);
const tags = async (url: string) => (await query<{ tag: string }>(url, 'select tag from quilt order by tag')).map((row) => row.tag);
const pending = Symbol('pending');
const lostSoFar = (handle: EmbeddedPostgres) => Promise.race([handle.lost, Promise.resolve(pending)]);

describe('a server that is killed while its owner lives', () => {
  test('comes back on its port: what was committed is there, a pool from before serves again, and new rows go in', async () => {
    const joined = await bench.start(dataDir);
    const pool: Pool = createPool({ connectionString: database.adminUrl, max: 3, applicationName: 'before', onError: () => undefined });
    await pool.query("insert into quilt values ('WL-1')");
    const open = await pool.connect();
    await open.query('begin');
    await open.query("insert into quilt values ('never committed')");
    const pid = await killServer();
    await until('another server answers', async () => (await answers(database.adminUrl)) && (await serverPid(dataDir)) !== pid);
    // The server does not start while a process of the old one is left that could still commit.
    await expect(open.query('commit')).rejects.toThrow();
    open.release(true);
    expect((await pool.query('select tag from quilt')).rows).toEqual([{ tag: 'WL-1' }]);
    await pool.query("insert into quilt values ('WL-2')");
    await pool.end();
    expect(joined.adminUrl).toBe(database.adminUrl);
    expect(await tags(joined.adminUrl)).toEqual(['WL-1', 'WL-2']);
    expect(await lostSoFar(database)).toBe(pending);
    expect(bench.messages.join('\n')).toContain('PostgreSQL ended by itself (SIGKILL); it is started again.');
  });

  test('comes back a second and a third time', async () => {
    for (const tag of ['WL-3', 'WL-4', 'WL-5']) {
      const pid = await killServer();
      // What is left of the old server may answer for a moment longer.
      await until('another server answers', async () => (await answers(database.adminUrl)) && (await serverPid(dataDir)) !== pid);
      await query(database.adminUrl, `insert into quilt values ('${tag}')`);
    }
    expect(await tags(database.adminUrl)).toEqual(['WL-1', 'WL-2', 'WL-3', 'WL-4', 'WL-5']);
  });

  test('comes back also when it was taken over from a killed process and is nobody\'s child', async () => {
    await database.stop();
    const supervisor = await bench.supervise(dataDir);
    await supervisor.next();
    supervisor.child.kill('SIGKILL');
    await supervisor.ended;
    database = await bench.start(dataDir);
    expect(database.adopted).toBe(true);
    const pid = await killServer();
    await until('another server answers', async () => (await answers(database.adminUrl)) && (await serverPid(dataDir)) !== pid);
    expect(await tags(database.adminUrl)).toContain('WL-5');
  });

  test('stays down when it is stopped on purpose at that very moment', async () => {
    await killServer();
    await database.stop();
    // Longer than the pause before a restart.
    await sleep(1_500);
    expect(await answers(database.adminUrl)).toBe(false);
    expect(await lostSoFar(database)).toBe(pending);
  });
});

describe('a server that cannot run any more', () => {
  const control = () => join(dataDir, 'cluster', 'global', 'pg_control');

  test('is given up after a few tries with a sentence that says why, and starts with all its rows once that is put right', async () => {
    await rename(control(), `${control()}.away`);
    await killServer();
    const reason = await database.lost;
    expect(reason.message).toMatch(/could not be kept running in 4 tries.*What was committed is on disk.*pg_control/s);
    await database.stop();
    await rename(`${control()}.away`, control());
    database = await bench.start(dataDir);
    expect(await tags(database.adminUrl)).toContain('WL-5');
  });

  test('whose files are gone is never replaced by an empty one', async () => {
    const cluster = join(dataDir, 'cluster');
    const pid = await serverPid(dataDir);
    await rename(cluster, `${cluster}.away`);
    process.kill(pid, 'SIGKILL');
    expect((await database.lost).message).toMatch(/could not be kept running.*are gone/);
    expect(await readdir(dataDir)).not.toContain('cluster');
    await database.stop();
    await rename(`${cluster}.away`, cluster);
    database = await bench.start(dataDir);
    expect(await tags(database.adminUrl)).toContain('WL-5');
  });
});
