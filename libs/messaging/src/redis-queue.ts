import { Queue, Worker } from 'bullmq';
import { Redis } from 'ioredis';
import { EVENT_STREAM, KEY_PREFIX, QUEUE_NAME, answererOn, bellOn, processorOf, workerSettings } from './bullmq-parts.js';
import type { QueueBackend, QueueErrorListener } from './queue-backend.js';
import { QueueUnreachableError } from './queue-unreachable.error.js';

const COMMAND_TIMEOUT_MS = 5_000;
const RECONNECT_CAP_MS = 2_000;
/** How long a closed socket may linger; it holds the process for that time when Redis was never reached. */
const DISCONNECT_TIMEOUT_MS = 200;

function reconnectDelay(times: number): number {
  return Math.min(RECONNECT_CAP_MS, 100 * times);
}

/**
 * BullMQ on Redis. The ringing connection fails at once while Redis is away, so that the relay can go on; the
 * workers' connections wait for its return, as BullMQ requires of them.
 */
export function createRedisQueue(url: string, onError: QueueErrorListener): QueueBackend {
  const producer = new Redis(url, {
    lazyConnect: true,
    enableOfflineQueue: false,
    maxRetriesPerRequest: 1,
    connectTimeout: COMMAND_TIMEOUT_MS,
    commandTimeout: COMMAND_TIMEOUT_MS,
    disconnectTimeout: DISCONNECT_TIMEOUT_MS,
    retryStrategy: reconnectDelay,
  });
  let cause = '';
  producer.on('error', (error: Error) => {
    cause = error.message;
    onError('bell connection', error);
  });
  return {
    name: 'Redis',
    async prepare() {
      try {
        await producer.connect();
        await producer.ping();
      } catch (error) {
        producer.disconnect();
        // The rejection itself says no more than that the connection is closed.
        throw new QueueUnreachableError(`The queue in Redis cannot be reached (${cause || 'no answer'}). Start Redis, or correct REDIS_URL.`, { cause: error });
      }
    },
    bell() {
      const queue = new Queue(QUEUE_NAME, { connection: producer, prefix: KEY_PREFIX, streams: EVENT_STREAM });
      queue.on('error', (error) => onError('bell', error));
      return bellOn(queue, () => producer.disconnect());
    },
    answerer(options) {
      const worker = new Worker(QUEUE_NAME, processorOf(options), {
        ...workerSettings(options),
        prefix: KEY_PREFIX,
        connection: { url, maxRetriesPerRequest: null, retryStrategy: reconnectDelay },
      });
      worker.on('error', (error) => onError('worker', error));
      worker.on('failed', (_job, error) => onError('job', error));
      return answererOn(worker, onError);
    },
  };
}
