import { fileURLToPath } from 'node:url';
import type { AcceptanceEstimate, AcceptanceParts, AcceptanceReckoner, AirQuestion, KindAcceptance } from '#application';
import type { StandardItemKind } from '#climate';
import type { EstimateAcceptance } from '#contracts';
import { answered, type Failed } from './crossing.js';
import { ThreadPool, type ThreadPoolOptions } from './thread-pool.js';

/** What the thread is asked. */
export type AcceptanceTask =
  | { sum: 'room'; parts: AcceptanceParts; kinds: readonly StandardItemKind[]; withinH: number }
  | { sum: 'estimate'; question: AirQuestion<EstimateAcceptance> };

/** What it answers. */
export type AcceptanceAnswer = { sum: 'room'; kinds: KindAcceptance[] } | { sum: 'estimate'; estimate: AcceptanceEstimate };

export interface AcceptanceThreads extends AcceptanceReckoner {
  readonly load: ThreadPool<AcceptanceTask, AcceptanceAnswer | Failed>['load'];
  close(): Promise<void>;
}

/** Acceptance is reckoned in threads of the API process; none is started before the first question. */
export function acceptanceThreads(options: Partial<ThreadPoolOptions> = {}): AcceptanceThreads {
  const pool = new ThreadPool<AcceptanceTask, AcceptanceAnswer | Failed>({ file: fileURLToPath(new URL('./acceptance.worker.js', import.meta.url)), ...options });
  return {
    get load() {
      return pool.load;
    },
    async ofRoom(networkId, parts, kinds, withinH) {
      const answer = done(await pool.ask(networkId, { sum: 'room', parts, kinds, withinH }), 'room');
      return answer.kinds;
    },
    async estimate(networkId, question) {
      const answer = done(await pool.ask(networkId, { sum: 'estimate', question }), 'estimate');
      return answer.estimate;
    },
    close: () => pool.close(),
  };
}

function done<S extends AcceptanceTask['sum']>(told: AcceptanceAnswer | Failed, sum: S): Extract<AcceptanceAnswer, { sum: S }> {
  const answer = answered(told, 'acceptance');
  if (answer.sum !== sum) throw new Error('the acceptance thread failed: another sum came back');
  return answer as Extract<AcceptanceAnswer, { sum: S }>;
}
