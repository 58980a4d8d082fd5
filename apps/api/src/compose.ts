import { PgUnitOfWork, PrismaConfigWork, createPool, createVault, tenancyFaults, type Pool } from '#persistence';
import { type Clock, type Config, ConfigError, type Logger, fileClock, requireMasterKeys, systemClock } from '#platform';
import type { ApiParts } from './app.module.js';
import { acceptanceThreads } from './threads/acceptance-threads.js';
import { documentThreads } from './threads/document-threads.js';
import { planThreads } from './threads/plan-threads.js';

export const API_VERSION = '0.1.0';

export interface Composed {
  parts: ApiParts;
  pool: Pool;
  /** After the HTTP server has closed. */
  close(): Promise<void>;
}

export function clockOf(config: Config): Clock {
  return config.clockFile === null ? systemClock : fileClock(config.clockFile);
}

/** Wires the API for a configuration. Refuses to start on a login that could see another network's rows. */
export async function composeApi(config: Config, logger: Logger): Promise<Composed> {
  if (config.databaseUrl === null) throw new ConfigError('No database: set DATABASE_URL, or use `npm start`, which brings its own.');
  if (config.cursorSecret === null) throw new ConfigError('Set WRACKLINE_CURSOR_SECRET (32 characters or more, the same for every API process).');
  const masters = requireMasterKeys(config);
  const onError = (error: Error) => logger.warn({ err: error.message }, 'idle database connection lost');
  const pool = createPool({ connectionString: config.databaseUrl, max: config.poolSize, applicationName: 'wrackline-api', onError });
  const configPool = createPool({ connectionString: config.databaseUrl, max: Math.max(2, Math.floor(config.poolSize / 2)), applicationName: 'wrackline-api-config', onError });
  const faults = await tenancyFaults(pool);
  if (faults.length > 0) {
    await Promise.all([pool.end(), configPool.end()]);
    throw new ConfigError(`Refusing to start: ${faults.join(' ')}`);
  }
  const configWork = new PrismaConfigWork(configPool);
  return {
    pool,
    parts: {
      unitOfWork: new PgUnitOfWork(pool, masters),
      configWork,
      clock: clockOf(config),
      pool,
      logger,
      settings: { cursorSecret: config.cursorSecret, ratePerMinute: config.ratePerMinute, redisUrl: config.redisUrl, climateGatherMs: config.climateGatherMs, files: { photographBytes: config.files.photographBytes, voiceBytes: config.files.voiceBytes, uploadHours: config.files.uploadHours }, linkMinutes: config.files.linkMinutes, claims: config.families.claims, version: API_VERSION },
      acceptance: acceptanceThreads(),
      plans: planThreads(),
      documents: documentThreads(),
      vault: createVault(config),
    },
    async close() {
      await configWork.close();
      await Promise.all([pool.end(), configPool.end()]);
    },
  };
}
