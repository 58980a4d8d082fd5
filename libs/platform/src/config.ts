import { existsSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { z } from 'zod';

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
  /** Rounds of improvement after the first plan. */
  WRACKLINE_PLAN_ITERATIONS: z.coerce.number().int().min(0).max(1_000_000).default(200),
  /**
   * Minutes of a slot of a plan: a step counts as whole slots, so short ones waste fewer hands and leave less time for changing over.
   * 5 is our own calibration: on the demo's 2,202 things at noon it had 1,119 in time where 15 had 741, and the plan took no longer.
   */
  WRACKLINE_PLAN_SLOT_MINUTES: z.coerce.number().int().min(1).max(60).default(5),
  /** Days for which a done row of the outbox is kept; our own calibration, long enough to look into last week's trouble. */
  WRACKLINE_OUTBOX_KEEP_DAYS: z.coerce.number().int().min(1).max(3_650).default(7),
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
  planSlotMinutes: number;
  outboxKeepDays: number;
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
  if (e.DATABASE_URL && !e.REDIS_URL && !e.QUEUE_DATABASE_URL) {
    throw new ConfigError('With DATABASE_URL set, say where the queue is: REDIS_URL, or QUEUE_DATABASE_URL for the PostgreSQL queue.');
  }
  return {
    host: e.WRACKLINE_HOST,
    port: e.WRACKLINE_PORT,
    stateDir: resolve(e.WRACKLINE_STATE_DIR ?? join(projectRoot(), '.wrackline')),
    logLevel: e.WRACKLINE_LOG,
    clockFile: e.WRACKLINE_CLOCK_FILE ?? null,
    cursorSecret: e.WRACKLINE_CURSOR_SECRET ?? null,
    ratePerMinute: e.WRACKLINE_RATE_PER_MINUTE,
    workerConcurrency: e.WRACKLINE_WORKER_CONCURRENCY,
    planIterations: e.WRACKLINE_PLAN_ITERATIONS,
    planSlotMinutes: e.WRACKLINE_PLAN_SLOT_MINUTES,
    outboxKeepDays: e.WRACKLINE_OUTBOX_KEEP_DAYS,
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
