import { Worker } from 'node:worker_threads';
import { type Plan, PLANNER_HEAP, type PlanProblem, type ProblemFault } from '#planning';

/** What the thread answers; an error crosses as plain data. */
export type ThreadAnswer = { plan: Plan } | { faults: readonly ProblemFault[] } | { error: string };
/** What it says before: rounds that are done. */
export interface ThreadProgress { rounds: number }
/** What it is asked. No function crosses, so it reads a clock of its own. */
export interface ThreadTask { problem: PlanProblem; search: ThreadSearch }

/** How one strand searches: until so many rounds are done or so many milliseconds are over. One of the two is given, or both. */
export interface ThreadSearch { seed: number; orders?: number | undefined; iterations?: number | undefined; milliseconds?: number | undefined }

export interface AskOptions {
  timeoutMs: number;
  heapMb: number;
  /** Ends the thread in the middle of its work. */
  signal: AbortSignal;
  onProgress(rounds: number): void;
}

/** Asks a thread of its own, which is gone when this settles. */
export async function askThread(workerData: ThreadTask, options: AskOptions): Promise<ThreadAnswer> {
  options.signal.throwIfAborted();
  const thread = new Worker(new URL('./planner-thread.worker.js', import.meta.url), { workerData, execArgv: [], resourceLimits: { maxOldGenerationSizeMb: options.heapMb, maxYoungGenerationSizeMb: PLANNER_HEAP.youngMb } });
  try {
    return await lastWord(thread, options);
  } finally {
    await thread.terminate();
  }
}

/** The answer of the thread, or why it will not come: an error, an early end, time is up, or nobody waits any more. What it says before is passed on. */
function lastWord(thread: Worker, { timeoutMs, signal, onProgress }: AskOptions): Promise<ThreadAnswer> {
  return new Promise((resolve, reject) => {
    const end = (settle: () => void) => {
      clearTimeout(timer);
      signal.removeEventListener('abort', stopped);
      settle();
    };
    const stopped = () => end(() => reject(asError(signal.reason)));
    const timer = setTimeout(() => end(() => reject(new Error(`the plan took longer than ${timeoutMs} ms`))), timeoutMs);
    signal.addEventListener('abort', stopped);
    thread.on('message', (said: ThreadAnswer | ThreadProgress) => ('rounds' in said ? onProgress(said.rounds) : end(() => resolve(said))));
    thread.once('error', (error: unknown) => end(() => reject(asError(error))));
    thread.once('exit', (code) => end(() => reject(new Error(`the planner thread ended with ${code} before it answered`))));
  });
}

function asError(error: unknown): Error {
  return error instanceof Error ? error : new Error(String(error));
}
