import { join } from 'node:path';
import pg from 'pg';
import { ensureDatabase, ensureRoles, migrate } from '#persistence';
import { type EmbeddedPostgres, projectRoot, startEmbeddedPostgres } from '#platform';
import { withDatabase } from './services.js';

/** Logins of the throw-away test cluster on loopback; nothing of value is ever in it. */
const TEST_PASSWORDS = { app: 'wrackline-test-app', relay: 'wrackline-test-relay' };

/** The embedded cluster of tests and checks, with its roles; the caller stops it. */
export async function startTestCluster(): Promise<EmbeddedPostgres> {
  const postgres = await startEmbeddedPostgres({ dataDir: join(projectRoot(), '.wrackline', 'test'), log: () => undefined });
  try {
    await ensureRoles(postgres.adminUrl, TEST_PASSWORDS);
  } catch (error) {
    await postgres.stop();
    throw error;
  }
  return postgres;
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
