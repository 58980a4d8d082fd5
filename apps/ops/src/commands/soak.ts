import { randomInt } from 'node:crypto';
import { migratedDatabase, startTestCluster } from '../test-cluster.js';
import { projectRoot } from '#platform';
import { runJest } from './test.js';

/** Where properties stand that need no server, so that many seeds are played in minutes. */
const PROPERTIES = ['tests/unit', 'tests/reference'];

/**
 * `npm run soak -- properties [--seeds n] [paths]`: plays every property with fresh seeds until one fails or all are played. The seed is
 * printed before its run; `WRACKLINE_PROPERTY_SEED=<seed> npm run test:only -- <path>` plays it again.
 * `npm run soak -- custody [--seconds 90] [--seed n] [--bug name | all]`: custody commands under faults on real processes, see `soakCustody`.
 */
export async function run(args: string[]): Promise<number> {
  // Loaded only here: the checker comes with the test harness, which is not installed where the product runs.
  if (args[0] === 'custody') return (await import('../soak/custody-soak.js')).soakCustody(args.slice(1), (line) => process.stdout.write(`${line}\n`));
  if (args[0] !== 'properties') {
    process.stderr.write('Soaks: properties [--seeds n] [paths], custody [--seconds 90] [--seed n] [--bug name | all]\n');
    return 2;
  }
  const at = args.indexOf('--seeds');
  const seeds = at < 0 ? 5 : Number(args[at + 1]);
  const paths = args.slice(1).filter((_, index) => at < 0 || (index + 1 !== at && index + 1 !== at + 1));
  if (!Number.isSafeInteger(seeds) || seeds < 1) {
    process.stderr.write('--seeds takes a whole number of 1 or more\n');
    return 2;
  }
  const postgres = await startTestCluster();
  try {
    await migratedDatabase(postgres.adminUrl, 'wl_template');
    return await playSeeds(seeds, paths.length === 0 ? PROPERTIES : paths, postgres.adminUrl);
  } finally {
    await postgres.stop();
  }
}

async function playSeeds(seeds: number, paths: readonly string[], adminUrl: string): Promise<number> {
  let failed = 0;
  for (let turn = 1; turn <= seeds; turn += 1) {
    const seed = randomInt(1, 2 ** 31);
    process.stdout.write(`seed ${seed} (${turn} of ${seeds})\n`);
    const code = await runJest(projectRoot(), [...paths, '--silent'], { WRACKLINE_TEST_ADMIN_URL: adminUrl, WRACKLINE_PROPERTY_SEED: String(seed) });
    if (code !== 0) failed += 1;
  }
  process.stdout.write(`${seeds} seeds played, ${failed} with failures\n`);
  return failed === 0 ? 0 : 1;
}
