import { loadConfig } from '#platform';
import { startProcesses } from '../processes.js';
import { startServices } from '../services.js';

const DEFAULT_PORT = 8420;

/** Everything on one machine: database, one API, one worker. Ends on Ctrl-C or SIGTERM, all of it; with 1 when the database is lost. */
export async function run(_args: string[]): Promise<number> {
  const config = loadConfig();
  const log = (message: string) => process.stdout.write(`${message}\n`);
  const services = await startServices(config, log);
  log(services.description);
  try {
    const running = await startProcesses({ ...services.config, port: config.port === 0 ? DEFAULT_PORT : config.port }, { apis: 1, workers: 1 }, log);
    log(`API: ${running.urls[0]}  (documentation at /docs, keys: npm run ops -- create-network "Name")`);
    const lost = await Promise.race([untilStopped(), services.lost]);
    // Better no service, which somebody is told of, than one that answers 503 for ever.
    if (lost) process.stderr.write(`${lost.message}\n`);
    log('Stopping ...');
    await running.stop();
    return lost ? 1 : 0;
  } finally {
    await services.stop();
  }
}

/** Resolves on the first Ctrl-C or SIGTERM. */
export function untilStopped(): Promise<void> {
  return new Promise((resolve) => {
    process.once('SIGINT', () => resolve());
    process.once('SIGTERM', () => resolve());
  });
}
