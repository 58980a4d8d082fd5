import { randomBytes } from 'node:crypto';
import { chmod, chown, mkdir, readdir, readFile, realpath, stat } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';

import { createFileOnce, replaceFile } from './atomic-file.js';
import { EmbeddedPostgresError, systemErrorCode } from './embedded-postgres.error.js';
import { POSTGRES_MAJOR } from './postgres-binaries.js';
import { firstClosedFolder } from './server-user.js';
import type { ServerUser } from './server-user.js';

const MARKER_NAME = 'state.json';
const MARKER_FORMAT = 'wrackline-embedded-postgres';
const PASSWORD_BYTES = 32;

/** The one directory that holds everything: what lies where. */
export interface StateDir {
  /** Absolute, with symbolic links resolved. */
  root: string;
  /** PostgreSQL's own data directory; belongs to the server's user. */
  clusterDir: string;
  /** Server logs, one file per weekday, overwritten a week later; belongs to the server's user. */
  logDir: string;
  /** Superuser password; belongs to us, closed to everyone else. */
  secretsDir: string;
  /** Who supervises the server. */
  lockDir: string;
}

/** Names the parts of a state directory without touching the disk. */
export function layOutStateDir(root: string): StateDir {
  return {
    root,
    clusterDir: join(root, 'cluster'),
    logDir: join(root, 'log'),
    secretsDir: join(root, 'secrets'),
    lockDir: join(root, 'lock'),
  };
}

/** Turns the caller's path into an absolute one; refuses what PostgreSQL's own files cannot express. */
export function absoluteDataDir(dataDir: string): string {
  if (dataDir.trim() === '' || /[\r\n\0]/.test(dataDir)) {
    throw new EmbeddedPostgresError('start_failed', 'Name a data folder: one path, without line breaks.');
  }
  return resolve(dataDir);
}

/**
 * Refuses a folder that is not ours to use, changing nothing: a cluster of another major version
 * (`wrong_major`), somebody's files, or a cluster whose password we do not hold (`foreign_data_dir`).
 */
export async function inspectStateDir(root: string): Promise<void> {
  const entries = await listOrNull(root);
  if (entries === null) return;
  const dir = layOutStateDir(root);
  const major = await readOrNull(join(dir.clusterDir, 'PG_VERSION'));
  if (major !== null && major.trim() !== String(POSTGRES_MAJOR)) {
    throw new EmbeddedPostgresError(
      'wrong_major',
      `The data folder ${root} was written by PostgreSQL ${major.trim()}, this release runs PostgreSQL ` +
        `${POSTGRES_MAJOR}. Export with the release that wrote it and import into a new data folder; nothing was changed.`,
    );
  }
  // An interrupted first start leaves only drafts of the marker; a new volume brings lost+found.
  const others = entries.filter((name) => !name.startsWith(MARKER_NAME) && name !== 'lost+found');
  if (others.length > 0 && !(await hasMarker(root))) {
    throw new EmbeddedPostgresError(
      'foreign_data_dir',
      `The folder ${root} holds files that Wrackline did not put there (${others.slice(0, 3).join(', ')}). ` +
        'Choose an empty or a new data folder; nothing was changed.',
    );
  }
  if (major !== null && (await readOrNull(passwordPath(dir))) === null) {
    throw new EmbeddedPostgresError(
      'foreign_data_dir',
      `The data folder ${root} holds a database, but not its superuser password (${passwordPath(dir)}). ` +
        'Put that file back from where the folder was copied from; nothing was changed.',
    );
  }
}

/** Creates what is missing of the state directory and checks that the server's user can reach it. */
export async function openStateDir(path: string, user: ServerUser | null): Promise<StateDir> {
  await makeReachable(path, user);
  const root = await realpath(path);
  const dir = layOutStateDir(root);
  await createFileOnce(join(root, MARKER_NAME), marker(null));
  for (const own of [dir.secretsDir, dir.lockDir]) await makePrivate(own, null);
  await makePrivate(dir.logDir, user);
  const closed = await firstClosedFolder(root, user);
  if (closed !== null) throw closedFolder(closed, root, user);
  return dir;
}

async function makeReachable(path: string, user: ServerUser | null): Promise<void> {
  const topmostNew = await mkdir(path, { recursive: true, mode: user ? 0o755 : 0o700 });
  if (!user) return;
  // Whatever root's umask is, the server's user must be able to pass through our own folder and
  // whatever we had to make above it.
  await chmod(path, 0o711);
  if (topmostNew === undefined) return;
  for (let at = path; ; at = dirname(at)) {
    await chmod(at, 0o711);
    if (at === topmostNew || at === dirname(at)) return;
  }
}

/** Creates a folder that only its user may enter; also corrects one with looser permissions. */
export async function makePrivate(path: string, user: ServerUser | null): Promise<void> {
  await mkdir(path, { recursive: true, mode: 0o700 });
  if (user) await chown(path, user.uid, user.gid);
  await chmod(path, 0o700);
}

function closedFolder(folder: string, root: string, user: ServerUser | null): EmbeddedPostgresError {
  return new EmbeddedPostgresError(
    'start_failed',
    `The folder ${folder} is closed to the operating-system user that runs the server ` +
      `(${user?.name ?? 'yourself'}), so the data folder ${root} cannot be used. ` +
      `Open it with "chmod o+x ${folder}", or choose a data folder elsewhere.`,
  );
}

/** The port used last time, or null before the first start. */
export async function storedPort(dir: StateDir): Promise<number | null> {
  const state = await readMarker(dir.root);
  const port = state !== null && 'port' in state ? state.port : null;
  return typeof port === 'number' && isTcpPort(port) ? port : null;
}

/** Remembers the port for the next start. */
export async function storePort(dir: StateDir, port: number): Promise<void> {
  await replaceFile(join(dir.root, MARKER_NAME), marker(port));
}

/** Tells whether a number can be a TCP port to listen on. */
export function isTcpPort(port: number): boolean {
  return Number.isInteger(port) && port >= 1 && port <= 65_535;
}

/** The superuser's password, made at the first call (256 random bits) and kept in a file of mode 0600. */
export async function adminPassword(dir: StateDir): Promise<string> {
  await createFileOnce(passwordPath(dir), randomBytes(PASSWORD_BYTES).toString('base64url'));
  await chmod(passwordPath(dir), 0o600);
  const password = (await readFile(passwordPath(dir), 'utf8')).trim();
  if (password !== '') return password;
  throw new EmbeddedPostgresError(
    'foreign_data_dir',
    `The password file ${passwordPath(dir)} is empty. Put it back from where the folder was copied from.`,
  );
}

/** Tells whether the database was created completely. */
export async function hasCluster(dir: StateDir): Promise<boolean> {
  return (await stat(join(dir.clusterDir, 'PG_VERSION')).catch(() => null)) !== null;
}

function passwordPath(dir: StateDir): string {
  return join(dir.secretsDir, 'admin-password');
}

function marker(port: number | null): string {
  return `${JSON.stringify({ format: MARKER_FORMAT, port })}\n`;
}

async function hasMarker(root: string): Promise<boolean> {
  const state = await readMarker(root);
  return state !== null && 'format' in state && state.format === MARKER_FORMAT;
}

async function readMarker(root: string): Promise<object | null> {
  const text = await readOrNull(join(root, MARKER_NAME));
  if (text === null) return null;
  try {
    const parsed: unknown = JSON.parse(text);
    return typeof parsed === 'object' ? parsed : null;
  } catch {
    return null;
  }
}

async function readOrNull(path: string): Promise<string | null> {
  try {
    return await readFile(path, 'utf8');
  } catch (error) {
    if (systemErrorCode(error) === 'ENOENT') return null;
    throw error;
  }
}

async function listOrNull(root: string): Promise<string[] | null> {
  try {
    return await readdir(root);
  } catch (error) {
    if (systemErrorCode(error) === 'ENOENT') return null;
    if (systemErrorCode(error) !== 'ENOTDIR') throw error;
    throw new EmbeddedPostgresError('foreign_data_dir', `${root} is a file. Name a folder for the data.`);
  }
}
