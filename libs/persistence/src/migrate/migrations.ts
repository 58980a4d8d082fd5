import { createHash, randomUUID } from 'node:crypto';
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import pg from 'pg';
import { projectRoot } from '#platform';

// Prisma's own table (folder layout, SHA-256 of migration.sql), so that `prisma migrate` could take over.
// We apply the files ourselves because its engine is a download of its own that may not be had.
const TABLE = `create table if not exists _prisma_migrations (
  id varchar(36) primary key not null, checksum varchar(64) not null, finished_at timestamptz,
  migration_name varchar(255) not null, logs text, rolled_back_at timestamptz,
  started_at timestamptz not null default now(), applied_steps_count integer not null default 0)`;

export interface Migration {
  name: string;
  sql: string;
  checksum: string;
}

export class MigrationError extends Error {}

/** The committed migrations in the order of their names. */
export async function readMigrations(folder = join(projectRoot(), 'prisma', 'migrations')): Promise<Migration[]> {
  const names = (await readdir(folder, { withFileTypes: true })).filter((entry) => entry.isDirectory()).map((entry) => entry.name).sort();
  return Promise.all(
    names.map(async (name) => {
      const sql = await readFile(join(folder, name, 'migration.sql'), 'utf8');
      return { name, sql, checksum: createHash('sha256').update(sql).digest('hex') };
    }),
  );
}

/**
 * Applies what is missing, each in its own transaction, under a lock of the database. Refuses when an applied file
 * was edited or is gone. Answers the names it applied.
 */
export async function migrate(ownerUrl: string, migrations?: Migration[]): Promise<string[]> {
  const wanted = migrations ?? (await readMigrations());
  const client = new pg.Client({ connectionString: ownerUrl });
  await client.connect();
  try {
    await client.query('select pg_advisory_lock(727400)');
    await client.query(TABLE);
    const { rows } = await client.query<{ migration_name: string; checksum: string }>(
      'select migration_name, checksum from _prisma_migrations where rolled_back_at is null and finished_at is not null order by migration_name',
    );
    refuseDrift(rows, wanted);
    const applied = new Set(rows.map((row) => row.migration_name));
    const missing = wanted.filter((migration) => !applied.has(migration.name));
    for (const migration of missing) await apply(client, migration);
    return missing.map((migration) => migration.name);
  } finally {
    await client.end();
  }
}

function refuseDrift(applied: { migration_name: string; checksum: string }[], wanted: Migration[]): void {
  const byName = new Map(wanted.map((migration) => [migration.name, migration]));
  for (const row of applied) {
    const file = byName.get(row.migration_name);
    if (!file) throw new MigrationError(`The database has migration ${row.migration_name}, which this version does not know. Start a newer version.`);
    if (file.checksum !== row.checksum) throw new MigrationError(`Migration ${row.migration_name} was changed after it was applied. Restore the file and add a new migration.`);
  }
}

async function apply(client: pg.Client, migration: Migration): Promise<void> {
  await client.query('begin');
  try {
    await client.query(migration.sql);
    await client.query(
      'insert into _prisma_migrations (id, checksum, finished_at, migration_name, applied_steps_count) values ($1, $2, now(), $3, 1)',
      [randomUUID(), migration.checksum, migration.name],
    );
    await client.query('commit');
  } catch (error) {
    await client.query('rollback');
    throw new MigrationError(`Migration ${migration.name} failed: ${error instanceof Error ? error.message : String(error)}`);
  }
}
