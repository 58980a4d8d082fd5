import type { UnitOfWork } from '#application';
import { type Answerer, type Bell, DEFAULT_TUNING, type GiveUps, type Handlers, OutboxUpkeep, type QueueBackend, RelayLoop, type Tuning, createQueueBackend, runDoorbell } from '#messaging';
import { PgOutboxRelay, PgUnitOfWork, type Pool, createPool, relayFaults, tenancyFaults } from '#persistence';
import { type Clock, type Config, ConfigError, type Logger, databasePlace, fileClock, requireMasterKeys, systemClock } from '#platform';

/** What the handlers are made from. */
export interface WorkParts {
  unitOfWork: UnitOfWork;
  clock: Clock;
  config: Config;
  logger: Logger;
}

/** What the worker does for every kind of outbox row, and what it does when a row is given up. */
export interface Work {
  handlers: Handlers;
  giveUps: GiveUps;
  /** Breaks off what would go on outside of this thread, for handlers that outlive the stop; their rows come again. */
  cancel?(): void;
}

export interface WorkerOptions {
  tuning?: Partial<Tuning>;
}

export interface RunningWorker {
  /** Resolves when jobs are being taken. */
  ready: Promise<void>;
  /** Takes no more work, lets the handlers at work finish up to a cap, closes every connection. */
  stop(): Promise<void>;
}

interface Pools {
  app: Pool;
  relay: Pool;
}

/** Connections of the relay beside its own look: one for every job that begins, is prolonged or ends. */
const RELAY_POOL_SIZE = 4;
const CLOSE_CONNECTIONS_CAP_MS = 3_000;
const DAY_MS = 24 * 3_600_000;

/**
 * Starts relay and worker on databases that are running. Throws a `ConfigError` that says what to change when the
 * logins are not bound by row-level security, and fails when database or queue cannot be reached.
 */
export async function startWorker(config: Config, logger: Logger, compose: (parts: WorkParts) => Work, options: WorkerOptions = {}): Promise<RunningWorker> {
  const tuning: Tuning = { ...DEFAULT_TUNING, ...options.tuning };
  const masters = requireMasterKeys(config);
  const backend = createQueueBackend(config, (part, error) => logger.warn({ part, err: error.message }, 'queue connection trouble'));
  const pools = openPools(config, logger);
  try {
    await refuseUnboundLogins(pools);
    await backend.prepare();
    const clock: Clock = config.clockFile === null ? systemClock : fileClock(config.clockFile);
    const unitOfWork = new PgUnitOfWork(pools.app, masters);
    const work = compose({ unitOfWork, clock, config, logger });
    return run({ config, logger, tuning, backend, pools, unitOfWork, work });
  } catch (error) {
    await endPools(pools);
    throw error;
  }
}

function openPools(config: Config, logger: Logger): Pools {
  if (config.databaseUrl === null) throw new ConfigError('No database: set DATABASE_URL, or use `npm start`, which brings its own.');
  if (config.relayDatabaseUrl === null) throw new ConfigError('Set DATABASE_RELAY_URL to the login wl_relay; the worker needs it to read the outbox.');
  const onError = (error: Error) => logger.warn({ err: error.message }, 'idle database connection lost');
  return {
    // A handler that waits for a connection behind its fellows would fail for nothing.
    app: createPool({ connectionString: config.databaseUrl, max: Math.max(config.poolSize, config.workerConcurrency + 1), applicationName: 'wrackline-worker', onError }),
    relay: createPool({ connectionString: config.relayDatabaseUrl, max: RELAY_POOL_SIZE, applicationName: 'wrackline-relay', onError }),
  };
}

async function refuseUnboundLogins(pools: Pools): Promise<void> {
  const faults = [...(await tenancyFaults(pools.app)), ...(await relayFaults(pools.relay))];
  if (faults.length > 0) throw new ConfigError(`Refusing to start: ${faults.join(' ')}`);
}

interface RunParts {
  config: Config;
  logger: Logger;
  tuning: Tuning;
  backend: QueueBackend;
  pools: Pools;
  unitOfWork: UnitOfWork;
  work: Work;
}

function run(parts: RunParts): RunningWorker {
  const { config, logger, tuning, backend, pools, unitOfWork, work } = parts;
  const relay = new PgOutboxRelay(pools.relay);
  const bell = backend.bell();
  const loop = new RelayLoop({ relay, bell, giveUps: work.giveUps, tuning, logger });
  const answerer = backend.answerer({
    concurrency: config.workerConcurrency,
    lockMs: tuning.queueLockMs,
    answer: (received) => runDoorbell({ unitOfWork, relay, handlers: work.handlers, tuning, logger }, received).finally(() => loop.poke()),
  });
  const upkeep = new OutboxUpkeep({ relay, keepMs: config.outboxKeepDays * DAY_MS, keepAnswersMs: config.answerKeepDays * DAY_MS, tuning, logger });
  loop.start();
  upkeep.start();
  logger.info({ database: databasePlace(config.databaseUrl), queue: backend.name, concurrency: config.workerConcurrency, clock: config.clockFile ? 'demo file' : 'system' }, 'worker started');
  let stopped: Promise<void> | null = null;
  return {
    ready: answerer.ready,
    stop() {
      stopped ??= stopAll({ loop, upkeep, bell, answerer, pools, tuning, logger, work });
      return stopped;
    },
  };
}

/** The order matters: no new rings and no new jobs, then the jobs at work, and only then the connections they use. */
async function stopAll(parts: { loop: RelayLoop; upkeep: OutboxUpkeep; bell: Bell; answerer: Answerer; pools: Pools; tuning: Tuning; logger: Logger; work: Work }): Promise<void> {
  const { loop, upkeep, bell, answerer, pools, tuning, logger, work } = parts;
  const [finished] = await Promise.all([answerer.close(tuning.closeCapMs), loop.stop(), upkeep.stop()]);
  if (!finished) logger.warn({ waitedMs: tuning.closeCapMs }, 'stopping although handlers are at work; their rows come again when the leases end');
  work.cancel?.();
  const closed = bell.close().catch((error: Error) => logger.warn({ err: error.message }, 'queue closed with trouble'));
  await atMost(CLOSE_CONNECTIONS_CAP_MS, Promise.all([closed, endPools(pools)]));
  logger.info('worker stopped');
}

async function endPools(pools: Pools): Promise<void> {
  await Promise.all([pools.app.end(), pools.relay.end()]);
}

/** A pool waits for connections in use for ever; a handler that outlived the cap must not hold the process. */
async function atMost(ms: number, work: Promise<unknown>): Promise<void> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<void>((resolve) => {
    timer = setTimeout(resolve, ms);
  });
  await Promise.race([work, late]);
  clearTimeout(timer);
}
