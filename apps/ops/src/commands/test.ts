import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { projectRoot } from '#platform';
import { migratedDatabase, startTestCluster } from '../test-cluster.js';

/** Starts the test cluster, prepares the template database, runs Jest on the paths given, stops the cluster. */
export async function run(args: string[]): Promise<number> {
  const postgres = await startTestCluster();
  try {
    await migratedDatabase(postgres.adminUrl, 'wl_template');
    return await runJest(projectRoot(), args, { WRACKLINE_TEST_ADMIN_URL: postgres.adminUrl });
  } finally {
    await postgres.stop();
  }
}

/** Runs Jest on the paths given; answers its exit code. */
export function runJest(root: string, args: string[], env: Record<string, string>): Promise<number> {
  const jest = join(root, 'node_modules', 'jest', 'bin', 'jest.js');
  // A socket that a closed pool has not let go of yet must not hold the run open after the last result.
  const child = spawn(process.execPath, ['--experimental-vm-modules', '--no-warnings=ExperimentalWarning', jest, '--forceExit', ...args], { cwd: root, stdio: 'inherit', env: { ...process.env, ...env } });
  const forward = (signal: NodeJS.Signals) => child.kill(signal);
  process.on('SIGINT', forward);
  process.on('SIGTERM', forward);
  return new Promise((resolve) => child.on('exit', (code) => resolve(code ?? 1)));
}
