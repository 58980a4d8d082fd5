import { type ChildProcess, fork } from 'node:child_process';
import { join } from 'node:path';
import { type Config, familiesEnvironment, filesVariables, freePort, projectRoot } from '#platform';

/** A child process that is started again when it dies, until it is stopped on purpose. */
export class KeptProcess {
  private child: ChildProcess | null = null;
  private stopping = false;
  private restarts = 0;

  constructor(
    readonly name: string,
    private readonly script: string,
    private readonly env: NodeJS.ProcessEnv,
    private readonly log: (message: string) => void,
  ) {}

  /** Resolves when the child says it is ready. @throws Error when it exits before that. */
  start(): Promise<void> {
    return new Promise((resolve, reject) => {
      const child = fork(this.script, [], { env: this.env, stdio: ['ignore', 'inherit', 'inherit', 'ipc'], execArgv: [] });
      this.child = child;
      let ready = false;
      child.on('message', (message) => {
        if (typeof message === 'object' && message !== null && 'ready' in message) {
          ready = true;
          resolve();
        }
      });
      child.once('exit', (code, signal) => {
        this.child = null;
        if (!ready) reject(new Error(`${this.name} ended before it was ready (${signal ?? `exit ${code}`})`));
        else if (!this.stopping) this.startAgain(signal ?? `exit ${code}`);
      });
    });
  }

  /** kill -9, as a power cut would; for drills. Answers whether there was a process to kill. */
  killHard(): boolean {
    return this.child?.kill('SIGKILL') ?? false;
  }

  async stop(): Promise<void> {
    this.stopping = true;
    const child = this.child;
    if (!child) return;
    const gone = new Promise<void>((resolve) => child.once('exit', () => resolve()));
    child.kill('SIGTERM');
    const timer = setTimeout(() => child.kill('SIGKILL'), 25_000);
    await gone;
    clearTimeout(timer);
  }

  private startAgain(why: string): void {
    this.restarts += 1;
    this.log(`${this.name} ended (${why}); starting it again (${this.restarts})`);
    // A growing pause, so that a process that cannot start does not spin.
    setTimeout(() => {
      if (!this.stopping) this.start().catch(() => this.startAgain('not ready'));
    }, Math.min(100 * this.restarts, 5_000));
  }
}

export interface RunningProcesses {
  urls: string[];
  apis: KeptProcess[];
  workers: KeptProcess[];
  stop(): Promise<void>;
}

/** Starts API and worker processes on databases that run; every API keeps its port over restarts. */
export async function startProcesses(config: Config, count: { apis: number; workers: number }, log: (message: string) => void): Promise<RunningProcesses> {
  const dist = join(projectRoot(), 'dist', 'apps');
  const apis: KeptProcess[] = [];
  const urls: string[] = [];
  for (let index = 0; index < count.apis; index += 1) {
    const port = index === 0 && config.port !== 0 ? config.port : await freePort();
    urls.push(`http://${config.host}:${port}`);
    apis.push(new KeptProcess(`api ${index + 1}`, join(dist, 'api', 'src', 'main.js'), { ...environmentOf(config), WRACKLINE_PORT: String(port) }, log));
  }
  const workers = Array.from({ length: count.workers }, (_, index) => new KeptProcess(`worker ${index + 1}`, join(dist, 'worker', 'src', 'main.js'), { ...environmentOf(config), ...signingKeyOf(config) }, log));
  const all = [...apis, ...workers];
  const stop = async () => {
    // The doorway closes first, then the work in hand is finished.
    await Promise.all(apis.map((api) => api.stop()));
    await Promise.all(workers.map((worker) => worker.stop()));
  };
  try {
    await Promise.all(all.map((process) => process.start()));
  } catch (error) {
    await stop();
    throw error;
  }
  return { urls, apis, workers, stop };
}

/** The configuration as a child reads it; nothing else of our environment is passed on but what Node needs. */
export function environmentOf(config: Config): NodeJS.ProcessEnv {
  const set: Record<string, string | null> = {
    PATH: process.env['PATH'] ?? '',
    HOME: process.env['HOME'] ?? '',
    WRACKLINE_HOST: config.host,
    WRACKLINE_STATE_DIR: config.stateDir,
    WRACKLINE_LOG: config.logLevel,
    WRACKLINE_CLOCK_FILE: config.clockFile,
    WRACKLINE_CURSOR_SECRET: config.cursorSecret,
    WRACKLINE_RATE_PER_MINUTE: String(config.ratePerMinute),
    WRACKLINE_WORKER_CONCURRENCY: String(config.workerConcurrency),
    WRACKLINE_PLAN_ITERATIONS: String(config.planIterations),
    WRACKLINE_PLAN_MILLISECONDS: String(config.planMilliseconds),
    WRACKLINE_PLAN_STRANDS: String(config.planStrands),
    WRACKLINE_PLAN_SLOT_MINUTES: String(config.planSlotMinutes),
    WRACKLINE_OUTBOX_KEEP_DAYS: String(config.outboxKeepDays),
    WRACKLINE_ANSWER_KEEP_DAYS: String(config.answerKeepDays),
    WRACKLINE_CLIMATE_TICK_MS: String(config.climateTickMs),
    WRACKLINE_CLIMATE_GATHER_MS: String(config.climateGatherMs),
    WRACKLINE_CUSTODY_ROOT_MS: String(config.custodyRootMs),
    WRACKLINE_MASTER_KEY: config.masterKey,
    WRACKLINE_MASTER_KEY_FILE: config.masterKeyFile,
    ...filesVariables(config.files),
    ...familiesEnvironment(config.families),
    WRACKLINE_POOL_SIZE: String(config.poolSize),
    DATABASE_URL: config.databaseUrl,
    DATABASE_RELAY_URL: config.relayDatabaseUrl,
    QUEUE_DATABASE_URL: config.queueDatabaseUrl,
    REDIS_URL: config.redisUrl,
  };
  return Object.fromEntries(Object.entries(set).filter((entry): entry is [string, string] => entry[1] !== null));
}

/** For workers alone: whoever takes over an API process shall not be able to sign. */
function signingKeyOf({ custodySigningKey, custodySigningKeyFile }: Config): NodeJS.ProcessEnv {
  if (custodySigningKey !== null) return { WRACKLINE_CUSTODY_SIGNING_KEY: custodySigningKey };
  return custodySigningKeyFile === null ? {} : { WRACKLINE_CUSTODY_SIGNING_KEY_FILE: custodySigningKeyFile };
}
