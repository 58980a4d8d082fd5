import { createLogger, databasePlace, loadConfig } from '#platform';
import { composeApi } from './compose.js';
import { listen } from './server.js';

/** One API process on databases that are already running. `npm start` starts everything on one machine instead. */
async function main(): Promise<void> {
  const config = loadConfig();
  const logger = createLogger('wrackline-api', config.logLevel);
  const composed = await composeApi(config, logger);
  const api = await listen(composed.parts, config.host, config.port);
  logger.info({ url: api.url, database: databasePlace(config.databaseUrl), rateLimits: config.redisUrl ? 'shared in Redis' : 'per process', clock: config.clockFile ? 'demo file' : 'system' }, 'api listening');
  process.send?.({ ready: true, url: api.url });
  let closing = false;
  const stop = async () => {
    if (closing) return;
    closing = true;
    await api.close();
    await composed.close();
    process.exit(0);
  };
  process.on('SIGTERM', stop);
  process.on('SIGINT', stop);
  // A parent that died by kill -9 cannot send a signal; its channel closes.
  process.on('disconnect', stop);
}

main().catch((error: unknown) => {
  process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
  process.exit(1);
});
