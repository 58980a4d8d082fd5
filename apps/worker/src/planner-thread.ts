import { availableParallelism } from 'node:os';
import type { Planner } from '#application';
import { bestPlan, MalformedPlanProblem, type Plan, type PlanBudget, PLANNER_HEAP, type PlanProblem, strandSeed } from '#planning';
import { type AskOptions, askThread, type ThreadAnswer, type ThreadSearch } from './ask-thread.js';

export interface ThreadPlannerOptions {
  /** Searches of each plan, every one with a seed and a thread of its own, of which the best plan is taken; 1 when left out. */
  strands?: number;
  /** Threads that search at the same time; one for each strand when left out, but no more than there are processors. The plan does not depend on it. */
  threads?: number;
  /** Milliseconds after which the strands improve no further although not all rounds are done; rounds alone decide when left out. */
  milliseconds?: number;
  /** A strand that takes longer than this is given up, and the plan with it; the row comes again. Two minutes more than `milliseconds` when left out. */
  timeoutMs?: number;
  /** Heap of each thread, `PLANNER_HEAP` when left out. */
  heapMb?: number;
  /** Ends all threads when the process will not wait for them; their plans reject. */
  signal?: AbortSignal;
}

const DEFAULT_TIMEOUT_MS = 120_000;

/**
 * Plans in threads of their own for each plan, so that the process goes on renewing leases and answering meanwhile. Where rounds decide, the plan is
 * bit-identical for problem, seed, rounds and strands, whatever the threads; where time did, it is the plan of the seed and rounds that it names.
 */
export function threadPlanner(options: ThreadPlannerOptions = {}): Planner {
  return {
    plan: (problem, budget) => new StrandRun(problem, budget, options).plan(),
  };
}

class StrandRun {
  private readonly stop = new AbortController();
  private readonly strands: number;
  private readonly threads: number;
  private readonly search: Omit<ThreadSearch, 'seed'>;
  private readonly ask: Pick<AskOptions, 'timeoutMs' | 'heapMb' | 'signal'>;
  private readonly rounds: number[];
  private next = 0;

  constructor(private readonly problem: PlanProblem, private readonly budget: PlanBudget, private readonly options: ThreadPlannerOptions) {
    const { strands = 1, threads = availableParallelism(), milliseconds, timeoutMs = DEFAULT_TIMEOUT_MS + (milliseconds ?? 0), heapMb = PLANNER_HEAP.oldMb } = options;
    // Without rounds of improvement all strands would make the same first plan.
    this.strands = 'iterations' in budget && budget.iterations === 0 ? 1 : strands;
    this.threads = Math.min(threads, this.strands);
    this.search = { orders: budget.orders, ...limitsOf(budget, milliseconds, Math.ceil(this.strands / this.threads)) };
    this.ask = { timeoutMs, heapMb, signal: this.stop.signal };
    this.rounds = Array.from({ length: this.strands }, () => 0);
  }

  async plan(): Promise<Plan> {
    const { signal } = this.options;
    signal?.throwIfAborted();
    const stopped = () => this.stop.abort(signal?.reason);
    signal?.addEventListener('abort', stopped);
    const plans: Plan[] = [];
    try {
      await Promise.all(Array.from({ length: this.threads }, () => this.lane(plans)));
    } finally {
      // A strand that failed ends the others.
      this.stop.abort();
      signal?.removeEventListener('abort', stopped);
    }
    return bestPlan(plans);
  }

  /** One strand after another, while there are any. */
  private async lane(plans: Plan[]): Promise<void> {
    while (this.next < this.strands) {
      const strand = this.next;
      this.next += 1;
      const seed = strandSeed(this.budget.seed, strand);
      const task = { problem: this.problem, search: { ...this.search, seed } };
      plans[strand] = planOf(await askThread(task, { ...this.ask, onProgress: (rounds) => this.tell(strand, rounds) }));
      this.tell(strand, plans[strand].iterations);
    }
  }

  /** The rounds of a plan are those of its strands on average. */
  private tell(strand: number, rounds: number): void {
    this.rounds[strand] = rounds;
    this.budget.onProgress?.(Math.floor(this.rounds.reduce((sum, each) => sum + each, 0) / this.strands));
  }
}

/** Strands that must wait for each other share the time. */
function limitsOf(budget: PlanBudget, milliseconds: number | undefined, turns: number): Pick<ThreadSearch, 'iterations' | 'milliseconds'> {
  const [iterations, limitMs] = 'iterations' in budget ? [budget.iterations, milliseconds] : [budget.mostIterations, budget.milliseconds];
  return { iterations, milliseconds: limitMs === undefined ? undefined : limitMs / turns };
}

function planOf(answer: ThreadAnswer): Plan {
  if ('plan' in answer) return answer.plan;
  if ('faults' in answer) throw new MalformedPlanProblem(answer.faults);
  throw new Error(`the planner thread failed: ${answer.error}`);
}
