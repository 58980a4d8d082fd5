import type { OutboxTicket } from '#application';
import type { ReceivedDoorbell } from './doorbell.js';
import { createPostgresQueue } from './postgres-queue.js';
import { QueueUnreachableError } from './queue-unreachable.error.js';
import { createRedisQueue } from './redis-queue.js';

/** Where the queue lives: in Redis when its URL is given, else in a PostgreSQL database of its own. */
export interface QueueConfig {
  redisUrl: string | null;
  queueDatabaseUrl: string | null;
}

/** The ringing side. */
export interface Bell {
  /** Puts one job per ticket into the queue, or throws within seconds; a job that is there already stays one job. */
  ring(tickets: readonly OutboxTicket[]): Promise<void>;
  close(): Promise<void>;
}

/** The answering side. */
export interface Answerer {
  /** Resolves when the worker takes jobs. */
  ready: Promise<void>;
  /** Takes no more jobs and waits for those at work; answers false when some were still at work after the cap. */
  close(capMs: number): Promise<boolean>;
}

export interface AnswererOptions {
  concurrency: number;
  /** After this time without a sign of life a job is taken from its worker. */
  lockMs: number;
  /** Must not throw; called for every job received. */
  answer: (received: ReceivedDoorbell) => Promise<void>;
}

export interface QueueBackend {
  /** For the start-up log. */
  name: 'Redis' | 'PostgreSQL';
  /** Connects and brings the queue's own tables up to date. Throws `QueueUnreachableError` when that fails. */
  prepare(): Promise<void>;
  bell(): Bell;
  answerer(options: AnswererOptions): Answerer;
}

/** One listener for the errors of every connection and every loop of the queue; they recover by themselves. */
export type QueueErrorListener = (part: string, error: Error) => void;

/**
 * Makes the queue that the configuration names. It holds doorbells only: all of it may be lost at any time.
 * Throws `QueueUnreachableError` when the configuration names none.
 */
export function createQueueBackend(config: QueueConfig, onError: QueueErrorListener): QueueBackend {
  if (config.redisUrl !== null) return createRedisQueue(config.redisUrl, onError);
  if (config.queueDatabaseUrl !== null) return createPostgresQueue(config.queueDatabaseUrl, onError);
  throw new QueueUnreachableError('No queue: set REDIS_URL, or QUEUE_DATABASE_URL for the PostgreSQL queue.');
}
