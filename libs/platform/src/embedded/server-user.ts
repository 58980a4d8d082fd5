import { access, constants, stat } from 'node:fs/promises';
import { dirname } from 'node:path';

import { EmbeddedPostgresError, systemErrorCode } from './embedded-postgres.error.js';
import { runChild } from './run-child.js';

/** The unprivileged operating-system user that the server runs as when we are root. */
export interface ServerUser {
  name: string;
  uid: number;
  gid: number;
}

const HELPER_TIMEOUT_MS = 10_000;
const DISTRIBUTION_USER = 'postgres';
const OWN_USER = 'wrackline';

/**
 * Decides who runs the server. As an ordinary user: ourselves (null). PostgreSQL refuses to run as
 * root, so as root: whoever owns an existing cluster, else the distribution's `postgres` user, else
 * a system user `wrackline` that is created once.
 */
export async function chooseServerUser(clusterDir: string): Promise<ServerUser | null> {
  if (process.platform === 'win32') {
    throw new EmbeddedPostgresError(
      'binaries_missing',
      'The embedded database does not run on Windows. Give DATABASE_URL of a PostgreSQL 18 server.',
    );
  }
  if (process.getuid?.() !== 0) return null;
  const owner = await stat(clusterDir).catch(() => null);
  if (owner?.uid === 0) {
    throw new EmbeddedPostgresError(
      'foreign_data_dir',
      `The folder ${clusterDir} belongs to root, so no PostgreSQL made it. Choose another data folder.`,
    );
  }
  if (owner) return { name: `uid ${owner.uid}`, uid: owner.uid, gid: owner.gid };
  return (await lookUp(DISTRIBUTION_USER)) ?? (await lookUp(OWN_USER)) ?? createOwnUser();
}

async function lookUp(name: string): Promise<ServerUser | null> {
  const ids: number[] = [];
  for (const flag of ['-u', '-g']) {
    const { exitCode, output } = await runChild('id', [flag, name], { timeoutMs: HELPER_TIMEOUT_MS });
    if (exitCode !== 0) return null;
    ids.push(Number.parseInt(output, 10));
  }
  const [uid, gid] = ids;
  return uid && gid ? { name, uid, gid } : null;
}

async function createOwnUser(): Promise<ServerUser> {
  const args = ['--system', '--user-group', '--no-create-home', '--home-dir', '/nonexistent'];
  let reason = 'the program useradd is not installed';
  try {
    const result = await runChild('useradd', [...args, '--shell', '/usr/sbin/nologin', OWN_USER], {
      timeoutMs: HELPER_TIMEOUT_MS,
    });
    const created = await lookUp(OWN_USER);
    if (created) return created;
    reason = result.output.trim();
  } catch (error) {
    if (systemErrorCode(error) !== 'ENOENT') reason = String(error);
  }
  throw new EmbeddedPostgresError(
    'start_failed',
    'PostgreSQL refuses to run as root, and there is no unprivileged user for it: ' +
      `neither "${DISTRIBUTION_USER}" nor "${OWN_USER}" exists and creating "${OWN_USER}" failed (${reason}). ` +
      `Create a system user named "${OWN_USER}", or start as an ordinary user.`,
  );
}

/**
 * The topmost folder on the way to (and including) `dir` that the user may not pass through, or null.
 * Asked of the system itself by a probe running as that user, so access lists count too.
 */
export async function firstClosedFolder(dir: string, user: ServerUser | null): Promise<string | null> {
  const chain = [dir];
  for (let at = dir; at !== dirname(at); at = dirname(at)) chain.unshift(dirname(at));
  if (!user) {
    for (const folder of chain) {
      if (!(await access(folder, constants.X_OK).then(() => true, () => false))) return folder;
    }
    return null;
  }
  const probe = 'for d do cd "$d" 2>/dev/null || { printf %s "$d"; exit 3; }; done';
  const { exitCode, output } = await runChild('/bin/sh', ['-c', probe, 'sh', ...chain], {
    timeoutMs: HELPER_TIMEOUT_MS,
    user,
  });
  return exitCode === 0 ? null : output || dir;
}
