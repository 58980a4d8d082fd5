import { Queue, Worker, createPostgresBackend, runMigrations } from 'bullmq';
import pg from 'pg';
import { EVENT_STREAM, QUEUE_NAME, answererOn, bellOn, processorOf, workerSettings } from './bullmq-parts.js';
import type { QueueBackend, QueueErrorListener } from './queue-backend.js';
import { QueueUnreachableError } from './queue-unreachable.error.js';

const CONNECT_TIMEOUT_MS = 3_000;
const STATEMENT_TIMEOUT_MS = 10_000;

/**
 * BullMQ on its own PostgreSQL backend, in a database of its own: its tables know no networks and have no row-level
 * security, which is why only ids are ever put there.
 */
export function createPostgresQueue(url: string, onError: QueueErrorListener): QueueBackend {
  const connection = (applicationName: string, max: number) => ({
    connectionString: url,
    application_name: applicationName,
    max,
    connectionTimeoutMillis: CONNECT_TIMEOUT_MS,
    statement_timeout: STATEMENT_TIMEOUT_MS,
    keepAlive: true,
  });
  return {
    name: 'PostgreSQL',
    prepare: () => migrateQueue(url, onError),
    bell() {
      const queue = new Queue(QUEUE_NAME, { connection: connection('wrackline-bell', 2), streams: EVENT_STREAM }, createPostgresBackend);
      queue.on('error', (error) => onError('bell', error));
      return bellOn(queue, () => undefined);
    },
    answerer(options) {
      const settings = { ...workerSettings(options), connection: connection('wrackline-queue', options.concurrency + 1) };
      const worker = new Worker(QUEUE_NAME, processorOf(options), settings, createPostgresBackend);
      worker.on('error', (error) => onError('worker', error));
      worker.on('failed', (_job, error) => onError('job', error));
      return answererOn(worker, onError);
    },
  };
}

/** Its migrations take a lock of their own and one transaction, so several processes may start together. */
async function migrateQueue(url: string, onError: QueueErrorListener): Promise<void> {
  const client = new pg.Client({ connectionString: url, connectionTimeoutMillis: CONNECT_TIMEOUT_MS });
  client.on('error', (error) => onError('queue migration', error));
  try {
    await client.connect();
    await runMigrations(client);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new QueueUnreachableError(`The queue in PostgreSQL cannot be used (${why}). Start the database, or correct QUEUE_DATABASE_URL; its login must own the schema bullmq.`, { cause: error });
  } finally {
    await client.end();
  }
}
