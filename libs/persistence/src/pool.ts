import pg from 'pg';

export type Pool = pg.Pool;
export type Client = pg.PoolClient;

// Counts and sums come as bigint text; all of ours are far below 2^53.
const types = {
  getTypeParser(oid: number, format?: 'text' | 'binary') {
    if (oid === 20) return (value: string) => Number(value);
    return pg.types.getTypeParser(oid, format as 'text');
  },
};

export interface PoolOptions {
  connectionString: string;
  max: number;
  applicationName: string;
  onError: (error: Error) => void;
}

/** A pool whose every statement and wait is bounded, so that a stuck database becomes a 503 and not a hang. */
export function createPool(options: PoolOptions): Pool {
  const pool = new pg.Pool({
    connectionString: options.connectionString,
    max: options.max,
    application_name: options.applicationName,
    connectionTimeoutMillis: 3_000,
    idleTimeoutMillis: 30_000,
    statement_timeout: 15_000,
    lock_timeout: 5_000,
    idle_in_transaction_session_timeout: 20_000,
    types,
  });
  pool.on('error', options.onError);
  // A connection that is lost while somebody holds it, between two statements, emits an error that the pool does not
  // listen to, and Node ends the process for it. The holder learns of the loss from its next statement.
  pool.on('connect', (client) => client.on('error', () => undefined));
  return pool;
}
