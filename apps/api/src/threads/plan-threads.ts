import { fileURLToPath } from 'node:url';
import type { PlanExplanation, PlanExplanationGround, PlanLoad, PlanLoadParts, PlanReckoner } from '#application';
import { answered, type Failed } from './crossing.js';
import { ThreadPool, type ThreadPoolOptions } from './thread-pool.js';

/** What the thread is asked. */
export type PlanTask = { about: 'item'; read: PlanExplanationGround } | { about: 'load'; read: PlanLoadParts };

/** What it answers. */
export type PlanAnswer = { about: 'item'; explanation: PlanExplanation } | { about: 'load'; load: PlanLoad };

export interface PlanThreads extends PlanReckoner {
  close(): Promise<void>;
}

/** Plans are read and thought through in threads of the API process; none is started before the first question. */
export function planThreads(options: Partial<ThreadPoolOptions> = {}): PlanThreads {
  const pool = new ThreadPool<PlanTask, PlanAnswer | Failed>({ file: fileURLToPath(new URL('./plan.worker.js', import.meta.url)), ...options });
  return {
    async explain(networkId, read) {
      return done(await pool.ask(networkId, { about: 'item', read }), 'item').explanation;
    },
    async load(networkId, parts) {
      return done(await pool.ask(networkId, { about: 'load', read: parts }), 'load').load;
    },
    close: () => pool.close(),
  };
}

function done<A extends PlanTask['about']>(told: PlanAnswer | Failed, about: A): Extract<PlanAnswer, { about: A }> {
  const answer = answered(told, 'plan');
  if (answer.about !== about) throw new Error('the plan thread failed: another answer came back');
  return answer as Extract<PlanAnswer, { about: A }>;
}
