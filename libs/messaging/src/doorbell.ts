import type { OutboxTicket } from '#application';

/** What a job carries: ids only, because the queue keeps its data in clear and knows no networks. */
export interface Doorbell {
  networkId: string;
  outboxId: string;
}

/** A job as it came out of the queue; anybody who can reach the queue may have written it. */
export interface ReceivedDoorbell {
  jobId: string;
  data: unknown;
}

const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;
const JOB_ID = /^ob-([0-9a-f-]{36})-(\d{1,6})$/;

/**
 * The id of a job. Ringing twice for the same state of a row makes one job, as long as the first is in the queue;
 * after a run has begun the number is another one, so that an old job never swallows a new ring.
 */
export function doorbellJobId(ticket: OutboxTicket): string {
  return `ob-${ticket.outboxId}-${ticket.tries}`;
}

/** Reads a received job; null when it is not one that a relay makes. */
export function readDoorbell(received: ReceivedDoorbell): OutboxTicket | null {
  const { data } = received;
  if (typeof data !== 'object' || data === null || !('networkId' in data) || !('outboxId' in data)) return null;
  const { networkId, outboxId } = data;
  if (typeof networkId !== 'string' || typeof outboxId !== 'string' || !UUID.test(networkId) || !UUID.test(outboxId)) return null;
  const match = JOB_ID.exec(received.jobId);
  if (!match || match[1] !== outboxId) return null;
  return { networkId, outboxId, tries: Number(match[2]) };
}
