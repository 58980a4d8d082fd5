import type { BulkJobOptions, Job, Worker, WorkerOptions } from 'bullmq';
import type { OutboxTicket } from '#application';
import { type Doorbell, doorbellJobId } from './doorbell.js';
import type { Answerer, AnswererOptions, Bell, QueueErrorListener } from './queue-backend.js';

/** Name of the one queue, and the Redis key prefix in braces so that all its keys share a slot of a cluster. */
export const QUEUE_NAME = 'outbox';
export const KEY_PREFIX = '{wrackline}';
/** Nobody reads the queue's own event stream; it is kept short. */
export const EVENT_STREAM = { events: { maxLen: 200 } };

const RING_TIMEOUT_MS = 10_000;
const JOB_NAME = 'doorbell';

interface BulkJob {
  name: string;
  data: Doorbell;
  opts: BulkJobOptions;
}

/** What a bell needs of a BullMQ queue, whatever its backend. */
export interface BulkQueue {
  addBulk(jobs: BulkJob[]): Promise<unknown>;
  close(): Promise<void>;
}

/** Failure is recorded in the outbox and nowhere else: a job that stayed would swallow the next ring with its id. */
function toJob(ticket: OutboxTicket): BulkJob {
  return {
    name: JOB_NAME,
    data: { networkId: ticket.networkId, outboxId: ticket.outboxId },
    opts: { jobId: doorbellJobId(ticket), attempts: 1, removeOnComplete: true, removeOnFail: true },
  };
}

export function bellOn(queue: BulkQueue, closeConnection: () => Promise<void> | void): Bell {
  return {
    async ring(tickets) {
      await within(RING_TIMEOUT_MS, queue.addBulk(tickets.map(toJob)));
    },
    async close() {
      await queue.close();
      await closeConnection();
    },
  };
}

/** Fails instead of waiting for ever; the jobs may still arrive later, which does no harm. */
async function within(ms: number, work: Promise<unknown>): Promise<void> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise((_, reject) => {
    timer = setTimeout(() => reject(new Error('the queue did not answer in time')), ms);
  });
  try {
    await Promise.race([work, late]);
  } finally {
    clearTimeout(timer);
  }
}

/** Settings of a worker that do not depend on the backend. */
export function workerSettings(options: AnswererOptions): Omit<WorkerOptions, 'connection'> {
  return {
    concurrency: options.concurrency,
    lockDuration: options.lockMs,
    stalledInterval: options.lockMs,
    maxStalledCount: 1,
    runRetryDelay: 2_000,
    removeOnComplete: { count: 0 },
    removeOnFail: { count: 0 },
  };
}

/** Hands a job's id and data to the answering function; no type of the queue goes further. */
export function processorOf(options: AnswererOptions): (job: Job<unknown>) => Promise<void> {
  return (job) => options.answer({ jobId: job.id ?? '', data: job.data });
}

/** What an answerer needs of a BullMQ worker, whatever its backend. */
export type ClosableWorker = Pick<Worker, 'waitUntilReady' | 'close'>;

export function answererOn(worker: ClosableWorker, onError: QueueErrorListener): Answerer {
  const ready = worker.waitUntilReady();
  ready.catch((error: Error) => onError('worker', error));
  return {
    ready,
    async close(capMs) {
      let timer: NodeJS.Timeout | undefined;
      const late = new Promise<false>((resolve) => {
        timer = setTimeout(() => resolve(false), capMs);
      });
      // `close` of BullMQ waits for the jobs at work without a limit of its own.
      const closed = await Promise.race([worker.close().then(() => true), late]);
      clearTimeout(timer);
      return closed;
    },
  };
}
