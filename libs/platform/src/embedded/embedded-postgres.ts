import { realpath } from 'node:fs/promises';
import { setTimeout as sleep } from 'node:timers/promises';

import { ADMIN_DATABASE, ADMIN_ROLE, askServer, connectionUrl } from './admin-connection.js';
import { asEmbeddedPostgresError, EmbeddedPostgresError } from './embedded-postgres.error.js';
import type { EmbeddedPostgres, EmbeddedPostgresOptions } from './embedded-postgres.types.js';
import { runOwnedServer } from './owned-server.js';
import type { OwnedServer, Supervision } from './owned-server.js';
import { claimOwnership } from './owner-lock.js';
import type { OwnerLock } from './owner-lock.js';
import { locateBinaries, prepareBinaries } from './postgres-binaries.js';
import { findPostmaster, stopPostmaster } from './postmaster.js';
import { heldByOther, joinedPortDiffers } from './refusals.js';
import type { HeldClaim } from './refusals.js';
import { chooseServerUser } from './server-user.js';
import {
  absoluteDataDir,
  adminPassword,
  hasCluster,
  inspectStateDir,
  isTcpPort,
  layOutStateDir,
  openStateDir,
} from './state-dir.js';
import type { StateDir } from './state-dir.js';

const JOIN_LIMIT_MS = 120_000;
const POLL_MS = 200;

/**
 * Starts PostgreSQL 18 on loopback with its state in one directory, or takes over a server that a
 * killed process left behind, or joins the server of another live process on this machine.
 *
 * Ownership: exactly one live process owns a state directory. A second caller waits until the
 * owner's server answers and joins it (`adopted: true`); its `stop()` leaves the server running, and
 * it loses the database when the owner stops. When the owner is dead the next caller becomes owner.
 *
 * The owner starts a server that ends by itself again, on the same port, so that connection pools find
 * it; after a few tries in a row it gives up and says so through `lost`.
 *
 * Nothing is stopped when this process merely exits: call `stop()` in the shutdown path. What a
 * `kill -9` leaves running is taken over by the next start or ended by `stopOrphan`.
 *
 * @throws EmbeddedPostgresError with a code and a message that says what to do.
 */
export async function startEmbeddedPostgres(options: EmbeddedPostgresOptions): Promise<EmbeddedPostgres> {
  const path = absoluteDataDir(options.dataDir);
  try {
    const port = options.port ?? null;
    if (port !== null && !isTcpPort(port)) {
      throw new EmbeddedPostgresError('start_failed', `${port} is no TCP port; give a whole number from 1 to 65535.`);
    }
    await inspectStateDir(path);
    const binaries = locateBinaries();
    const user = await chooseServerUser(layOutStateDir(path).clusterDir);
    await prepareBinaries(binaries, user, options.log);
    const dir = await openStateDir(path, user);
    return await ownOrJoin({ dir, binaries, user, log: options.log, port });
  } catch (error) {
    throw asEmbeddedPostgresError(error, path);
  }
}

/**
 * Ends a server that a killed process left running in a state directory, for the operator's command.
 * Throws `locked` if a live process owns it: then that process is the one to stop.
 */
export async function stopOrphan(
  dataDir: string,
  log: (message: string) => void = () => undefined,
): Promise<'stopped' | 'not-running'> {
  const path = absoluteDataDir(dataDir);
  try {
    await inspectStateDir(path);
    const root = await realpath(path).catch(() => null);
    if (root === null || !(await hasCluster(layOutStateDir(root)))) return 'not-running';
    const dir = layOutStateDir(root);
    const user = await chooseServerUser(dir.clusterDir);
    const binaries = locateBinaries();
    await prepareBinaries(binaries, user, log);
    const claim = await claimOwnership(dir.lockDir);
    if (claim.kind === 'held') throw heldByOther(dir, claim);
    try {
      return await stopPostmaster(dir, binaries, user, log);
    } finally {
      await claim.lock.release();
    }
  } catch (error) {
    throw asEmbeddedPostgresError(error, path);
  }
}

async function ownOrJoin(supervision: Supervision): Promise<EmbeddedPostgres> {
  const deadline = Date.now() + JOIN_LIMIT_MS;
  for (;;) {
    const claim = await claimOwnership(supervision.dir.lockDir);
    if (claim.kind === 'owned') return startAsOwner(supervision, claim.lock);
    if (claim.elsewhere) throw heldByOther(supervision.dir, claim);
    const joined = await tryJoin(supervision, claim);
    if (joined) return joined;
    if (Date.now() > deadline) throw heldByOther(supervision.dir, claim);
    await sleep(POLL_MS);
  }
}

async function tryJoin(supervision: Supervision, claim: HeldClaim): Promise<EmbeddedPostgres | null> {
  const { dir, log } = supervision;
  const found = await findPostmaster(dir);
  if (found.kind !== 'running' || found.server.status !== 'ready') return null;
  const password = await adminPassword(dir);
  if ((await askServer(found.server.port, password, dir.clusterDir)) !== 'ours') return null;
  const { port } = found.server;
  if (supervision.port !== null && supervision.port !== port) {
    throw joinedPortDiffers(dir, claim, port, supervision.port);
  }
  log(`Joined the PostgreSQL of process ${claim.by.pid} on port ${port}; that process will stop it.`);
  return handle(dir, password, { port, adopted: true, lost: new Promise(() => undefined), stop: async () => undefined }, true);
}

async function startAsOwner(supervision: Supervision, lock: OwnerLock): Promise<EmbeddedPostgres> {
  try {
    const password = await adminPassword(supervision.dir);
    const server = await runOwnedServer(supervision, password);
    const stop = async () => {
      await server.stop();
      await lock.release();
    };
    return handle(supervision.dir, password, { ...server, stop });
  } catch (error) {
    await lock.release();
    throw error;
  }
}

function handle(dir: StateDir, password: string, server: OwnedServer, joined = false): EmbeddedPostgres {
  const { port, adopted, lost } = server;
  let ending: Promise<void> | null = null;
  return {
    adminUrl: connectionUrl(port, ADMIN_ROLE, password, ADMIN_DATABASE),
    port,
    dataDir: dir.root,
    adopted,
    joined,
    lost,
    stop() {
      ending ??= server.stop().catch((error: unknown) => {
        // A stop that failed may be tried again.
        ending = null;
        throw asEmbeddedPostgresError(error, dir.root);
      });
      return ending;
    },
    urlFor: (role, secret, database) => connectionUrl(port, role, secret, database),
  };
}
