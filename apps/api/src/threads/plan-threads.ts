import { fileURLToPath } from 'node:url';
import type { PlanDeadlines, PlanExplanation, PlanExplanationGround, PlanGround, PlanLoad, PlanLoadParts, PlanReckoner } from '#application';
import { answered, type Failed } from './crossing.js';
import { ThreadPool, type ThreadPoolOptions } from './thread-pool.js';

/** What the thread is asked. */
export type PlanTask =
  | { about: 'item'; read: PlanExplanationGround }
  | { about: 'load'; read: PlanLoadParts }
  | { about: 'station'; read: { packed: Uint8Array; stationId: string } }
  | { about: 'deadlines'; read: { packed: Uint8Array } };

/** What it answers. */
export type PlanAnswer =
  | { about: 'item'; explanation: PlanExplanation }
  | { about: 'load'; load: PlanLoad }
  | { about: 'station'; ground: PlanGround }
  | { about: 'deadlines'; deadlines: PlanDeadlines };

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
    async station(networkId, read) {
      return done(await pool.ask(networkId, { about: 'station', read }), 'station').ground;
    },
    async deadlines(networkId, read) {
      return done(await pool.ask(networkId, { about: 'deadlines', read }), 'deadlines').deadlines;
    },
    close: () => pool.close(),
  };
}

function done<A extends PlanTask['about']>(told: PlanAnswer | Failed, about: A): Extract<PlanAnswer, { about: A }> {
  const answer = answered(told, 'plan');
  if (answer.about !== about) throw new Error('the plan thread failed: another answer came back');
  return answer as Extract<PlanAnswer, { about: A }>;
}
