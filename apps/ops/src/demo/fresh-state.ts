import { rm } from 'node:fs/promises';
import { join } from 'node:path';
import { type Config, EmbeddedPostgresError, stopOrphan } from '#platform';

/** Another demo runs in the same place. */
export class DemoRunning extends Error {}

/**
 * Makes the demo start from empty: the embedded database of an earlier one is removed with all it held. A database that was named
 * by DATABASE_URL belongs to somebody else and is left as it is; the demo's networks are new there all the same.
 * @throws DemoRunning when a live process uses the directory
 */
export async function removeEarlierDemo(config: Config): Promise<void> {
  if (config.databaseUrl !== null) return;
  const dataDir = join(config.stateDir, 'postgres');
  try {
    // What a killed demo left running is ended first.
    await stopOrphan(dataDir);
  } catch (error) {
    if (error instanceof EmbeddedPostgresError && error.code === 'locked') throw new DemoRunning(`Another demo is running in ${config.stateDir}. Stop it first (Ctrl-C in its window), or set WRACKLINE_STATE_DIR to another directory. ${error.message}`);
    throw error;
  }
  await rm(dataDir, { recursive: true, force: true });
}
