import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import pg from 'pg';
import { projectRoot } from '#platform';

export interface RolePasswords {
  app: string;
  relay: string;
  /** Left alone when absent: with Redis nobody logs in as the queue. */
  queue?: string;
}

/** Makes the roles of the cluster (idempotent) and sets the passwords of the logins. Needs a superuser. */
export async function ensureRoles(adminUrl: string, passwords: RolePasswords): Promise<void> {
  const client = new pg.Client({ connectionString: adminUrl });
  await client.connect();
  try {
    // Roles belong to the cluster: two processes that start together must not both create them.
    await client.query('select pg_advisory_lock(727401)');
    await client.query(await readFile(join(projectRoot(), 'prisma', 'roles.sql'), 'utf8'));
    await client.query(`alter role wl_app password ${client.escapeLiteral(passwords.app)}`);
    await client.query(`alter role wl_relay password ${client.escapeLiteral(passwords.relay)}`);
    if (passwords.queue !== undefined) await client.query(`alter role wl_queue password ${client.escapeLiteral(passwords.queue)}`);
  } finally {
    await client.end();
  }
}

/** Creates a database if it is not there, owned by the administrator or by the role named. */
export async function ensureDatabase(adminUrl: string, name: string, owner?: string): Promise<void> {
  const client = new pg.Client({ connectionString: adminUrl });
  await client.connect();
  try {
    await client.query('select pg_advisory_lock(727402)');
    const { rowCount } = await client.query('select from pg_database where datname = $1', [name]);
    if (rowCount === 0) await client.query(`create database ${client.escapeIdentifier(name)}${owner === undefined ? '' : ` owner ${client.escapeIdentifier(owner)}`}`);
  } finally {
    await client.end();
  }
}
