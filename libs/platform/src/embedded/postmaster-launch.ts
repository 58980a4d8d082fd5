import { spawn } from 'node:child_process';
import type { ChildProcess } from 'node:child_process';
import { open, readdir, stat } from 'node:fs/promises';
import { Socket } from 'node:net';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';

import { LOOPBACK } from './free-port.js';
import type { PostgresBinaries } from './postgres-binaries.js';
import { findPostmaster } from './postmaster.js';
import { asUser, CHILD_ENV, keepTail } from './run-child.js';
import type { ServerUser } from './server-user.js';
import type { StateDir } from './state-dir.js';

// Replaying the log after a power cut may take minutes, and cutting it short would only repeat it.
const READY_LIMIT_MS = 600_000;
const PROGRESS_MS = 10_000;
const POLL_MS = 50;
const LOG_TAIL_CHARS = 16 * 1024;

/** How launching the server ended: ready, or ended early with everything it printed and logged. */
export type Launch =
  | { kind: 'ready'; pid: number; ended: Promise<string> }
  | { kind: 'failed'; output: string };

/**
 * What must hold whatever the cluster's own configuration says, hence given on the command line:
 * loopback only, no local socket, every commit on disk, bounded logs without personal data (a terse
 * log drops the DETAIL lines, which quote stored values).
 */
function settings(dir: StateDir, port: number): string[] {
  const fixed: readonly (readonly [string, string])[] = [
    ['listen_addresses', LOOPBACK],
    ['port', String(port)],
    ['unix_socket_directories', ''],
    ['fsync', 'on'],
    ['full_page_writes', 'on'],
    ['synchronous_commit', 'on'],
    ['password_encryption', 'scram-sha-256'],
    ['logging_collector', 'on'],
    ['log_destination', 'stderr'],
    ['log_directory', dir.logDir],
    ['log_filename', 'postgres-%a.log'],
    ['log_file_mode', '0600'],
    ['log_rotation_age', '1d'],
    ['log_rotation_size', '0'],
    ['log_truncate_on_rotation', 'on'],
    ['log_error_verbosity', 'terse'],
    ['log_parameter_max_length', '0'],
  ];
  return fixed.flatMap(([name, value]) => ['-c', `${name}=${value}`]);
}

/**
 * Starts the server in a session of its own: a terminal's Ctrl-C goes to our process group, and only
 * the supervisor may end the server. `postgres` is started directly rather than through `pg_ctl
 * start`: no shell sees our paths, its early messages reach us even when the disk is full, and its
 * end is noticed.
 */
export async function launchPostmaster(
  dir: StateDir,
  binaries: PostgresBinaries,
  user: ServerUser | null,
  port: number,
  log: (message: string) => void,
): Promise<Launch> {
  const logSizes = await readLogSizes(dir);
  const child = spawn(binaries.postgres, ['-D', dir.clusterDir, ...settings(dir, port)], {
    cwd: '/',
    env: { ...CHILD_ENV },
    stdio: ['ignore', 'ignore', 'pipe'],
    detached: true,
    ...asUser(user),
  });
  const run = watch(child);
  const ready = await waitUntilReady(dir, child, run, log);
  // From here on nothing of the server may keep our process alive.
  child.unref();
  if (child.stderr instanceof Socket) child.stderr.unref();
  if (ready && child.pid !== undefined) return { kind: 'ready', pid: child.pid, ended: run.ended };
  return { kind: 'failed', output: run.output() + (await readNewLog(dir, logSizes)) };
}

interface Watched {
  /** Resolves with how it ended, in words. */
  ended: Promise<string>;
  hasEnded(): boolean;
  output(): string;
}

function watch(child: ChildProcess): Watched {
  let output = '';
  let over = false;
  child.stderr?.on('data', (chunk: Buffer) => {
    output = keepTail(output + chunk.toString('utf8'));
  });
  const ended = new Promise<string>((resolve) => {
    child.once('error', (error) => {
      output += error.message;
      over = true;
      resolve(error.message);
    });
    // Not 'close': the log collector may hold the pipe a little longer than the server lives.
    child.once('exit', (code, signal) => {
      over = true;
      resolve(signal ?? `exit ${code}`);
    });
  });
  return { ended, hasEnded: () => over, output: () => output };
}

async function waitUntilReady(
  dir: StateDir,
  child: ChildProcess,
  run: Watched,
  log: (message: string) => void,
): Promise<boolean> {
  const start = Date.now();
  let nextReport = start + PROGRESS_MS;
  while (!run.hasEnded()) {
    const found = await findPostmaster(dir);
    if (found.kind === 'running' && found.server.pid === child.pid && found.server.status === 'ready') return true;
    if (Date.now() - start > READY_LIMIT_MS) {
      child.kill('SIGQUIT');
      await run.ended;
      return false;
    }
    if (Date.now() >= nextReport) {
      log('PostgreSQL is still starting; after a power cut it first replays its log.');
      nextReport += PROGRESS_MS;
    }
    await Promise.race([sleep(POLL_MS), run.ended]);
  }
  // Let the last lines arrive that were on their way when the process ended.
  await sleep(POLL_MS);
  return false;
}

async function readLogSizes(dir: StateDir): Promise<Map<string, number>> {
  const sizes = new Map<string, number>();
  for (const name of await readdir(dir.logDir)) sizes.set(name, (await stat(join(dir.logDir, name))).size);
  return sizes;
}

async function readNewLog(dir: StateDir, before: Map<string, number>): Promise<string> {
  let text = '';
  for (const [name, size] of await readLogSizes(dir)) {
    const from = Math.max(before.get(name) ?? 0, size - LOG_TAIL_CHARS);
    if (size <= from) continue;
    const file = await open(join(dir.logDir, name), 'r');
    try {
      const { buffer, bytesRead } = await file.read(Buffer.alloc(size - from), 0, size - from, from);
      text += buffer.toString('utf8', 0, bytesRead);
    } finally {
      await file.close();
    }
  }
  return text;
}
