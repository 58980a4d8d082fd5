import { readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';

import { EmbeddedPostgresError } from './embedded-postgres.error.js';
import type { PostgresBinaries } from './postgres-binaries.js';
import { pidExists, processCwd, processStart } from './process-identity.js';
import { runChild } from './run-child.js';
import type { ServerUser } from './server-user.js';
import type { StateDir } from './state-dir.js';

const FAST_STOP_S = 30;
const IMMEDIATE_STOP_S = 10;
const KILL_WAIT_MS = 10_000;
const POLL_MS = 50;
const WATCH_MS = 1_000;

/** A live server process of this state directory. */
export interface RunningPostmaster {
  pid: number;
  port: number;
  /** As the server writes it: `starting`, `ready`, `stopping`, or empty in its first moments. */
  status: string;
}

/** What postmaster.pid says, checked against the live processes. */
export type PostmasterState =
  | { kind: 'running'; server: RunningPostmaster }
  /** No file, or a file of a process that is gone. */
  | { kind: 'none' }
  /** The file's number now belongs to a process that is certainly not this server. */
  | { kind: 'pid-reused'; pid: number };

/** Reads who serves the cluster now. */
export async function findPostmaster(dir: StateDir): Promise<PostmasterState> {
  const text = await readFile(pidFile(dir), 'utf8').catch(() => null);
  if (text === null) return { kind: 'none' };
  // PostgreSQL documentation, "Database File Layout": pid, data directory, start time, port, socket
  // directory, first listen address, shared memory id; the status follows as pg_ctl itself reads it.
  const lines = text.split('\n').map((line) => line.trim());
  const pid = Number.parseInt(lines[0] ?? '', 10);
  if (!Number.isInteger(pid) || pid <= 0 || !pidExists(pid) || (await processStart(pid)) === null) {
    return { kind: 'none' };
  }
  if (process.platform === 'linux' && (await processCwd(pid)) !== dir.clusterDir) {
    // A server works in its data directory, and one of ours is never hidden from us.
    return { kind: 'pid-reused', pid };
  }
  return { kind: 'running', server: { pid, port: Number.parseInt(lines[3] ?? '', 10) || 0, status: lines[7] ?? '' } };
}

/**
 * Removes a pid file whose number was given to another process, as after a power cut; PostgreSQL
 * would take that process for a running server and refuse to start. It still checks by the shared
 * memory block that no old server process works on the files.
 */
export async function dropReusedPidFile(dir: StateDir): Promise<void> {
  if ((await findPostmaster(dir)).kind === 'pid-reused') await rm(pidFile(dir), { force: true });
}

/** Ends the server if one runs: fast (clients cut, clean shutdown), then immediate, then by force; all crash-safe. */
export async function stopPostmaster(
  dir: StateDir,
  binaries: PostgresBinaries,
  user: ServerUser | null,
  log: (message: string) => void,
): Promise<'stopped' | 'not-running'> {
  const found = await findPostmaster(dir);
  if (found.kind !== 'running') return 'not-running';
  const { pid } = found.server;
  const modes = [['fast', FAST_STOP_S], ['immediate', IMMEDIATE_STOP_S]] as const;
  for (const [mode, limitS] of modes) {
    await runPgCtlStop(dir, binaries, user, mode, limitS);
    if (await waitForEnd(pid, 1_000)) return 'stopped';
    log(`PostgreSQL (process ${pid}) did not end within ${limitS} s of a ${mode} stop.`);
  }
  const again = await findPostmaster(dir);
  if (again.kind === 'running' && again.server.pid === pid) process.kill(pid, 'SIGKILL');
  if (await waitForEnd(pid, KILL_WAIT_MS)) return 'stopped';
  throw new EmbeddedPostgresError('start_failed', `PostgreSQL (process ${pid}) in ${dir.root} cannot be ended.`);
}

/** Resolves with how a server that is not our child ended; looks once a second, which keeps no process alive. */
export async function watchPostmaster(pid: number): Promise<string> {
  const started = await processStart(pid);
  while (started !== null && (await processStart(pid)) === started) await sleep(WATCH_MS, undefined, { ref: false });
  return 'gone';
}

async function runPgCtlStop(
  dir: StateDir,
  binaries: PostgresBinaries,
  user: ServerUser | null,
  mode: string,
  limitS: number,
): Promise<void> {
  const args = ['stop', '-D', dir.clusterDir, '-m', mode, '-w', '-t', String(limitS), '-s'];
  await runChild(binaries.pgCtl, args, { timeoutMs: (limitS + 5) * 1_000, user });
}

async function waitForEnd(pid: number, limitMs: number): Promise<boolean> {
  const deadline = Date.now() + limitMs;
  while ((await processStart(pid)) !== null) {
    if (Date.now() >= deadline) return false;
    await sleep(POLL_MS);
  }
  return true;
}

function pidFile(dir: StateDir): string {
  return join(dir.clusterDir, 'postmaster.pid');
}
