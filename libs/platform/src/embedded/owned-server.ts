import { setTimeout as sleep } from 'node:timers/promises';

import { askServer } from './admin-connection.js';
import type { Answer } from './admin-connection.js';
import { ensureCluster } from './cluster.js';
import { classifyServerFailure, diskFull, EmbeddedPostgresError } from './embedded-postgres.error.js';
import { freePort, isPortFree } from './free-port.js';
import type { PostgresBinaries } from './postgres-binaries.js';
import { dropReusedPidFile, findPostmaster, stopPostmaster } from './postmaster.js';
import { launchPostmaster } from './postmaster-launch.js';
import { passwordRefused, portTaken } from './refusals.js';
import type { ServerUser } from './server-user.js';
import { storedPort, storePort } from './state-dir.js';
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
  stop(): Promise<void>;
}

/** For the owner of the state directory: takes over a server that was left running, else starts one. */
export async function runOwnedServer(supervision: Supervision, password: string): Promise<OwnedServer> {
  const { dir, binaries, user, log } = supervision;
  let stopping = false;
  const stop = async (): Promise<void> => {
    stopping = true;
    if ((await stopPostmaster(dir, binaries, user, log)) === 'stopped') log('PostgreSQL has stopped.');
  };
  const orphanPort = await takeOverOrphan(supervision, password);
  if (orphanPort !== null) return { port: orphanPort, adopted: true, stop };
  const { port, ended } = await startNew(supervision, password);
  void ended.then(() => {
    if (!stopping) log(`PostgreSQL ended by itself; see ${dir.logDir}. Start again: no committed data is lost.`);
  });
  return { port, adopted: false, stop };
}

/** Port of a left-over server that is now ours, or null if there is none (any more). */
async function takeOverOrphan(supervision: Supervision, password: string): Promise<number | null> {
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
  return orphanPort;
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

async function startNew(
  supervision: Supervision,
  password: string,
): Promise<{ port: number; ended: Promise<void> }> {
  const { dir, binaries, user, log } = supervision;
  // Before initdb: a port that is taken is told in a moment and leaves nothing behind.
  let port = await choosePort(supervision);
  await ensureCluster(dir, binaries, user, password, log);
  for (let attempt = 1; ; attempt += 1) {
    await dropReusedPidFile(dir);
    await storePort(dir, port);
    const launch = await launchPostmaster(dir, binaries, user, port, log);
    if (launch.kind === 'ready') {
      await confirmOurs(supervision, port, password);
      log(`PostgreSQL is ready on port ${port} (process ${launch.pid}).`);
      return { port, ended: launch.ended };
    }
    port = await nextTry(supervision, port, attempt, launch.output);
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

async function confirmOurs(supervision: Supervision, port: number, password: string): Promise<void> {
  const { dir, binaries, user, log } = supervision;
  const deadline = Date.now() + ANSWER_LIMIT_MS;
  let answer: Answer = 'silent';
  while (answer === 'silent' && Date.now() < deadline) {
    answer = await askServer(port, password, dir.clusterDir);
    if (answer === 'ours') return;
    if (answer === 'silent') await sleep(POLL_MS);
  }
  await stopPostmaster(dir, binaries, user, log);
  if (answer === 'refused') throw passwordRefused(dir);
  throw new EmbeddedPostgresError('start_failed', `PostgreSQL on port ${port} says it is ready but does not answer.`);
}
