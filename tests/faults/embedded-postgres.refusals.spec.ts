import { execFile } from 'node:child_process';
import { createWriteStream } from 'node:fs';
import { chmod, cp, lstat, mkdir, readdir, readFile, rm, stat, symlink, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { promisify } from 'node:util';

import { afterAll, beforeAll, describe, expect, jest, test } from '@jest/globals';

import { classifyServerFailure, freePort, startEmbeddedPostgres } from '#platform';

import { AS_ROOT, query, Workbench } from './embedded-postgres.harness.js';

const run = promisify(execFile);
const START_LIMIT_MS = 180_000;

// Each wait inside is bounded by itself; this only keeps a busy machine from failing a sound run.
jest.setTimeout(START_LIMIT_MS);

let bench: Workbench;

beforeAll(async () => {
  bench = await Workbench.open();
});

afterAll(() => bench.clean());

async function filesOf(dir: string): Promise<Record<string, string>> {
  const found: Record<string, string> = {};
  for (const entry of await readdir(dir, { recursive: true, withFileTypes: true })) {
    const path = join(entry.parentPath, entry.name);
    const mode = ((await stat(path)).mode & 0o777).toString(8);
    found[path] = entry.isFile() ? `${mode} ${await readFile(path, 'utf8')}` : mode;
  }
  return found;
}

/** A state directory of ours in which no database was created yet, because its port was taken. */
async function preparedStateDir(name: string): Promise<string> {
  const dataDir = join(bench.dir, name);
  const foreign = await bench.occupy(0);
  expect((await bench.refusal(dataDir, foreign.port)).code).toBe('port_taken');
  await foreign.release();
  return dataDir;
}

describe('a data folder that is not ours to use is refused and left as it was', () => {
  test('the cluster of another major version: wrong_major', async () => {
    const dataDir = await preparedStateDir('older');
    await mkdir(join(dataDir, 'cluster'));
    if (AS_ROOT) await run('chown', ['postgres', join(dataDir, 'cluster')]).catch(() => undefined);
    await writeFile(join(dataDir, 'cluster', 'PG_VERSION'), '15\n');
    const before = await filesOf(dataDir);
    const refusal = await bench.refusal(dataDir);
    expect(refusal.code).toBe('wrong_major');
    expect(refusal.message).toMatch(/written by PostgreSQL 15\b.*\b18\b/);
    expect(await filesOf(dataDir)).toEqual(before);
  });

  test("somebody's files: foreign_data_dir", async () => {
    const dataDir = join(bench.dir, 'letters');
    await mkdir(dataDir);
    await writeFile(join(dataDir, 'letter.txt'), 'dear');
    const before = await filesOf(dataDir);
    const refusal = await bench.refusal(dataDir);
    expect(refusal.code).toBe('foreign_data_dir');
    expect(refusal.message).toContain('letter.txt');
    expect(await filesOf(dataDir)).toEqual(before);
  });

  test('a plain PostgreSQL data directory: foreign_data_dir', async () => {
    const dataDir = join(bench.dir, 'plain-cluster');
    await mkdir(dataDir);
    await writeFile(join(dataDir, 'PG_VERSION'), '18\n');
    expect((await bench.refusal(dataDir)).code).toBe('foreign_data_dir');
    expect(await readdir(dataDir)).toEqual(['PG_VERSION']);
  });

  test('a file: foreign_data_dir', async () => {
    const path = join(bench.dir, 'just-a-file');
    await writeFile(path, 'x');
    expect((await bench.refusal(path)).code).toBe('foreign_data_dir');
    expect(await readFile(path, 'utf8')).toBe('x');
  });

  test('a database whose password is missing: foreign_data_dir, and no new password is made', async () => {
    const dataDir = await preparedStateDir('no-password');
    await mkdir(join(dataDir, 'cluster'));
    await writeFile(join(dataDir, 'cluster', 'PG_VERSION'), '18\n');
    await rm(join(dataDir, 'secrets', 'admin-password'), { force: true });
    const refusal = await bench.refusal(dataDir);
    expect(refusal.code).toBe('foreign_data_dir');
    expect(refusal.message).toContain(join(dataDir, 'secrets', 'admin-password'));
    expect(await readdir(join(dataDir, 'secrets'))).toEqual([]);
  });

  test('one that a process on another machine holds: locked, naming machine and lock file', async () => {
    const dataDir = await preparedStateDir('two-machines');
    const [released] = await readdir(join(dataDir, 'lock'));
    const lockPath = join(dataDir, 'lock', String(released));
    const holder = { pid: 4711, startedAt: '1', hostname: 'other-hall', bootId: 'b', pidNamespace: 'n', token: 't' };
    await writeFile(lockPath, JSON.stringify(holder));
    const refusal = await bench.refusal(dataDir);
    expect(refusal.code).toBe('locked');
    expect(refusal.message).toContain('"other-hall"');
    expect(refusal.message).toContain(lockPath);
    expect(JSON.parse(await readFile(lockPath, 'utf8'))).toEqual(holder);
  });
});

describe('what cannot work is told in words that help', () => {
  test('a folder on the way that is closed to the server is named', async () => {
    const closed = join(bench.dir, 'closed');
    const dataDir = join(closed, 'pg');
    await mkdir(closed);
    await chmod(closed, 0o600);
    const refusal = await bench.refusal(dataDir);
    expect(refusal.message).toContain(closed);
    await chmod(closed, 0o700);
  });

  test.each([0, -1, 1.5, 65_536, Number.NaN])('port %p is refused before anything is made', async (port) => {
    const dataDir = join(bench.dir, 'bad-port');
    const refusal = await bench.refusal(dataDir, port);
    expect(refusal.code).toBe('start_failed');
    expect(refusal.message).toContain('from 1 to 65535');
    await expect(stat(dataDir)).rejects.toMatchObject({ code: 'ENOENT' });
  });

  test('an empty data folder name is refused', async () => {
    await expect(startEmbeddedPostgres({ dataDir: ' ', log: () => undefined })).rejects.toMatchObject({
      code: 'start_failed',
    });
  });

  test('an insisted port that is taken is told at once, before a database is created', async () => {
    const dataDir = await preparedStateDir('taken');
    expect(await readdir(dataDir)).not.toContain('cluster');
  });
});

describe('the messages of the server programs', () => {
  // Printed by the programs of PostgreSQL 18.4 (npm 18.4.0-beta.17) when each case was provoked on Debian 12.
  test.each([
    ['disk_full', 'FATAL:  could not extend file "base/1/2691": No space left on device\nHINT:  Check free disk space.'],
    ['port_taken', 'LOG:  could not bind IPv4 address "127.0.0.1": Address already in use'],
    ['port_taken', 'LOG:  could not bind IPv4 address "127.0.0.1": Permission denied'],
    ['locked', 'FATAL:  lock file "postmaster.pid" already exists'],
    ['wrong_major', 'FATAL:  database files are incompatible with server'],
    [
      'binaries_missing',
      'n/bin/postgres: error while loading shared libraries: libicui18n.so.60: cannot open shared object file: No such file or directory',
    ],
    ['start_failed', 'FATAL:  unrecognized configuration parameter "wet"'],
    ['start_failed', ''],
  ])('mean %s: %s', (code, text) => {
    expect(classifyServerFailure(text)).toBe(code);
  });
});

describe('a package whose install script did not run', () => {
  test('gets its library links made at the first start', async () => {
    const name = `@embedded-postgres/${process.platform}-${process.arch}`;
    const installed = dirname(dirname(createRequire(import.meta.url).resolve(name)));
    const nodeModules = join(bench.dir, 'bare_modules');
    const copy = join(nodeModules, name);
    await cp(installed, copy, { recursive: true, verbatimSymlinks: true });
    const links: { target: string }[] = JSON.parse(await readFile(join(copy, 'native', 'pg-symlinks.json'), 'utf8'));
    expect(links.length).toBeGreaterThan(0);
    for (const { target } of links) await rm(join(copy, target), { force: true });
    await symlink(dirname(createRequire(import.meta.url).resolve('pg/package.json')), join(nodeModules, 'pg'));

    const script = join(dirname(await bench.compile(nodeModules)), 'prepare.mjs');
    await writeFile(
      script,
      `import { locateBinaries, prepareBinaries } from './lib/postgres-binaries.js';
       const binaries = locateBinaries();
       await prepareBinaries(binaries, null, () => undefined);
       console.log(binaries.packageDir);`,
    );
    const { stdout } = await run(process.execPath, [script]);
    expect(stdout.trim()).toBe(copy);
    for (const { target } of links) expect((await lstat(join(copy, target))).isSymbolicLink()).toBe(true);
  });
});

describe('a full disk', () => {
  const mounts: string[] = [];

  async function mountSmallDisk(dir: string): Promise<boolean> {
    await mkdir(dir);
    try {
      await run('mount', ['-t', 'tmpfs', '-o', 'size=20m,mode=0755', 'tmpfs', dir]);
      mounts.push(dir);
      return true;
    } catch {
      // Not root, or mounting is not permitted here: the messages are still judged, from real text.
      return false;
    }
  }

  async function fillUp(path: string): Promise<void> {
    const block = Buffer.alloc(1024 * 1024, 1);
    const file = createWriteStream(path);
    await new Promise<void>((resolve, reject) => {
      const more = (error?: NodeJS.ErrnoException | null): void => {
        if (!error) file.write(block, more);
        else if (error.code === 'ENOSPC') resolve();
        else reject(error);
      };
      file.on('error', () => undefined);
      more();
    });
  }

  afterAll(async () => {
    for (const dir of mounts) await run('umount', [dir]);
  });

  test('is disk_full while creating, leaves no half database, and works once there is room', async () => {
    const disk = join(bench.dir, 'disk');
    if (!(await mountSmallDisk(disk))) {
      expect(classifyServerFailure('could not write to file: No space left on device')).toBe('disk_full');
      return;
    }
    const dataDir = join(disk, 'pg');
    const refusal = await bench.refusal(dataDir);
    expect(refusal.code).toBe('disk_full');
    expect(refusal.message).toContain(dataDir);
    const left = await readdir(dataDir);
    expect(left.filter((name) => name.startsWith('cluster'))).toEqual([]);

    await run('mount', ['-o', 'remount,size=300m', disk]);
    const started = await bench.start(dataDir);
    await query(started.adminUrl, 'create table letter as select 1 as n');
    await started.stop();

    await fillUp(join(disk, 'filler'));
    expect((await bench.refusal(dataDir)).code).toBe('disk_full');
    await rm(join(disk, 'filler'));
    const again = await bench.start(dataDir, await freePort());
    expect(await query(again.adminUrl, 'select n from letter')).toEqual([{ n: 1 }]);
    await again.stop();
  });
});
