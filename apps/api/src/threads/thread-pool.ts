import { Worker } from 'node:worker_threads';
import { Problem } from '#contracts';

export interface ThreadPoolOptions {
  /** The thread's program, which posts one answer for each message. */
  file: string;
  /** Threads at most; each is started when there is work for it, and kept. */
  threads?: number;
  /** Questions at most that run or wait, of all networks; one network has half of the places. */
  places?: number;
  /** A question that has no answer so long after it was asked is given up, and its thread ended. Below the 60 s after which a silent connection is closed. */
  timeoutMs?: number;
  /** When the pool closes, what runs has so long to finish. */
  graceMs?: number;
  /** Heap of each thread. */
  heapMb?: number;
}

interface Job<Task, Answer> {
  networkId: string;
  task: Task;
  resolve(answer: Answer): void;
  reject(error: Error): void;
  timer?: NodeJS.Timeout;
  thread?: Worker;
}

const RETRY_AFTER_S = 5;

/**
 * A few threads that do long sums away from the event loop. One question of a network runs at a time, so that the others always find a
 * thread; places and time are bounded, and a thread that breaks takes only its own question with it.
 */
export class ThreadPool<Task, Answer> {
  private readonly options: Required<ThreadPoolOptions>;
  private readonly threads = new Set<Worker>();
  private readonly idle: Worker[] = [];
  /** Running and waiting, in the order in which they were asked. */
  private readonly jobs = new Set<Job<Task, Answer>>();
  private closing: Promise<void> | null = null;
  private emptied: (() => void) | null = null;

  constructor(options: ThreadPoolOptions) {
    this.options = { threads: 2, places: 32, timeoutMs: 50_000, graceMs: 10_000, heapMb: 512, ...options };
  }

  /** Threads that live, and questions that run in them or wait. */
  get load(): { threads: number; running: number; waiting: number } {
    const running = [...this.jobs].filter(({ thread }) => thread !== undefined).length;
    return { threads: this.threads.size, running, waiting: this.jobs.size - running };
  }

  /** @throws Problem unavailable when there is no place or no time for it. Rejects with an Error when its thread broke. */
  ask(networkId: string, task: Task): Promise<Answer> {
    if (this.closing !== null) return Promise.reject(stopping());
    const ofNetwork = [...this.jobs].filter((job) => job.networkId === networkId).length;
    if (this.jobs.size >= this.options.places || ofNetwork >= Math.max(1, this.options.places / 2)) return Promise.reject(full());
    return new Promise((resolve, reject) => {
      const job: Job<Task, Answer> = { networkId, task, resolve, reject };
      job.timer = setTimeout(() => this.giveUp(job), this.options.timeoutMs);
      this.jobs.add(job);
      this.next();
    });
  }

  /** What waits is refused, what runs may finish within the grace; then all threads end. */
  close(): Promise<void> {
    this.closing ??= this.end();
    return this.closing;
  }

  private async end(): Promise<void> {
    for (const job of this.jobs) if (job.thread === undefined) this.settle(job, () => job.reject(stopping()));
    if (this.jobs.size > 0) {
      let timer: NodeJS.Timeout | undefined;
      await Promise.race([new Promise<void>((resolve) => void (this.emptied = resolve)), new Promise<void>((resolve) => void (timer = setTimeout(resolve, this.options.graceMs)))]);
      clearTimeout(timer);
    }
    for (const job of this.jobs) this.settle(job, () => job.reject(stopping()));
    const threads = [...this.threads];
    this.threads.clear();
    await Promise.all(threads.map((thread) => thread.terminate()));
  }

  private next(): void {
    const busy = new Set([...this.jobs].flatMap(({ thread, networkId }) => (thread === undefined ? [] : [networkId])));
    for (const job of this.jobs) {
      if (job.thread !== undefined || busy.has(job.networkId)) continue;
      const thread = this.idle.pop() ?? this.start();
      if (thread === null) return;
      busy.add(job.networkId);
      this.run(job, thread);
    }
  }

  private run(job: Job<Task, Answer>, thread: Worker): void {
    job.thread = thread;
    thread.ref();
    try {
      thread.postMessage(job.task, []);
    } catch (error) {
      this.settle(job, () => job.reject(asError(error)));
      this.rest(thread);
    }
  }

  private start(): Worker | null {
    if (this.threads.size >= this.options.threads) return null;
    const thread = new Worker(this.options.file, { execArgv: [], resourceLimits: { maxOldGenerationSizeMb: this.options.heapMb } });
    this.threads.add(thread);
    thread.on('message', (answer: Answer) => this.answered(thread, answer));
    thread.once('error', (error: unknown) => this.lose(thread, asError(error)));
    thread.once('messageerror', (error: unknown) => this.lose(thread, asError(error)));
    thread.once('exit', (code) => this.lose(thread, new Error(`a thread of the API ended with ${code} before it answered`)));
    return thread;
  }

  private answered(thread: Worker, answer: Answer): void {
    const job = this.jobOf(thread);
    // Given up in the meantime: the thread is on its way out.
    if (job === undefined) return;
    this.settle(job, () => job.resolve(answer));
    this.rest(thread);
    this.next();
  }

  /** A thread that rests does not keep the process alive. */
  private rest(thread: Worker): void {
    thread.unref();
    this.idle.push(thread);
  }

  private lose(thread: Worker, error: Error): void {
    if (!this.threads.delete(thread)) return;
    void thread.terminate();
    const resting = this.idle.indexOf(thread);
    if (resting >= 0) this.idle.splice(resting, 1);
    const job = this.jobOf(thread);
    if (job !== undefined) this.settle(job, () => job.reject(error));
    this.next();
  }

  private giveUp(job: Job<Task, Answer>): void {
    const { thread } = job;
    this.settle(job, () => job.reject(late(this.options.timeoutMs)));
    if (thread === undefined) return;
    this.threads.delete(thread);
    void thread.terminate();
    this.next();
  }

  private settle(job: Job<Task, Answer>, tell: () => void): void {
    clearTimeout(job.timer);
    this.jobs.delete(job);
    tell();
    if (this.jobs.size === 0) this.emptied?.();
  }

  private jobOf(thread: Worker): Job<Task, Answer> | undefined {
    return [...this.jobs].find((job) => job.thread === thread);
  }
}

function full(): Problem {
  return new Problem('unavailable', 'Too many questions of this kind are being reckoned at the moment. Ask again in a little while.', { retryAfterS: RETRY_AFTER_S });
}

function late(timeoutMs: number): Problem {
  return new Problem('unavailable', `This was not reckoned within ${timeoutMs / 1_000} s. Ask about fewer things or a shorter time, or again when there is less to do.`, { retryAfterS: RETRY_AFTER_S });
}

function stopping(): Problem {
  return new Problem('unavailable', 'The service is being restarted. Ask again in a little while.', { retryAfterS: RETRY_AFTER_S });
}

function asError(error: unknown): Error {
  return error instanceof Error ? error : new Error(String(error));
}
