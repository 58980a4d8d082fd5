/**
 * Jobs on one machine that all end in time, as a sequence with its earliest and latest starts: whether one more job
 * fits between two others is answered at once, and nothing else has to move in order.
 */
import type { OneMachineJobs } from './one-machine.js';

/** Mutable; holds the accepted jobs in order. */
export class OnTimeSequence {
  /** Number of accepted jobs. */
  size = 0;
  private readonly order: Int32Array;
  /** Earliest end of the job at a position, and latest start that keeps all from there on in time. */
  private readonly earliestEnd: Float64Array;
  private readonly latestStart: Float64Array;
  private readonly sameRelease: boolean;

  constructor(private readonly jobs: OneMachineJobs) {
    const count = jobs.duration.length;
    this.order = new Int32Array(count);
    this.earliestEnd = new Float64Array(count);
    this.latestStart = new Float64Array(count + 1);
    this.latestStart[0] = Number.POSITIVE_INFINITY;
    this.sameRelease = jobs.release.every((release) => release === jobs.release[0]);
  }

  /** The accepted jobs in order. */
  jobsInOrder(): Int32Array {
    return this.order.slice(0, this.size);
  }

  /** The accepted job at a position. */
  at(position: number): number {
    return this.order[position]!;
  }

  /** Takes over an order of jobs that all end in time. */
  load(order: Int32Array): void {
    this.order.set(order);
    this.size = order.length;
    this.refresh(0);
  }

  /**
   * Puts the job where it delays what follows least; false, with nothing changed, when it fits nowhere.
   * @param skips asked at each position that would be the best so far whether to pass it over
   */
  accept(job: number, skips: () => boolean = never): boolean {
    const position = this.sameRelease ? this.byDueDate(job) : this.bestPosition(job, skips);
    if (position < 0) return false;
    this.order.copyWithin(position + 1, position, this.size);
    this.order[position] = job;
    this.size += 1;
    this.refresh(position);
    return true;
  }

  /** Takes out the jobs at `count` positions from `from` on. */
  remove(from: number, count: number): void {
    this.order.copyWithin(from, from + count, this.size);
    this.size -= count;
    this.refresh(from);
  }

  /** Without releases the order of due dates is feasible whenever any order is (J. R. Jackson, 1955, from memory). */
  private byDueDate(job: number): number {
    const { order, jobs: { due } } = this;
    let low = 0;
    let high = this.size;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (due[order[middle]!]! <= due[job]!) low = middle + 1;
      else high = middle;
    }
    return this.fits(job, low) ? low : -1;
  }

  private endAt(job: number, position: number): number {
    const before = position === 0 ? 0 : this.earliestEnd[position - 1]!;
    return Math.max(this.jobs.release[job]!, before) + this.jobs.duration[job]!;
  }

  private fits(job: number, position: number): boolean {
    return this.endAt(job, position) <= Math.min(this.jobs.due[job]!, this.latestStart[position]!);
  }

  /** Among the positions that fit, the one with the most slack left behind it; then the first. */
  private bestPosition(job: number, skips: () => boolean): number {
    const { jobs: { due } } = this;
    let best = -1;
    let most = -1;
    for (let position = 0; position <= this.size; position += 1) {
      const end = this.endAt(job, position);
      if (end > due[job]!) break;
      const slack = Math.min(due[job]!, this.latestStart[position]!) - end;
      if (slack > most && !skips()) [best, most] = [position, slack];
    }
    return best;
  }

  /** Recomputes the ends from `from` on and the latest starts. */
  private refresh(from: number): void {
    const { order, earliestEnd, latestStart, size, jobs: { duration, due } } = this;
    for (let position = from; position < size; position += 1) earliestEnd[position] = this.endAt(order[position]!, position);
    latestStart[size] = Number.POSITIVE_INFINITY;
    for (let position = size - 1; position >= 0; position -= 1) {
      const job = order[position]!;
      latestStart[position] = Math.min(latestStart[position + 1]!, due[job]!) - duration[job]!;
    }
  }
}

function never(): boolean {
  return false;
}
