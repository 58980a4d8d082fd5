import { join } from 'node:path';
import pg from 'pg';
import { ensureDatabase, ensureRoles, migrate } from '#persistence';
import { type EmbeddedPostgres, projectRoot, startEmbeddedPostgres } from '#platform';
import { withDatabase } from './services.js';

/** Logins of the throw-away test cluster on loopback; nothing of value is ever in it. */
const TEST_PASSWORDS = { app: 'wrackline-test-app', relay: 'wrackline-test-relay' };

/** Runs of tests at the same time on one machine; more than this wait for nothing and are refused. */
const MOST_CLUSTERS = 8;

/** The embedded cluster of tests and checks, with its roles; the caller stops it. Runs side by side get one each. */
export async function startTestCluster(): Promise<EmbeddedPostgres> {
  const postgres = await unsharedCluster();
  try {
    await ensureRoles(postgres.adminUrl, TEST_PASSWORDS);
  } catch (error) {
    await postgres.stop();
    throw error;
  }
  return postgres;
}

/** The first cluster that no other live process owns: its owner would stop it under our tests. */
async function unsharedCluster(): Promise<EmbeddedPostgres> {
  for (let n = 1; n <= MOST_CLUSTERS; n += 1) {
    const postgres = await startEmbeddedPostgres({ dataDir: join(projectRoot(), '.wrackline', n === 1 ? 'test' : `test-${n}`), log: () => undefined });
    if (!postgres.joined) return postgres;
  }
  throw new Error(`${MOST_CLUSTERS} runs of the tests are under way in this folder: wait for one of them, or stop it.`);
}

/** A database with every migration applied, made anew when an earlier text of a migration is in it. */
export async function migratedDatabase(adminUrl: string, name: string): Promise<string> {
  const url = withDatabase(adminUrl, name);
  await ensureDatabase(adminUrl, name);
  try {
    await migrate(url);
  } catch {
    await dropDatabase(adminUrl, name);
    await ensureDatabase(adminUrl, name);
    await migrate(url);
  }
  return url;
}

export async function dropDatabase(adminUrl: string, name: string): Promise<void> {
  const client = new pg.Client({ connectionString: adminUrl });
  await client.connect();
  try {
    await client.query(`drop database if exists ${client.escapeIdentifier(name)} with (force)`);
  } finally {
    await client.end();
  }
}
