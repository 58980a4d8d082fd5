import { setTimeout as sleep } from 'node:timers/promises';

import { askServer } from './admin-connection.js';
import type { Answer } from './admin-connection.js';
import { ensureCluster } from './cluster.js';
import { classifyServerFailure, diskFull, EmbeddedPostgresError } from './embedded-postgres.error.js';
import { freePort, isPortFree } from './free-port.js';
import { keepRunning } from './keep-running.js';
import type { ServerRun } from './keep-running.js';
import type { PostgresBinaries } from './postgres-binaries.js';
import { dropReusedPidFile, findPostmaster, stopPostmaster, watchPostmaster } from './postmaster.js';
import { launchPostmaster } from './postmaster-launch.js';
import { passwordRefused, portTaken } from './refusals.js';
import type { ServerUser } from './server-user.js';
import { hasCluster, storedPort, storePort } from './state-dir.js';
import type { StateDir } from './state-dir.js';

const ANSWER_LIMIT_MS = 60_000;
const POLL_MS = 250;
const LAUNCH_TRIES = 5;

/** What the supervisor works on and with. */
export interface Supervision {
  dir: StateDir;
  binaries: PostgresBinaries;
  user: ServerUser | null;
  log: (message: string) => void;
  /** The port the caller insists on. */
  port: number | null;
}

/** A server that this process is responsible for. */
export interface OwnedServer {
  port: number;
  adopted: boolean;
  /** See `EmbeddedPostgres.lost`. */
  lost: Promise<EmbeddedPostgresError>;
  stop(): Promise<void>;
}

interface Begun extends ServerRun {
  port: number;
}

/**
 * For the owner of the state directory: takes over a server that was left running, else starts one,
 * and from then on starts it again when it ends by itself.
 */
export async function runOwnedServer(supervision: Supervision, password: string): Promise<OwnedServer> {
  const { dir, binaries, user, log } = supervision;
  const orphan = await takeOverOrphan(supervision, password);
  const first = orphan ?? (await startNew(supervision, password));
  const kept = keepRunning({ first, startAgain: () => startAgain(supervision, first.port, password), where: dir.root, log });
  return {
    port: first.port,
    adopted: orphan !== null,
    lost: kept.lost,
    async stop() {
      const ended = kept.end();
      // Before waiting: this also ends a server that is only just coming up.
      let stopped = await stopPostmaster(dir, binaries, user, log);
      await ended;
      if (stopped === 'not-running') stopped = await stopPostmaster(dir, binaries, user, log);
      if (stopped === 'stopped') log('PostgreSQL has stopped.');
    },
  };
}

/** A left-over server that is now ours, or null if there is none (any more). */
async function takeOverOrphan(supervision: Supervision, password: string): Promise<Begun | null> {
  const { dir, log, port } = supervision;
  const found = await findPostmaster(dir);
  if (found.kind !== 'running') return null;
  const { pid } = found.server;
  log(`A PostgreSQL was left running on ${dir.root} (process ${pid}).`);
  const orphanPort = await orphanAnswers(supervision, password);
  if (orphanPort === null) return null;
  if (port !== null && port !== orphanPort) {
    log(`It listens on port ${orphanPort}, asked for is port ${port}: it is restarted.`);
    await stopPostmaster(dir, supervision.binaries, supervision.user, log);
    return null;
  }
  log(`Took it over on port ${orphanPort}.`);
  await storePort(dir, orphanPort);
  return { port: orphanPort, ended: watchPostmaster(pid) };
}

async function orphanAnswers(supervision: Supervision, password: string): Promise<number | null> {
  const { dir } = supervision;
  const deadline = Date.now() + ANSWER_LIMIT_MS;
  for (;;) {
    // It may still be recovering, or on its way out: look again each time.
    const found = await findPostmaster(dir);
    if (found.kind !== 'running') return null;
    const { port, pid, status } = found.server;
    const answer = status === 'ready' ? await askServer(port, password, dir.clusterDir) : 'silent';
    if (answer === 'ours') return port;
    if (answer === 'refused') throw passwordRefused(dir);
    if (Date.now() > deadline) {
      throw new EmbeddedPostgresError(
        'start_failed',
        `A PostgreSQL (process ${pid}) already works on ${dir.root} but does not answer. ` +
          'End it with the ops command for a left-over database, then start again.',
      );
    }
    await sleep(POLL_MS);
  }
}

async function startNew(supervision: Supervision, password: string): Promise<Begun> {
  const { dir, binaries, user, log } = supervision;
  // Before initdb: a port that is taken is told in a moment and leaves nothing behind.
  const port = await choosePort(supervision);
  await ensureCluster(dir, binaries, user, password, log);
  return launch(supervision, port, password);
}

/**
 * After the server has ended by itself. On its port, because every process has that in its
 * connection URL; and on its files only: if they are gone, an empty database in their place would
 * look as if nothing had ever been stored.
 */
async function startAgain(supervision: Supervision, port: number, password: string): Promise<Begun> {
  const { dir } = supervision;
  if (!(await hasCluster(dir))) {
    throw new EmbeddedPostgresError('start_failed', `The files of the database in ${dir.root} are gone. Put them back from a backup.`);
  }
  return launch({ ...supervision, port }, port, password);
}

async function launch(supervision: Supervision, firstPort: number, password: string): Promise<Begun> {
  const { dir, binaries, user, log } = supervision;
  let port = firstPort;
  for (let attempt = 1; ; attempt += 1) {
    await dropReusedPidFile(dir);
    await storePort(dir, port);
    const launched = await launchPostmaster(dir, binaries, user, port, log);
    if (launched.kind === 'ready') {
      await confirmOurs(supervision, port, password, launched.ended);
      log(`PostgreSQL is ready on port ${port} (process ${launched.pid}).`);
      return { port, ended: launched.ended };
    }
    port = await nextTry(supervision, port, attempt, launched.output);
  }
}

async function choosePort(supervision: Supervision): Promise<number> {
  const { dir, log, port } = supervision;
  if (port !== null) {
    if (await isPortFree(port)) return port;
    throw portTaken(port);
  }
  const stored = await storedPort(dir);
  if (stored === null) return freePort();
  if (await isPortFree(stored)) return stored;
  const other = await freePort();
  log(`Port ${stored} is used by another program now; PostgreSQL moves to port ${other}.`);
  return other;
}

/** The port for another try after a failure that passes by itself; throws what it was otherwise. */
async function nextTry(supervision: Supervision, port: number, attempt: number, output: string): Promise<number> {
  const { dir } = supervision;
  const code = classifyServerFailure(output);
  const reason = output.trim().split('\n').slice(-8).join('\n');
  if (code === 'disk_full') throw diskFull(dir.root, reason);
  if (code === 'port_taken' && supervision.port !== null) throw portTaken(port);
  if (attempt < LAUNCH_TRIES && code === 'port_taken') return freePort();
  if (attempt < LAUNCH_TRIES && code === 'locked') {
    // Processes of a killed server notice within a moment that it is gone, and end.
    await sleep(attempt * 1_000);
    return port;
  }
  throw new EmbeddedPostgresError(code, `PostgreSQL did not start in ${dir.root}; see ${dir.logDir}.\n${reason}`);
}

async function confirmOurs(supervision: Supervision, port: number, password: string, ended: Promise<string>): Promise<void> {
  const { dir, binaries, user, log } = supervision;
  const deadline = Date.now() + ANSWER_LIMIT_MS;
  let answer: Answer = 'silent';
  let over = false;
  void ended.then(() => {
    over = true;
  });
  while (answer === 'silent' && !over && Date.now() < deadline) {
    answer = await askServer(port, password, dir.clusterDir);
    if (answer === 'ours') return;
    if (answer === 'silent') await sleep(POLL_MS);
  }
  await stopPostmaster(dir, binaries, user, log);
  if (answer === 'refused') throw passwordRefused(dir);
  throw new EmbeddedPostgresError('start_failed', `PostgreSQL on port ${port} says it is ready but does not answer.`);
}
