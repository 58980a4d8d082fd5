// The worker for the fault runs: the built program with short leases, of rows and of jobs in the queue, so that what a cut connection or a
// stopped database left behind is taken up again within seconds instead of a minute, and with tries enough for a run full of faults.
import { createLogger, loadConfig } from '#platform';
import { composeWork } from '../../dist/apps/worker/src/handlers.js';
import { runWorkerProcess } from '../../dist/apps/worker/src/worker-process.js';

const config = loadConfig();
const tuning = { pollMs: 300, leaseMs: 4_000, renewMs: 1_000, queueLockMs: 4_000, maxTries: 100, backOffBaseMs: 200, backOffCapMs: 1_000 };
runWorkerProcess(config, createLogger('worker-of-fault-run', config.logLevel), composeWork, { tuning }).catch((error) => {
  process.stderr.write(`${error.message}\n`);
  process.exit(1);
});
