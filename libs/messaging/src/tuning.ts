/** Times and limits of relay and worker. All are our own calibration. */
export interface Tuning {
  /** How often the relay looks for due rows when nothing else wakes it. */
  pollMs: number;
  /** After this time without a renewal a row is due again: how long the work of a killed worker waits. */
  leaseMs: number;
  /** How often a running handler's lease is prolonged; well below `leaseMs`. */
  renewMs: number;
  /** Most rows of one network that are out at the same time. */
  perNetwork: number;
  /** Runs of one row before it is given up and marked dead. */
  maxTries: number;
  /** First delay after a failed run; it doubles with every further one. */
  backOffBaseMs: number;
  /** Longest delay after a failed run. */
  backOffCapMs: number;
  /** How long a stopping worker waits for the handlers at work. */
  closeCapMs: number;
  /** After this time without a sign of life a job is taken from its worker by the queue (BullMQ's lock). */
  queueLockMs: number;
  /** How often done rows are removed and the standing of the outbox is logged. */
  upkeepMs: number;
  /** Most rows that one statement removes. */
  pruneBatch: number;
}

export const DEFAULT_TUNING: Tuning = {
  pollMs: 1_000,
  leaseMs: 60_000,
  renewMs: 20_000,
  perNetwork: 60,
  maxTries: 8,
  backOffBaseMs: 2_000,
  backOffCapMs: 60_000,
  closeCapMs: 20_000,
  queueLockMs: 30_000,
  upkeepMs: 60_000,
  pruneBatch: 500,
};

/**
 * Delay before the next run: doubling, capped, and drawn from its upper half so that rows which failed together do
 * not come back together (exponential backoff with jitter, common practice).
 */
export function backOffMs(tuning: Pick<Tuning, 'backOffBaseMs' | 'backOffCapMs'>, failedRuns: number, random: () => number): number {
  const full = Math.min(tuning.backOffCapMs, tuning.backOffBaseMs * 2 ** Math.max(0, failedRuns - 1));
  return Math.round(full * (0.5 + random() / 2));
}
