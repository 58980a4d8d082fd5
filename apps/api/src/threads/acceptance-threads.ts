import { fileURLToPath } from 'node:url';
import type { AcceptanceEstimate, AcceptanceParts, AcceptanceReckoner, AirQuestion, KindAcceptance } from '#application';
import type { StandardItemKind } from '#climate';
import { Problem, type EstimateAcceptance, type ProblemCode, type ProblemExtras } from '#contracts';
import { ThreadPool, type ThreadPoolOptions } from './thread-pool.js';

/** What the thread is asked. */
export type AcceptanceTask =
  | { sum: 'room'; parts: AcceptanceParts; kinds: readonly StandardItemKind[]; withinH: number }
  | { sum: 'estimate'; question: AirQuestion<EstimateAcceptance> };

/** What it answers; an error crosses as plain data. */
export type AcceptanceAnswer =
  | { sum: 'room'; kinds: KindAcceptance[] }
  | { sum: 'estimate'; estimate: AcceptanceEstimate }
  | { problem: { code: ProblemCode; detail: string; extras: ProblemExtras } }
  | { error: string };

export interface AcceptanceThreads extends AcceptanceReckoner {
  readonly load: ThreadPool<AcceptanceTask, AcceptanceAnswer>['load'];
  close(): Promise<void>;
}

/** Acceptance is reckoned in threads of the API process; none is started before the first question. */
export function acceptanceThreads(options: Partial<ThreadPoolOptions> = {}): AcceptanceThreads {
  const pool = new ThreadPool<AcceptanceTask, AcceptanceAnswer>({ file: fileURLToPath(new URL('./acceptance.worker.js', import.meta.url)), ...options });
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

function done<S extends AcceptanceTask['sum']>(answer: AcceptanceAnswer, sum: S): Extract<AcceptanceAnswer, { sum: S }> {
  if ('problem' in answer) throw new Problem(answer.problem.code, answer.problem.detail, answer.problem.extras);
  if ('error' in answer || answer.sum !== sum) throw new Error(`the acceptance thread failed: ${'error' in answer ? answer.error : 'another sum came back'}`);
  return answer as Extract<AcceptanceAnswer, { sum: S }>;
}
