import { setTimeout as sleep } from 'node:timers/promises';
import type { OutboxRelay, OutboxStanding } from '#application';
import type { Logger } from '#platform';
import { summarise } from './error-summary.js';
import type { Tuning } from './tuning.js';

export interface UpkeepParts {
  relay: OutboxRelay;
  /** How long a row that is done stays in the table. */
  keepMs: number;
  tuning: Pick<Tuning, 'upkeepMs' | 'pruneBatch'>;
  logger: Logger;
}

/**
 * Keeps the outbox small and tells the operator how it stands: one line of the log at every round, over all networks
 * and therefore there and in `npm run ops -- outbox` only, never in an answer of the API.
 */
export class OutboxUpkeep {
  private running: Promise<void> | null = null;
  private readonly stopping = new AbortController();
  private deadBefore = 0;

  constructor(private readonly parts: UpkeepParts) {}

  start(): void {
    this.running ??= this.loop();
  }

  /** Ends after the statement that is under way. */
  async stop(): Promise<void> {
    this.stopping.abort();
    await this.running;
  }

  private async loop(): Promise<void> {
    const { tuning, logger } = this.parts;
    const { signal } = this.stopping;
    while (!signal.aborted) {
      try {
        const pruned = await this.prune();
        this.tell(await this.parts.relay.standing(), pruned);
      } catch (error) {
        logger.warn({ error: summarise(error) }, 'upkeep of the outbox did not succeed; it tries again');
      }
      await sleep(tuning.upkeepMs, undefined, { signal }).catch(() => undefined);
    }
  }

  /** Batch by batch, each its own transaction, so that nobody waits for a long one. */
  private async prune(): Promise<number> {
    const { relay, keepMs, tuning } = this.parts;
    let pruned = 0;
    while (!this.stopping.signal.aborted) {
      const removed = await relay.prune(keepMs, tuning.pruneBatch);
      pruned += removed;
      if (removed < tuning.pruneBatch) break;
    }
    return pruned;
  }

  private tell(standing: OutboxStanding, pruned: number): void {
    const more = standing.dead > this.deadBefore;
    this.deadBefore = standing.dead;
    const line = { ...standing, oldestOpenAgeS: standing.oldestOpenAgeS === null ? null : Math.round(standing.oldestOpenAgeS), pruned };
    if (more) this.parts.logger.warn(line, 'outbox: rows were given up; see `npm run ops -- outbox`');
    else this.parts.logger.info(line, 'outbox');
  }
}
