import { join } from 'node:path';
import { ensureDatabase, migrate } from '#persistence';
import { type Config, freePort, loadConfig, projectRoot } from '#platform';
import { checkHistory, type ClientRecord, type Violation } from '#testing/salvage';
import { Dice } from '../demo/dice.js';
import { environmentOf, KeptProcess } from '../processes.js';
import { withDatabase } from '../services.js';
import { apiScript, BUGS, type BugName, seedBug } from './bugs.js';
import { FaultProxy } from './fault-proxy.js';
import { FAULT_KINDS, type FaultCounts, strikeUntilOver } from './faults.js';
import type { SoakCluster } from './soak-cluster.js';
import { soakNetwork } from './soak-world.js';
import { readStored, SOAK_MASTER_KEY, untilDrained } from './stored-history.js';
import { runTablet, type SoakNetwork } from './tablets.js';

const APIS = 2;
const TABLETS = 8;
const ITEMS_OF_NETWORK = 12;
/** After the last fault: for commands without an answer, and for work that waits. */
const SETTLE_MS = 30_000;
/** Of each kind of fault, and how many times as long as asked a run may take to get there, on a machine with other work. Our own calibration. */
const FAULTS_AT_LEAST = 2;
const LONGEST = 4;
const LONGEST_AT_LEAST_MS = 60_000;
const COMMANDS_AT_LEAST = 150;

export interface RunOptions {
  seconds: number;
  seed: number;
  bug: BugName | null;
}

export interface RunReport {
  /** How long it took until tablets could begin, how long they and the faults were at work, and how long until all had come to rest; seconds. */
  setUpS: number;
  lastedS: number;
  restedS: number;
  commands: number;
  ok: number;
  /** Commands without a definite answer although everything ran again. */
  undecided: number;
  /** Events that the tablets made. */
  events: number;
  faults: FaultCounts;
  cutConnections: number;
  violations: Violation[];
}

/** One fault run in a database of its own: parallel tablets under faults for some seconds, then rest, then the check. Cleans up its processes whatever happens. */
export async function runCustodyFaults(cluster: SoakCluster, { seconds, seed, bug }: RunOptions, log: (line: string) => void): Promise<RunReport> {
  const begunMs = performance.now();
  const database = `soak_${(bug ?? 'sound').replaceAll('-', '_')}`;
  const ownerUrl = withDatabase(cluster.adminUrl, database);
  await ensureDatabase(cluster.adminUrl, database);
  await ensureDatabase(cluster.adminUrl, `${database}_queue`, 'wl_queue');
  await migrate(ownerUrl);
  await seedBug(ownerUrl, bug);
  const proxy = await FaultProxy.open(cluster.port, Dice.of(seed, 'proxy'));
  const service = await startService(serviceConfig(cluster, proxy, database), bug, log).catch(async (error: unknown) => {
    await proxy.close();
    throw error;
  });
  let tablets: TabletsAtWork | null = null;
  try {
    const networks = await Promise.all(['one', 'two'].map((name) => soakNetwork(ownerUrl, service.urls[0] ?? '', `Fault run ${name}`, ITEMS_OF_NETWORK)));
    const startedMs = performance.now();
    const history: ClientRecord[] = [];
    tablets = new TabletsAtWork(networks, service.urls, seed, history);
    const length = { forMs: seconds * 1_000, ofEachKind: FAULTS_AT_LEAST, longestMs: Math.max(LONGEST * seconds * 1_000, LONGEST_AT_LEAST_MS), enoughDone: () => history.length >= COMMANDS_AT_LEAST };
    const faults = await strikeUntilOver(length, (bug === null ? null : BUGS[bug].faults) ?? FAULT_KINDS, { apis: service.apis, urls: service.urls, cluster, proxy }, Dice.of(seed, 'faults'));
    const overMs = performance.now();
    const lastedS = (overMs - startedMs) / 1_000;
    await tablets.end(SETTLE_MS);
    await untilDrained(ownerUrl, SETTLE_MS);
    const restedS = (performance.now() - overMs) / 1_000;
    await service.stop();
    const stored = await readStored(ownerUrl, networks);
    const violations = checkHistory(history, stored);
    const commands = new Set(history.map((record) => record.cmd)).size;
    const ok = new Set(history.filter((record) => record.outcome === 'ok').map((record) => record.cmd)).size;
    const undecided = history.filter((record) => record.outcome === 'unknown').length;
    const events = stored.events.length - networks.reduce((sum, { items }) => sum + items.reduce((before, { seq }) => before + seq, 0), 0);
    return { setUpS: (startedMs - begunMs) / 1_000, lastedS, restedS, commands, ok, undecided, events, faults, cutConnections: proxy.cuts, violations };
  } finally {
    tablets?.abandon();
    await service.stop();
    await proxy.close();
  }
}

function serviceConfig(cluster: SoakCluster, proxy: FaultProxy, database: string): Config {
  return {
    // Nothing of the caller's environment: a run talks to its own database alone.
    ...loadConfig({}),
    masterKey: SOAK_MASTER_KEY, stateDir: cluster.folder, logLevel: 'silent', ratePerMinute: 10_000_000, cursorSecret: 'x'.repeat(32), poolSize: 8, planIterations: 10, climateGatherMs: 200,
    databaseUrl: cluster.urlThrough(proxy.port, 'app', database),
    relayDatabaseUrl: cluster.urlThrough(proxy.port, 'relay', database),
    queueDatabaseUrl: cluster.urlThrough(proxy.port, 'queue', `${database}_queue`),
  };
}

interface Service {
  urls: string[];
  apis: KeptProcess[];
  stop(): Promise<void>;
}

async function startService(config: Config, bug: BugName | null, log: (line: string) => void): Promise<Service> {
  const api = apiScript(bug);
  const ports = await Promise.all(Array.from({ length: APIS }, () => freePort()));
  const apis = ports.map((port, index) => new KeptProcess(`api ${index + 1}`, api.script, { ...environmentOf(config), ...api.env, WRACKLINE_PORT: String(port) }, log));
  const worker = new KeptProcess('worker', join(projectRoot(), 'tests', 'faults', 'custody-history.worker.mjs'), environmentOf(config), log);
  let stopped: Promise<unknown> | null = null;
  const stop = async () => {
    stopped ??= Promise.all([...apis, worker].map((process) => process.stop()));
    await stopped;
  };
  const started = await Promise.allSettled([...apis, worker].map((process) => process.start()));
  const failed = started.find((outcome) => outcome.status === 'rejected');
  if (failed !== undefined) {
    await stop();
    throw failed.reason;
  }
  return { urls: ports.map((port) => `http://127.0.0.1:${port}`), apis, stop };
}

/** Half of the tablets work for each network. */
class TabletsAtWork {
  private over = false;
  private giveUpAtMs = Infinity;
  private readonly all: Promise<unknown>;

  constructor(networks: readonly SoakNetwork[], urls: readonly string[], seed: number, history: ClientRecord[]) {
    const round = { urls, history, goesOn: () => !this.over, giveUpAtMs: () => this.giveUpAtMs };
    this.all = Promise.all(networks.flatMap((network, index) => Array.from({ length: TABLETS / networks.length }, (_, tablet) => runTablet(network, `${index}/${tablet}`, seed, round))));
    // Heard by `end`; a run that fails before must not die of it.
    this.all.catch(() => undefined);
  }

  /** No new commands; resolves when every command has its answer, or so long after. */
  async end(withinMs: number): Promise<void> {
    this.over = true;
    this.giveUpAtMs = performance.now() + withinMs;
    await this.all;
  }

  /** Ends at once. */
  abandon(): void {
    this.over = true;
    this.giveUpAtMs = 0;
  }
}
