import type { OutboxMessage } from './outbox-store.js';

/** An outbox row as the relay handles it: enough to ring for it, nothing of its content. */
export interface OutboxTicket {
  networkId: string;
  outboxId: string;
  /** Runs begun so far. It fences: whoever holds an older number no longer holds the row. */
  tries: number;
}

export interface LeaseLimits {
  /** Most rows of one network that are out at the same time, so that a full network cannot crowd out a small one. */
  perNetwork: number;
  /** Rows that have begun this many runs are not rung for again; see `exhausted`. */
  maxTries: number;
  leaseMs: number;
}

/** How the outbox of all networks stands, for the operator of the service. */
export interface OutboxStanding {
  /** Rows that wait for their work or are at it. */
  open: number;
  /** Age of the oldest open row in seconds; null when there is none. */
  oldestOpenAgeS: number | null;
  /** Rows that were given up. */
  dead: number;
}

export interface DeadRow {
  networkId: string;
  message: OutboxMessage;
  tries: number;
  deadAtMs: number;
  reason: string;
}

/** The outbox of all networks, as the relay of the worker process sees it. Leases use the clock of the database. */
export interface OutboxRelay {
  /** Leases due rows, the oldest of every network first. Answers none while another relay is leasing. */
  lease(limits: LeaseLimits): Promise<OutboxTicket[]>;
  /** Begins a run and counts it; false when the row is done, dead, or another run has begun since the ticket was made. */
  begin(ticket: OutboxTicket, leaseMs: number): Promise<boolean>;
  /** Prolongs the lease of a run that is still at work; false when the row is done or the run was overtaken. */
  renew(ticket: OutboxTicket, leaseMs: number): Promise<boolean>;
  /** Makes open rows due again after a delay; answers how many of them were still open and not overtaken. */
  postpone(tickets: readonly OutboxTicket[], delayMs: number): Promise<number>;
  /** Open rows whose tries are used up and whose last lease has ended. */
  exhausted(maxTries: number, limit: number): Promise<{ ticket: OutboxTicket; message: OutboxMessage }[]>;
  /** Marks a row dead with a reason that an operator can read; it stays in the table. False when it was not open. */
  bury(ticket: OutboxTicket, reason: string): Promise<boolean>;
  /** Removes the oldest rows that were done longer ago than this, at most `limit` of them; answers how many. Never one that is not done. */
  prune(keepMs: number, limit: number): Promise<number>;
  /**
   * Removes answers to commands that are older than this, at most `limit` of them; answers how many. A command that is sent again after
   * that is done again. Never one of the last day.
   */
  forgetAnswers(keepMs: number, limit: number): Promise<number>;
  standing(): Promise<OutboxStanding>;
  /** Rows that were given up, by network and id, after this one. */
  dead(limit: number, after: { networkId: string; outboxId: string } | null): Promise<DeadRow[]>;
}
