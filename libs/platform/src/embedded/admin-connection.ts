import pg from 'pg';

import { systemErrorCode } from './embedded-postgres.error.js';
import { LOOPBACK } from './free-port.js';

/** Name of the cluster's superuser. */
export const ADMIN_ROLE = 'wrackline_admin';

/** Database that always exists, where the superuser connects. */
export const ADMIN_DATABASE = 'postgres';

const CONNECT_TIMEOUT_MS = 5_000;

/** How a server on a port answered to our superuser: ours, a refused password, another folder's, or nothing yet. */
export type Answer = 'ours' | 'refused' | 'other' | 'silent';

/** Asks the server on a port, with our password, which data directory it serves. */
export async function askServer(port: number, password: string, clusterDir: string): Promise<Answer> {
  const client = new pg.Client({
    host: LOOPBACK,
    port,
    user: ADMIN_ROLE,
    password,
    database: ADMIN_DATABASE,
    ssl: false,
    connectionTimeoutMillis: CONNECT_TIMEOUT_MS,
    query_timeout: CONNECT_TIMEOUT_MS,
    application_name: 'wrackline supervisor',
  });
  // A connection cut between two steps is reported by the step that fails; without this it is also thrown.
  client.on('error', () => undefined);
  try {
    await client.connect();
    const result = await client.query<{ dir: string }>("select current_setting('data_directory') as dir");
    return result.rows[0]?.dir === clusterDir ? 'ours' : 'other';
  } catch (error) {
    // SQLSTATE class 28: invalid authorization specification (PostgreSQL 18, appendix A).
    return systemErrorCode(error)?.startsWith('28') ? 'refused' : 'silent';
  } finally {
    await client.end().catch(() => undefined);
  }
}

/** Connection URL over loopback; every part is escaped. */
export function connectionUrl(port: number, role: string, password: string, database: string): string {
  const [user, secret, name] = [role, password, database].map(encodeURIComponent);
  return `postgresql://${user}:${secret}@${LOOPBACK}:${port}/${name}`;
}
