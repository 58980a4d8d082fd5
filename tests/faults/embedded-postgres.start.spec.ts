import { execFile, spawn } from 'node:child_process';
import { readdir, readFile, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';

import { afterAll, beforeAll, describe, expect, jest, test } from '@jest/globals';

import { freePort } from '#platform';
import type { EmbeddedPostgres } from '#platform';

import { AS_ROOT, query, serverPid, Workbench } from './embedded-postgres.harness.js';

const run = promisify(execFile);
const START_LIMIT_MS = 180_000;

// Each wait inside is bounded by itself; this only keeps a busy machine from failing a sound run.
jest.setTimeout(START_LIMIT_MS);

let bench: Workbench;
let dataDir: string;
let first: EmbeddedPostgres;

beforeAll(async () => {
  bench = await Workbench.open();
  dataDir = join(bench.dir, 'state', 'pg');
  first = await bench.start(dataDir);
});

afterAll(() => bench.clean());

async function setting(name: string): Promise<string> {
  const [row] = await query<{ value: string }>(first.adminUrl, `select current_setting('${name}') as value`);
  return row?.value ?? '';
}

async function filesBelow(dir: string): Promise<string[]> {
  const entries = await readdir(dir, { recursive: true, withFileTypes: true });
  return entries.filter((entry) => entry.isFile()).map((entry) => join(entry.parentPath, entry.name));
}

describe('a fresh embedded database', () => {
  test.each([
    ['data_checksums', 'on'],
    ['fsync', 'on'],
    ['full_page_writes', 'on'],
    ['synchronous_commit', 'on'],
    ['server_encoding', 'UTF8'],
    ['listen_addresses', '127.0.0.1'],
    ['unix_socket_directories', ''],
    ['max_connections', '100'],
    ['shared_buffers', '128MB'],
    ['password_encryption', 'scram-sha-256'],
    ['log_timezone', 'UTC'],
  ])('runs with %s = %s', async (name, value) => {
    expect(await setting(name)).toBe(value);
  });

  test('is PostgreSQL 18 on the port it tells and was not adopted', async () => {
    expect(Math.trunc(Number(await setting('server_version_num')) / 10_000)).toBe(18);
    expect(await setting('port')).toBe(String(first.port));
    expect(first.adopted).toBe(false);
    expect(first.dataDir).toBe(dataDir);
  });

  test('sorts by the built-in C.UTF-8 locale, the same on every machine', async () => {
    const rows = await query(first.adminUrl, "select datlocprovider, datlocale from pg_database where datname = 'postgres'");
    expect(rows).toEqual([{ datlocprovider: 'b', datlocale: 'C.UTF-8' }]);
  });

  test('lets nobody in without a SCRAM password', async () => {
    const rows = await query(first.adminUrl, 'select distinct auth_method from pg_hba_file_rules');
    expect(rows).toEqual([{ auth_method: 'scram-sha-256' }]);
    const wrong = first.urlFor('wrackline_admin', 'wrong', 'postgres');
    await expect(query(wrong, 'select 1')).rejects.toMatchObject({ code: '28P01' });
  });

  test('keeps the superuser password in one file of mode 0600 in a folder of mode 0700, nowhere else', async () => {
    const secretsDir = join(dataDir, 'secrets');
    const passwordFile = join(secretsDir, 'admin-password');
    expect((await stat(secretsDir)).mode & 0o777).toBe(0o700);
    expect((await stat(passwordFile)).mode & 0o777).toBe(0o600);
    const password = new URL(first.adminUrl).password;
    expect(Buffer.from(password, 'base64url')).toHaveLength(32);
    const holders: string[] = [];
    for (const file of await filesBelow(dataDir)) {
      if ((await readFile(file)).includes(password)) holders.push(file);
    }
    expect(holders).toEqual([passwordFile]);
    expect(bench.messages.join('\n')).not.toContain(password);
  });

  test('closes the data, the log, the lock and its own state to other users', async () => {
    for (const folder of ['cluster', 'log', 'lock']) {
      expect((await stat(join(dataDir, folder))).mode & 0o777).toBe(0o700);
    }
    expect((await stat(join(dataDir, 'state.json'))).mode & 0o777).toBe(0o600);
  });

  test('runs in a session of its own and never as root', async () => {
    const pid = await serverPid(dataDir);
    const { stdout } = await run('ps', ['-o', 'sess=,uid=', '-p', String(pid)]);
    const [session, uid] = stdout.trim().split(/\s+/).map(Number);
    expect(session).toBe(pid);
    expect(uid).not.toBe(0);
    expect(uid).toBe((await stat(join(dataDir, 'cluster'))).uid);
  });

  test('builds URLs whose role, password and database may hold any character', async () => {
    await query(first.adminUrl, `create role "är @:/?#%" login password 'p@ss:/?#% "ß"'`);
    await query(first.adminUrl, 'create database "wet hall é"');
    const url = first.urlFor('är @:/?#%', 'p@ss:/?#% "ß"', 'wet hall é');
    const rows = await query(url, 'select current_user as role, current_database() as db');
    expect(rows).toEqual([{ role: 'är @:/?#%', db: 'wet hall é' }]);
  });

  test('does not write stored values into its log when a constraint fails', async () => {
    await query(first.adminUrl, 'create table once (word text unique)');
    await query(first.adminUrl, "insert into once values ('fam' || 'ily-secret')");
    const copy = query(first.adminUrl, 'insert into once select word from once');
    await expect(copy).rejects.toMatchObject({ code: '23505' });
    let logged = '';
    // The server's log collector writes a moment later.
    for (const deadline = Date.now() + 60_000; !logged.includes('duplicate key') && Date.now() < deadline; ) {
      const files = await filesBelow(join(dataDir, 'log'));
      logged = (await Promise.all(files.map((file) => readFile(file, 'utf8')))).join('\n');
    }
    expect(logged).toContain('duplicate key');
    expect(logged).not.toContain('family-secret');
  });
});

describe('a second caller', () => {
  test('joins the running server, and its stop leaves the server to the owner', async () => {
    const second = await bench.start(dataDir);
    expect(second).toMatchObject({ adopted: true, joined: true, port: first.port, adminUrl: first.adminUrl });
    const pid = await serverPid(dataDir);
    await second.stop();
    expect(await query(first.adminUrl, 'select 1 as one')).toEqual([{ one: 1 }]);
    expect(await serverPid(dataDir)).toBe(pid);
  });

  test('is told so when it insists on another port than the running one', async () => {
    const refusal = await bench.refusal(dataDir, await freePort());
    expect(refusal.code).toBe('locked');
    expect(refusal.message).toContain(String(first.port));
    expect(await query(first.adminUrl, 'select 1 as one')).toEqual([{ one: 1 }]);
  });
});

describe('stopping and starting again', () => {
  test('ends the server, may be called twice, and the same port and data come back', async () => {
    await query(first.adminUrl, 'create table quilt (tag text)');
    await query(first.adminUrl, "insert into quilt values ('WL-1')");
    await Promise.all([first.stop(), first.stop()]);
    await first.stop();
    await expect(query(first.adminUrl, 'select 1')).rejects.toMatchObject({ code: 'ECONNREFUSED' });
    const again = await bench.start(dataDir);
    expect(again).toMatchObject({ adopted: false, joined: false, port: first.port, adminUrl: first.adminUrl });
    expect(await query(again.adminUrl, 'select tag from quilt')).toEqual([{ tag: 'WL-1' }]);
    await again.stop();
  });

  test('an insisted port held by a foreign program is port_taken and the stored port stays', async () => {
    const foreign = await bench.occupy(0);
    const refusal = await bench.refusal(dataDir, foreign.port);
    expect(refusal.code).toBe('port_taken');
    expect(refusal.message).toContain(String(foreign.port));
    await foreign.release();
    const again = await bench.start(dataDir);
    expect(again.port).toBe(first.port);
    await again.stop();
  });

  test('a stored port held by a foreign program is replaced by a new one, which is stored', async () => {
    const foreign = await bench.occupy(first.port);
    const moved = await bench.start(dataDir);
    expect(moved.port).not.toBe(first.port);
    await moved.stop();
    await foreign.release();
    const again = await bench.start(dataDir);
    expect(again.port).toBe(moved.port);
    await again.stop();
  });

  test('an insisted free port is used', async () => {
    const port = await freePort();
    const there = await bench.start(dataDir, port);
    expect(there.port).toBe(port);
    expect(await query(there.adminUrl, "select current_setting('port') as port")).toEqual([{ port: String(port) }]);
    await there.stop();
  });

  test('a pid file whose number a power cut left to another program does not keep the server from starting', async () => {
    const { uid, gid } = await stat(join(dataDir, 'cluster'));
    // Of the same user, as PostgreSQL would only take such a process for itself.
    const bystander = spawn('sleep', ['60'], AS_ROOT ? { uid, gid, cwd: '/' } : { cwd: '/' });
    try {
      const lines = [bystander.pid, join(dataDir, 'cluster'), 1_700_000_000, first.port, '', '127.0.0.1', '1 1', 'ready'];
      await writeFile(join(dataDir, 'cluster', 'postmaster.pid'), `${lines.join('\n')}\n`);
      const again = await bench.start(dataDir);
      expect(again.adopted).toBe(false);
      expect(await query(again.adminUrl, 'select tag from quilt')).toEqual([{ tag: 'WL-1' }]);
      await again.stop();
      expect(bystander.exitCode).toBeNull();
    } finally {
      bystander.kill();
    }
  });
});
