import { createLogger, loadConfig } from '#platform';
import { composeWork } from './handlers.js';
import { runWorkerProcess } from './worker-process.js';

/** One worker process on databases that are already running. `npm start` starts everything on one machine instead. */
const config = loadConfig();
runWorkerProcess(config, createLogger('wrackline-worker', config.logLevel), composeWork).catch((error: unknown) => {
  process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
  process.exit(1);
});
