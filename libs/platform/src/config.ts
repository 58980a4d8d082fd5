import { existsSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { z } from 'zod';
import { FAMILIES_ENVIRONMENT, type FamiliesConfig, familiesConfig } from './families-config.js';
import { type FilesConfig, filesConfig, filesEnvironment } from './files-config.js';

/** The folder that holds package.json, from the sources as well as from the build. */
export function projectRoot(): string {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(folder, 'package.json'))) {
    const parent = dirname(folder);
    if (parent === folder) throw new Error('No package.json above the program.');
    folder = parent;
  }
  return folder;
}

const portNumber = z.coerce.number().int().min(0).max(65_535);

const environment = z.object({
  WRACKLINE_HOST: z.string().default('127.0.0.1'),
  /** 0 takes a free port. */
  WRACKLINE_PORT: portNumber.default(0),
  WRACKLINE_STATE_DIR: z.string().optional(),
  WRACKLINE_LOG: z.enum(['silent', 'error', 'warn', 'info', 'debug']).default('info'),
  /** Path of the demo clock; refused unless the server listens on loopback only. */
  WRACKLINE_CLOCK_FILE: z.string().optional(),
  /** Key that signs page cursors; the same for every API process. At least 32 characters. */
  WRACKLINE_CURSOR_SECRET: z.string().min(32).optional(),
  WRACKLINE_RATE_PER_MINUTE: z.coerce.number().int().min(10).default(12_000),
  WRACKLINE_WORKER_CONCURRENCY: z.coerce.number().int().min(1).max(64).default(4),
  /**
   * Rounds of improvement of each strand after the first plan. Our own calibration: on the demo's 2,140 things before noon 10,000 rounds had 2.6 % of the
   * weight more in time than 200 and took a second of each processor.
   */
  WRACKLINE_PLAN_ITERATIONS: z.coerce.number().int().min(0).max(1_000_000).default(10_000),
  /**
   * Milliseconds after which a plan is improved no further although not all rounds are done; it then says how many were. Our own calibration: a
   * coordinator waits for it.
   */
  WRACKLINE_PLAN_MILLISECONDS: z.coerce.number().int().min(100).max(3_600_000).default(30_000),
  /** Searches of one plan from different seeds, of which the best is taken; as many at the same time as there are processors. */
  WRACKLINE_PLAN_STRANDS: z.coerce.number().int().min(1).max(16).default(2),
  /**
   * Minutes of a slot of a plan: a step counts as whole slots, so short ones waste fewer hands and leave less time for changing over.
   * 5 is our own calibration: on the demo's 2,202 things at noon it had 1,119 in time where 15 had 741, and the plan took no longer.
   */
  WRACKLINE_PLAN_SLOT_MINUTES: z.coerce.number().int().min(1).max(60).default(5),
  /** Days for which a done row of the outbox is kept; our own calibration, long enough to look into last week's trouble. */
  WRACKLINE_OUTBOX_KEEP_DAYS: z.coerce.number().int().min(1).max(3_650).default(7),
  /** Longer than a tablet may be without network before it sends its commands again; our own choice. */
  WRACKLINE_ANSWER_KEEP_DAYS: z.coerce.number().int().min(1).max(3_650).default(30),
  /**
   * Milliseconds of real time until a drying room or freezer in use is looked at again although nothing was sent: its clocks and its
   * forecast age. Our own calibration; every look costs some tens of milliseconds a room.
   */
  WRACKLINE_CLIMATE_TICK_MS: z.coerce.number().int().min(1_000).max(3_600_000).default(600_000),
  /** Milliseconds of real time that a reckoning of air waits for more readings, and 2.5 times as long for more things to be hung or taken; our own calibration. */
  WRACKLINE_CLIMATE_GATHER_MS: z.coerce.number().int().min(50).max(120_000).default(2_000),
  /**
   * Ed25519 key that signs the roots over custody events: a PKCS #8 PEM, or base64 of the 32 secret bytes. Only workers need it, and it must
   * not be kept in the database that it testifies about. To change it, put another one here: roots name their key, and the public keys of
   * earlier ones stay with the network. Without it the embedded database makes one in the state directory; elsewhere no roots are made.
   */
  WRACKLINE_CUSTODY_SIGNING_KEY: z.string().optional(),
  /** Path of a file that holds it instead; readable by the worker's user only. */
  WRACKLINE_CUSTODY_SIGNING_KEY_FILE: z.string().optional(),
  /**
   * Milliseconds from one signed root of a network to the next; the edges are whole multiples of it since 1970 (UTC). An hour is our own
   * calibration: what was rewritten before the first root over it is not noticed by roots.
   */
  WRACKLINE_CUSTODY_ROOT_MS: z.coerce.number().int().min(1_000).max(86_400_000).default(3_600_000),
  /**
   * Master keys of personal data, `1:<base64 of 32 random bytes>`, one or several (the highest version wraps, earlier ones still open); every API
   * and worker process needs them. Never in the database. Without them the embedded database makes one in the state directory; elsewhere nothing starts.
   */
  WRACKLINE_MASTER_KEY: z.string().optional(),
  /** Path of a file that holds them instead, one a line; readable by the processes' user only. */
  WRACKLINE_MASTER_KEY_FILE: z.string().optional(),
  ...filesEnvironment,
  ...FAMILIES_ENVIRONMENT,
  WRACKLINE_POOL_SIZE: z.coerce.number().int().min(1).max(100).default(10),
  DATABASE_URL: z.string().optional(),
  DATABASE_RELAY_URL: z.string().optional(),
  DATABASE_OWNER_URL: z.string().optional(),
  QUEUE_DATABASE_URL: z.string().optional(),
  REDIS_URL: z.string().optional(),
});

export interface Config {
  host: string;
  port: number;
  stateDir: string;
  logLevel: 'silent' | 'error' | 'warn' | 'info' | 'debug';
  clockFile: string | null;
  cursorSecret: string | null;
  ratePerMinute: number;
  workerConcurrency: number;
  planIterations: number;
  planMilliseconds: number;
  planStrands: number;
  planSlotMinutes: number;
  outboxKeepDays: number;
  answerKeepDays: number;
  climateTickMs: number;
  climateGatherMs: number;
  /** Signs custody roots; null when none is given. */
  custodySigningKey: string | null;
  custodySigningKeyFile: string | null;
  custodyRootMs: number;
  /** Wraps the keys of personal data; null when none is given. */
  masterKey: string | null;
  masterKeyFile: string | null;
  files: FilesConfig;
  /** What families are told and how. */
  families: FamiliesConfig;
  poolSize: number;
  /** Login of the application role; null means the embedded server. */
  databaseUrl: string | null;
  relayDatabaseUrl: string | null;
  ownerDatabaseUrl: string | null;
  /** Database of the queue when there is no Redis. */
  queueDatabaseUrl: string | null;
  redisUrl: string | null;
}

/** A sentence for the operator; the process stops. */
export class ConfigError extends Error {}

const LOOPBACK = new Set(['127.0.0.1', 'localhost', '::1']);

/** Reads and checks the environment. The only reader of it in the program. */
export function loadConfig(env: NodeJS.ProcessEnv = process.env): Config {
  const set = Object.fromEntries(Object.entries(env).filter(([, value]) => value !== ''));
  const parsed = environment.safeParse(set);
  if (!parsed.success) {
    const first = parsed.error.issues[0];
    throw new ConfigError(`${first?.path.join('.') ?? 'environment'}: ${first?.message ?? 'not valid'}`);
  }
  const e = parsed.data;
  if (e.WRACKLINE_CLOCK_FILE && !LOOPBACK.has(e.WRACKLINE_HOST)) {
    throw new ConfigError('WRACKLINE_CLOCK_FILE is for the demo: it is refused unless WRACKLINE_HOST is a loopback address.');
  }
  if (e.WRACKLINE_CUSTODY_SIGNING_KEY && e.WRACKLINE_CUSTODY_SIGNING_KEY_FILE) {
    throw new ConfigError('Set WRACKLINE_CUSTODY_SIGNING_KEY or WRACKLINE_CUSTODY_SIGNING_KEY_FILE, not both.');
  }
  if (e.WRACKLINE_MASTER_KEY && e.WRACKLINE_MASTER_KEY_FILE) throw new ConfigError('Set WRACKLINE_MASTER_KEY or WRACKLINE_MASTER_KEY_FILE, not both.');
  const families = familiesConfig(e);
  if (families.fault !== null) throw new ConfigError(families.fault);
  if (e.DATABASE_URL && !e.REDIS_URL && !e.QUEUE_DATABASE_URL) {
    throw new ConfigError('With DATABASE_URL set, say where the queue is: REDIS_URL, or QUEUE_DATABASE_URL for the PostgreSQL queue.');
  }
  const files = filesConfig(e);
  if (typeof files === 'string') throw new ConfigError(files);
  return {
    host: e.WRACKLINE_HOST,
    port: e.WRACKLINE_PORT,
    stateDir: resolve(e.WRACKLINE_STATE_DIR ?? join(projectRoot(), '.wrackline')),
    files,
    logLevel: e.WRACKLINE_LOG,
    clockFile: e.WRACKLINE_CLOCK_FILE ?? null,
    cursorSecret: e.WRACKLINE_CURSOR_SECRET ?? null,
    ratePerMinute: e.WRACKLINE_RATE_PER_MINUTE,
    workerConcurrency: e.WRACKLINE_WORKER_CONCURRENCY,
    planIterations: e.WRACKLINE_PLAN_ITERATIONS,
    planMilliseconds: e.WRACKLINE_PLAN_MILLISECONDS,
    planStrands: e.WRACKLINE_PLAN_STRANDS,
    planSlotMinutes: e.WRACKLINE_PLAN_SLOT_MINUTES,
    outboxKeepDays: e.WRACKLINE_OUTBOX_KEEP_DAYS,
    answerKeepDays: e.WRACKLINE_ANSWER_KEEP_DAYS,
    climateTickMs: e.WRACKLINE_CLIMATE_TICK_MS,
    climateGatherMs: e.WRACKLINE_CLIMATE_GATHER_MS,
    custodySigningKey: e.WRACKLINE_CUSTODY_SIGNING_KEY ?? null,
    custodySigningKeyFile: e.WRACKLINE_CUSTODY_SIGNING_KEY_FILE ?? null,
    custodyRootMs: e.WRACKLINE_CUSTODY_ROOT_MS,
    masterKey: e.WRACKLINE_MASTER_KEY ?? null,
    masterKeyFile: e.WRACKLINE_MASTER_KEY_FILE ?? null,
    families: families.config,
    poolSize: e.WRACKLINE_POOL_SIZE,
    databaseUrl: e.DATABASE_URL ?? null,
    relayDatabaseUrl: e.DATABASE_RELAY_URL ?? null,
    ownerDatabaseUrl: e.DATABASE_OWNER_URL ?? null,
    queueDatabaseUrl: e.QUEUE_DATABASE_URL ?? null,
    redisUrl: e.REDIS_URL ?? null,
  };
}

/** Which database a URL names, without login or password: for start-up logs. */
export function databasePlace(url: string | null): string {
  if (url === null) return 'none';
  const { host, pathname } = new URL(url);
  return `PostgreSQL ${host}${pathname}`;
}
