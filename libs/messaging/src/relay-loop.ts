import type { OutboxRelay, OutboxTicket } from '#application';
import type { Logger } from '#platform';
import { summarise } from './error-summary.js';
import { type GiveUps, workerContext } from './handlers.js';
import type { Bell } from './queue-backend.js';
import type { Tuning } from './tuning.js';

/** Shortest pause between two looks at the outbox when finished jobs make room. */
const POKE_GAP_MS = 50;
const GIVE_UP_BATCH = 20;
const DEAD_REASON = 'Every run of it failed or broke off. The log of the worker names the errors under this outbox id.';

export interface RelayParts {
  relay: OutboxRelay;
  bell: Bell;
  giveUps: GiveUps;
  tuning: Tuning;
  logger: Logger;
}

/**
 * Moves due rows of the outbox to the queue. The table stays the record: a ring that gets lost anywhere is rung
 * again when its lease ends.
 */
export class RelayLoop {
  private running: Promise<void> | null = null;
  private stopping = false;
  private poked = false;
  private wake: (() => void) | null = null;

  constructor(private readonly parts: RelayParts) {}

  start(): void {
    this.running ??= this.loop();
  }

  /** Says that a job has finished, so that its network has room again. Many pokes make one look. */
  poke(): void {
    this.poked = true;
    this.wake?.();
  }

  /** Ends after the look that is under way. */
  async stop(): Promise<void> {
    this.stopping = true;
    this.wake?.();
    await this.running;
  }

  private async loop(): Promise<void> {
    while (!this.stopping) {
      this.poked = false;
      try {
        await this.look();
      } catch (error) {
        this.parts.logger.warn({ error: summarise(error) }, 'relay could not read the outbox; it tries again');
        await this.sleep(this.parts.tuning.pollMs);
      }
      await this.sleep(POKE_GAP_MS);
      if (!this.poked) await this.sleep(this.parts.tuning.pollMs - POKE_GAP_MS, true);
    }
  }

  /** Sleeps; `stop` ends any sleep, a poke only one that may be cut short. */
  private sleep(ms: number, mayBePoked = false): Promise<void> {
    if (this.stopping) return Promise.resolve();
    return new Promise((resume) => {
      const end = () => {
        clearTimeout(timer);
        this.wake = null;
        resume();
      };
      const timer = setTimeout(end, ms);
      this.wake = () => {
        if (this.stopping || mayBePoked) end();
      };
    });
  }

  private async look(): Promise<void> {
    const { relay, tuning } = this.parts;
    const tickets = await relay.lease({ perNetwork: tuning.perNetwork, maxTries: tuning.maxTries, leaseMs: tuning.leaseMs });
    if (tickets.length > 0) await this.ring(tickets);
    await this.giveUpExhausted();
  }

  private async ring(tickets: OutboxTicket[]): Promise<void> {
    const { bell, relay, tuning, logger } = this.parts;
    try {
      await bell.ring(inTurns(tickets));
    } catch (error) {
      logger.warn({ error: summarise(error), rows: tickets.length }, 'the queue took no jobs; the rows stay in the outbox');
      // Only to be quicker than the end of the lease, which brings them back in any case.
      await relay.postpone(tickets, tuning.pollMs);
    }
  }

  private async giveUpExhausted(): Promise<void> {
    const { relay, giveUps, tuning, logger } = this.parts;
    for (const { ticket, message } of await relay.exhausted(tuning.maxTries, GIVE_UP_BATCH)) {
      const where = { networkId: ticket.networkId, outboxId: ticket.outboxId, kind: message.kind, subjectId: message.subjectId, tries: ticket.tries };
      try {
        await giveUps[message.kind](message, workerContext(ticket.networkId, `give-up-${ticket.outboxId}`, message.traceparent), DEAD_REASON);
        if (await relay.bury(ticket, DEAD_REASON)) logger.error(where, 'outbox row given up; it stays in the table as dead');
      } catch (error) {
        // Never dead before its subject knows; try again after a lease.
        logger.error({ ...where, error: summarise(error) }, 'outbox row could not be given up; it is tried again');
        await relay.postpone([ticket], tuning.leaseMs);
      }
    }
  }
}

/** The oldest of every network, then the second of every network, and so on: a short list never waits behind a long one. */
export function inTurns(tickets: readonly OutboxTicket[]): OutboxTicket[] {
  const byNetwork = new Map<string, OutboxTicket[]>();
  for (const ticket of tickets) {
    const list = byNetwork.get(ticket.networkId);
    if (list) list.push(ticket);
    else byNetwork.set(ticket.networkId, [ticket]);
  }
  const lists = [...byNetwork.values()].map((list) => list.sort((a, b) => (a.outboxId < b.outboxId ? -1 : 1)));
  const longest = Math.max(0, ...lists.map((list) => list.length));
  return Array.from({ length: longest }, (_, turn) => lists.flatMap((list) => list.slice(turn, turn + 1))).flat();
}
