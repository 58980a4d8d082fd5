import { Worker } from 'node:worker_threads';
import type { Planner } from '#application';
import { MalformedPlanProblem, type Plan, type PlanBudget, type PlanProblem, type ProblemFault } from '#planning';

/** What the thread answers; an error crosses as plain data. */
export type ThreadAnswer = { plan: Plan } | { faults: readonly ProblemFault[] } | { error: string };

export interface ThreadPlannerOptions {
  /** A plan that takes longer than this is given up; the row comes again. */
  timeoutMs?: number;
  /** Heap of the thread. */
  heapMb?: number;
}

const DEFAULT_TIMEOUT_MS = 120_000;
const DEFAULT_HEAP_MB = 1_024;

/** Plans in a thread of its own for each plan, so that the process goes on renewing leases and answering meanwhile. */
export function threadPlanner(options: ThreadPlannerOptions = {}): Planner {
  const { timeoutMs = DEFAULT_TIMEOUT_MS, heapMb = DEFAULT_HEAP_MB } = options;
  return {
    async plan(problem, budget) {
      const answer = await ask({ problem, budget }, timeoutMs, heapMb);
      if ('plan' in answer) return answer.plan;
      if ('faults' in answer) throw new MalformedPlanProblem(answer.faults);
      throw new Error(`the planner thread failed: ${answer.error}`);
    },
  };
}

async function ask(workerData: { problem: PlanProblem; budget: PlanBudget }, timeoutMs: number, heapMb: number): Promise<ThreadAnswer> {
  const thread = new Worker(new URL('./planner-thread.worker.js', import.meta.url), { workerData, execArgv: [], resourceLimits: { maxOldGenerationSizeMb: heapMb } });
  try {
    return await firstWord(thread, timeoutMs);
  } finally {
    await thread.terminate();
  }
}

/** The answer of the thread, or why it will not come: an error, an early end, or time is up. */
function firstWord(thread: Worker, timeoutMs: number): Promise<ThreadAnswer> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new Error(`the plan took longer than ${timeoutMs} ms`)), timeoutMs);
    const end = (settle: () => void) => {
      clearTimeout(timer);
      settle();
    };
    thread.once('message', (answer: ThreadAnswer) => end(() => resolve(answer)));
    thread.once('error', (error: unknown) => end(() => reject(error instanceof Error ? error : new Error(String(error)))));
    thread.once('exit', (code) => end(() => reject(new Error(`the planner thread ended with ${code} before it answered`))));
  });
}
