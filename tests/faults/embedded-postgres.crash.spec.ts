import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';

import { afterAll, beforeAll, describe, expect, jest, test } from '@jest/globals';

import { stopOrphan } from '#platform';

import { query, serverPid, Workbench } from './embedded-postgres.harness.js';
import type { Supervisor } from './embedded-postgres.harness.js';

const START_LIMIT_MS = 180_000;

// Each wait inside is bounded by itself; this only keeps a busy machine from failing a sound run.
jest.setTimeout(START_LIMIT_MS);

let bench: Workbench;
let dataDir: string;

beforeAll(async () => {
  bench = await Workbench.open();
  dataDir = join(bench.dir, 'pg');
});

afterAll(() => bench.clean());

async function waitUntil(what: string, holds: () => Promise<boolean> | boolean): Promise<void> {
  const deadline = Date.now() + 60_000;
  while (!(await holds())) {
    if (Date.now() > deadline) throw new Error(`waited too long until ${what}`);
    await sleep(50);
  }
}

function isRunning(pid: number): Promise<boolean> {
  return readFile(`/proc/${pid}/stat`, 'utf8').then(
    (text) => !/\) [ZX] /.test(text),
    () => false,
  );
}

async function killSupervisor(supervisor: Supervisor): Promise<void> {
  supervisor.child.kill('SIGKILL');
  await supervisor.ended;
}

async function answers(url: string): Promise<boolean> {
  return query(url, 'select 1').then(
    () => true,
    () => false,
  );
}

describe('two processes that start on an empty folder at the same moment', () => {
  test('create one database: one owns it, one joins, and only the owner ends it', async () => {
    const pair = await Promise.all([bench.supervise(dataDir), bench.supervise(dataDir)]);
    const events = await Promise.all(pair.map((supervisor) => supervisor.next()));
    expect(events.map((event) => event.adopted).sort()).toEqual([false, true]);
    expect(new Set(events.map((event) => event.url)).size).toBe(1);
    const url = String(events[0]?.url);
    const [owner, joined] = events[0]?.adopted === false ? pair : [pair[1], pair[0]];
    joined.tell('stop');
    expect(await joined.ended).toBe(0);
    expect(await answers(url)).toBe(true);
    owner.tell('stop');
    expect(await owner.ended).toBe(0);
    expect(await answers(url)).toBe(false);
  });
});

describe('a supervising process that is killed', () => {
  test('leaves a running database, which the next start adopts and its stop ends', async () => {
    const supervisor = await bench.supervise(dataDir);
    const { url } = await supervisor.next();
    await query(String(url), 'create table photo (tag text)');
    await query(String(url), "insert into photo values ('WL-7')");
    const pid = await serverPid(dataDir);
    await killSupervisor(supervisor);
    expect(await isRunning(pid)).toBe(true);

    const next = await bench.start(dataDir);
    expect(next).toMatchObject({ adopted: true, adminUrl: url });
    expect(await serverPid(dataDir)).toBe(pid);
    expect(await query(next.adminUrl, 'select tag from photo')).toEqual([{ tag: 'WL-7' }]);
    await next.stop();
    expect(await isRunning(pid)).toBe(false);
  });

  test('hands over to exactly one of several processes that come at once', async () => {
    const killed = await bench.supervise(dataDir);
    const { url } = await killed.next();
    await killSupervisor(killed);
    const heirs = await Promise.all([1, 2, 3].map(() => bench.supervise(dataDir)));
    await Promise.all(heirs.map((heir) => heir.next()));
    const locks = await readdir(join(dataDir, 'lock'));
    expect(locks).toHaveLength(1);
    const holder = JSON.parse(await readFile(join(dataDir, 'lock', String(locks[0])), 'utf8'));
    const owners = heirs.filter((heir) => heir.child.pid === holder.pid);
    expect(owners).toHaveLength(1);
    for (const heir of heirs) if (!owners.includes(heir)) heir.tell('stop');
    await Promise.all(heirs.filter((heir) => !owners.includes(heir)).map((heir) => heir.ended));
    expect(await answers(String(url))).toBe(true);
    owners[0]?.tell('stop');
    await owners[0]?.ended;
    expect(await answers(String(url))).toBe(false);
  });

  test('and whose server is killed too loses nothing committed, even if a reboot gave its number away', async () => {
    const supervisor = await bench.supervise(dataDir);
    const { url } = await supervisor.next();
    await query(String(url), "insert into photo values ('WL-8')");
    const pid = await serverPid(dataDir);
    await killSupervisor(supervisor);
    process.kill(pid, 'SIGKILL');
    await waitUntil('the server is gone', async () => !(await isRunning(pid)));
    const [lock] = await readdir(join(dataDir, 'lock'));
    const lockPath = join(dataDir, 'lock', String(lock));
    const holder = JSON.parse(await readFile(lockPath, 'utf8'));
    // The worst case: a live process with the same number that started as long after its boot.
    const startedAt = (await readFile('/proc/self/stat', 'utf8')).replace(/^.*\) /, '').split(' ')[19];
    await writeFile(lockPath, JSON.stringify({ ...holder, pid: process.pid, startedAt, bootId: 'the boot before' }));

    const next = await bench.start(dataDir);
    expect(next.adopted).toBe(false);
    expect(await query(next.adminUrl, 'select tag from photo order by tag')).toEqual([{ tag: 'WL-7' }, { tag: 'WL-8' }]);
    await next.stop();
  });
});

describe('the environment of a supervising process', () => {
  test('stays with it: the server gets none of its secrets', async () => {
    const supervisor = await bench.supervise(dataDir);
    const url = String((await supervisor.next()).url);
    await query(url, 'create table environment (line text)');
    await query(url, "copy environment from program 'env'");
    const lines = (await query<{ line: string }>(url, 'select line from environment')).map((row) => row.line);
    expect(lines).toContain('TZ=UTC');
    expect(lines.join('\n')).not.toMatch(/WRACKLINE_TEST_SECRET|must-not-reach-the-server/);
    supervisor.tell('stop');
    await supervisor.ended;
  });
});

describe('Ctrl-C in a terminal', () => {
  test('reaches the whole process group, yet the database answers until its supervisor stops it', async () => {
    const supervisor = await bench.supervise(dataDir);
    await supervisor.next();
    const pid = await serverPid(dataDir);
    process.kill(-Number(supervisor.child.pid), 'SIGINT');
    expect(await supervisor.next()).toEqual({ event: 'finished', answer: 42 });
    expect(await supervisor.ended).toBe(0);
    expect(await isRunning(pid)).toBe(false);
  });
});

describe('the command that ends a left-over database', () => {
  test('refuses while its owner lives, ends it afterwards, and finds nothing the second time', async () => {
    const supervisor = await bench.supervise(dataDir);
    const { url } = await supervisor.next();
    await expect(stopOrphan(dataDir)).rejects.toMatchObject({
      code: 'locked',
      message: expect.stringContaining(String(supervisor.child.pid)),
    });
    expect(await answers(String(url))).toBe(true);
    await killSupervisor(supervisor);
    expect(await stopOrphan(dataDir)).toBe('stopped');
    expect(await answers(String(url))).toBe(false);
    expect(await stopOrphan(dataDir)).toBe('not-running');
    expect(await stopOrphan(join(bench.dir, 'never-made'))).toBe('not-running');
  });
});

describe('the owner lock', () => {
  // Claims only, without a server: many rounds of the moment in which a dead owner is replaced.
  const CLAIMS = `
    import { claimOwnership } from './lib/owner-lock.js';
    process.stdout.write('up\\n');
    await new Promise((resolve) => process.stdin.once('data', resolve));
    const claims = await Promise.all(Array.from({ length: 8 }, () => claimOwnership(process.argv[2])));
    process.stdout.write(claims.filter((claim) => claim.kind === 'owned').length + '\\n');
    await new Promise((resolve) => process.stdin.once('data', resolve));
    process.exit(0);`;

  test('goes to exactly one of 32 simultaneous claims in 4 processes after each death of its holder', async () => {
    await bench.compile();
    const script = join(bench.dir, 'claims.mjs');
    await writeFile(script, CLAIMS);
    for (let round = 0; round < 4; round += 1) {
      const claimants = [1, 2, 3, 4].map(() =>
        spawn(process.execPath, [script, join(dataDir, 'lock')], { stdio: ['pipe', 'pipe', 'inherit'] }),
      );
      await Promise.all(claimants.map(({ stdout }) => once(stdout, 'data')));
      const results = claimants.map(({ stdout }) => once(stdout, 'data'));
      for (const { stdin } of claimants) stdin.write('go\n');
      const counts = (await Promise.all(results)).map(([chunk]) => Number(String(chunk)));
      const ends = claimants.map((claimant) => once(claimant, 'exit'));
      for (const claimant of claimants) claimant.kill('SIGKILL');
      await Promise.all(ends);
      expect(counts.reduce((sum, count) => sum + count, 0)).toBe(1);
    }
  });
});
