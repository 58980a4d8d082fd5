import { setTimeout as sleep } from 'node:timers/promises';
import type { OutboxRelay, OutboxStanding } from '#application';
import type { Logger } from '#platform';
import { summarise } from './error-summary.js';
import type { Tuning } from './tuning.js';

export interface UpkeepParts {
  relay: OutboxRelay;
  /** How long a row that is done stays in the table. */
  keepMs: number;
  /** How long the answer to a command is kept for when the command comes again. */
  keepAnswersMs: number;
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
        const { relay, keepMs, keepAnswersMs } = this.parts;
        const pruned = await this.batches((limit) => relay.prune(keepMs, limit));
        const forgotten = await this.batches((limit) => relay.forgetAnswers(keepAnswersMs, limit));
        this.tell(await relay.standing(), { pruned, forgotten });
      } catch (error) {
        logger.warn({ error: summarise(error) }, 'upkeep of the outbox did not succeed; it tries again');
      }
      await sleep(tuning.upkeepMs, undefined, { signal }).catch(() => undefined);
    }
  }

  /** Batch by batch, each its own transaction, so that nobody waits for a long one. */
  private async batches(remove: (limit: number) => Promise<number>): Promise<number> {
    const { pruneBatch } = this.parts.tuning;
    let all = 0;
    while (!this.stopping.signal.aborted) {
      const removed = await remove(pruneBatch);
      all += removed;
      if (removed < pruneBatch) break;
    }
    return all;
  }

  private tell(standing: OutboxStanding, removed: { pruned: number; forgotten: number }): void {
    const more = standing.dead > this.deadBefore;
    this.deadBefore = standing.dead;
    const line = { ...standing, oldestOpenAgeS: standing.oldestOpenAgeS === null ? null : Math.round(standing.oldestOpenAgeS), ...removed };
    if (more) this.parts.logger.warn(line, 'outbox: rows were given up; see `npm run ops -- outbox`');
    else this.parts.logger.info(line, 'outbox');
  }
}
