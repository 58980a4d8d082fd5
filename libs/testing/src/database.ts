import { randomBytes } from 'node:crypto';
import pg from 'pg';

/** A database of its own for one spec file, cloned from the migrated template. */
export interface TestDatabase {
  adminUrl: string;
  appUrl: string;
  relayUrl: string;
  admin: pg.Pool;
  drop(): Promise<void>;
}

const LOGINS = { app: 'wl_app:wrackline-test-app', relay: 'wl_relay:wrackline-test-relay' };

function serverUrl(): string {
  const url = process.env['WRACKLINE_TEST_ADMIN_URL'];
  if (!url) throw new Error('These tests need the test cluster: run them with `npm test` or `npm run test:only -- <path>`.');
  return url;
}

async function onServer(sql: string): Promise<void> {
  const client = new pg.Client({ connectionString: serverUrl() });
  await client.connect();
  try {
    // Two clones of one template at the same moment collide.
    await client.query('select pg_advisory_lock(727403)');
    await client.query(sql);
  } finally {
    await client.end();
  }
}

export async function createTestDatabase(): Promise<TestDatabase> {
  const name = `wl_test_${randomBytes(6).toString('hex')}`;
  await onServer(`create database ${name} template wl_template`);
  const as = (login: string | null) => {
    const url = new URL(serverUrl());
    url.pathname = `/${name}`;
    if (login) {
      const [user = '', password = ''] = login.split(':');
      url.username = user;
      url.password = password;
    }
    return url.toString();
  };
  const admin = new pg.Pool({ connectionString: as(null), max: 3 });
  admin.on('error', () => undefined);
  return {
    adminUrl: as(null),
    appUrl: as(LOGINS.app),
    relayUrl: as(LOGINS.relay),
    admin,
    async drop() {
      await admin.end();
      await onServer(`drop database ${name} with (force)`);
    },
  };
}

/** An empty database on the test server, for queues. */
export async function createEmptyDatabase(): Promise<{ url: string; drop(): Promise<void> }> {
  const name = `wl_queue_${randomBytes(6).toString('hex')}`;
  await onServer(`create database ${name}`);
  const url = new URL(serverUrl());
  url.pathname = `/${name}`;
  return { url: url.toString(), drop: () => onServer(`drop database ${name} with (force)`) };
}
