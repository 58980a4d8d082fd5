import { randomBytes } from 'node:crypto';
import { chown, readdir, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';

import { ADMIN_ROLE } from './admin-connection.js';
import { syncDir } from './atomic-file.js';
import { classifyServerFailure, diskFull, EmbeddedPostgresError } from './embedded-postgres.error.js';
import type { PostgresBinaries } from './postgres-binaries.js';
import { runChild } from './run-child.js';
import type { ServerUser } from './server-user.js';
import { hasCluster, makePrivate } from './state-dir.js';
import type { StateDir } from './state-dir.js';

const DRAFT_PREFIX = 'cluster.draft-';
const INITDB_TIMEOUT_MS = 300_000;

/** PostgreSQL's own defaults, written out so that a machine with little shared memory fails loudly. */
const SIZING = ['max_connections=100', 'shared_buffers=128MB'];

/**
 * Creates the database once. initdb works in a draft folder that gets its final name only when all
 * is done, so an interrupted or failed creation is never mistaken for a database.
 */
export async function ensureCluster(
  dir: StateDir,
  binaries: PostgresBinaries,
  user: ServerUser | null,
  password: string,
  log: (message: string) => void,
): Promise<void> {
  await removeDrafts(dir);
  if (await hasCluster(dir)) return;
  log(`Creating a new PostgreSQL database in ${dir.root}; this is done once.`);
  const draftDir = join(dir.root, `${DRAFT_PREFIX}${randomBytes(6).toString('hex')}`);
  const draftCluster = join(draftDir, 'cluster');
  try {
    await makePrivate(draftDir, user);
    await makePrivate(draftCluster, user);
    await runInitdb(dir, draftDir, draftCluster, binaries, user, password);
    await rename(draftCluster, dir.clusterDir);
    await syncDir(dir.root);
  } finally {
    await rm(draftDir, { recursive: true, force: true });
  }
}

async function runInitdb(
  dir: StateDir,
  draftDir: string,
  draftCluster: string,
  binaries: PostgresBinaries,
  user: ServerUser | null,
  password: string,
): Promise<void> {
  // Only initdb's user may read it, inside a folder only that user may enter, and only during initdb.
  const passwordFile = join(draftDir, 'initdb-password');
  await writeFile(passwordFile, password, { mode: 0o600, flag: 'wx' });
  if (user) await chown(passwordFile, user.uid, user.gid);
  const args = [
    '--pgdata', draftCluster,
    '--username', ADMIN_ROLE,
    '--pwfile', passwordFile,
    '--auth-local=scram-sha-256',
    '--auth-host=scram-sha-256',
    '--encoding=UTF8',
    '--locale=C',
    '--locale-provider=builtin',
    '--builtin-locale=C.UTF-8',
    '--data-checksums',
    ...SIZING.flatMap((setting) => ['--set', setting]),
  ];
  const { exitCode, output } = await runChild(binaries.initdb, args, { timeoutMs: INITDB_TIMEOUT_MS, user });
  await rm(passwordFile, { force: true });
  if (exitCode === 0) return;
  const reason = output.trim().split('\n').slice(-6).join('\n');
  const code = classifyServerFailure(output);
  if (code === 'disk_full') throw diskFull(dir.root, reason);
  throw new EmbeddedPostgresError(code, `Creating the database in ${dir.root} failed; nothing is left of it.\n${reason}`);
}

async function removeDrafts(dir: StateDir): Promise<void> {
  for (const name of await readdir(dir.root)) {
    if (name.startsWith(DRAFT_PREFIX)) await rm(join(dir.root, name), { recursive: true, force: true });
  }
}
