/**
 * An order of jobs on one machine with its weighted tardiness: swaps and insertions of any distance are weighed on the
 * stretch that they move alone, and dropped as soon as they cannot beat the best one seen.
 */
import type { OneMachineJobs } from './one-machine.js';

/** The best change of one job's place: none when `delta` is 0. */
interface Change { kind: 'insert' | 'swap'; at: number; delta: number }

/** Mutable; all jobs are there from the start. */
export class JobSequence {
  readonly order: Int32Array;
  value = 0;
  private readonly place: Int32Array;
  private readonly end: Float64Array;
  /** Weight of the late jobs before a position: bounds what moving a stretch forward can win. */
  private readonly lateWeight: Float64Array;
  private readonly queue: Int32Array;
  private readonly queued: Uint8Array;
  private head = 0;
  private waiting = 0;

  constructor(private readonly jobs: OneMachineJobs) {
    const count = jobs.duration.length;
    this.order = new Int32Array(count);
    this.place = new Int32Array(count);
    this.end = new Float64Array(count);
    this.lateWeight = new Float64Array(count + 1);
    this.queue = new Int32Array(count);
    this.queued = new Uint8Array(count);
  }

  /** Takes over an order with its value. */
  load(order: Int32Array, value: number): void {
    this.order.set(order);
    this.value = value;
    this.refresh(0, order.length - 1);
  }

  /** Has every job looked at in the next `descend`. */
  wakeAll(): void {
    for (const job of this.order) this.wake(job);
  }

  /** Makes improving changes until no job that was woken has one. */
  descend(): void {
    while (this.waiting > 0) {
      const job = this.queue[this.head]!;
      this.head = (this.head + 1) % this.order.length;
      this.waiting -= 1;
      this.queued[job] = 0;
      const from = this.place[job]!;
      const change = this.bestSwap(from, this.bestInsertion(job, from));
      if (change.delta === 0) continue;
      if (change.kind === 'insert') this.insert(from, change.at, change.delta);
      else this.swap(Math.min(from, change.at), Math.max(from, change.at), change.delta);
    }
  }

  /** Takes the job at one position to another, whatever it costs. */
  insertAt(from: number, to: number): void {
    this.insert(from, to, this.insertionDelta(from, to));
  }

  /** Exchanges the jobs at two different positions, whatever it costs. */
  exchange(a: number, b: number): void {
    const [low, high] = a < b ? [a, b] : [b, a];
    this.swap(low, high, this.swapDelta(low, high, Number.POSITIVE_INFINITY));
  }

  private refresh(from: number, to: number): void {
    const { order, place, end, lateWeight } = this;
    const { duration, weight, due } = this.jobs;
    let now = from === 0 ? 0 : end[from - 1]!;
    for (let at = from; at <= to; at += 1) {
      const job = order[at]!;
      place[job] = at;
      now += duration[job]!;
      end[at] = now;
    }
    let sum = lateWeight[from]!;
    for (let at = from; at < order.length; at += 1) {
      if (end[at]! > due[order[at]!]!) sum += weight[order[at]!]!;
      lateWeight[at + 1] = sum;
    }
  }

  private wake(job: number): void {
    if (this.queued[job] === 1) return;
    this.queued[job] = 1;
    this.queue[(this.head + this.waiting) % this.order.length] = job;
    this.waiting += 1;
  }

  private wakeAround(at: number): void {
    for (let i = Math.max(0, at - 1); i <= Math.min(this.order.length - 1, at + 1); i += 1) this.wake(this.order[i]!);
  }

  private late(job: number, end: number): number {
    const over = end - this.jobs.due[job]!;
    return over > 0 ? over * this.jobs.weight[job]! : 0;
  }

  private begin(at: number): number {
    return at === 0 ? 0 : this.end[at - 1]!;
  }

  /** The best insertion of a job: walks away from its place, adding up what the passed jobs win or lose. */
  private bestInsertion(job: number, from: number): Change {
    const { order, end } = this;
    const { duration, weight, due } = this.jobs;
    const own = this.late(job, end[from]!);
    const span = duration[job]!;
    const best: Change = { kind: 'insert', at: from, delta: 0 };
    let sum = 0;
    for (let at = from + 1; at < order.length; at += 1) {
      const over = end[at]! - due[order[at]!]!;
      if (over > 0) sum -= weight[order[at]!]! * (over < span ? over : span);
      const delta = sum + this.late(job, end[at]!) - own;
      if (delta < best.delta) [best.at, best.delta] = [at, delta];
    }
    sum = 0;
    // Going forward saves at most the job's own tardiness.
    for (let at = from - 1; at >= 0 && sum < own; at -= 1) {
      const over = end[at]! + span - due[order[at]!]!;
      if (over > 0) sum += weight[order[at]!]! * (over < span ? over : span);
      const delta = sum + this.late(job, this.begin(at) + span) - own;
      if (delta < best.delta) [best.at, best.delta] = [at, delta];
    }
    return best;
  }

  /** The better of `best` and the best swap of the job at a position. */
  private bestSwap(from: number, best: Change): Change {
    for (let at = 0; at < this.order.length; at += 1) {
      if (at === from) continue;
      const delta = at < from ? this.swapDelta(at, from, best.delta) : this.swapDelta(from, at, best.delta);
      if (delta < best.delta) [best.kind, best.at, best.delta] = ['swap', at, delta];
    }
    return best;
  }

  /** What swapping positions a < b adds to the value; any number >= `limit` when it is not below that. */
  private swapDelta(a: number, b: number, limit: number): number {
    const { order, end } = this;
    const { duration, weight, due } = this.jobs;
    const [x, y] = [order[a]!, order[b]!];
    const shift = duration[y]! - duration[x]!;
    let delta = this.late(x, end[b]!) - this.late(x, end[a]!) + this.late(y, this.begin(a) + duration[y]!) - this.late(y, end[b]!);
    if (shift > 0) {
      for (let at = b - 1; at > a && delta < limit; at -= 1) {
        const over = end[at]! + shift - due[order[at]!]!;
        if (over > 0) delta += weight[order[at]!]! * (over < shift ? over : shift);
      }
    } else if (shift < 0 && delta + shift * (this.lateWeight[b]! - this.lateWeight[a + 1]!) < limit) {
      for (let at = a + 1; at < b; at += 1) {
        const over = end[at]! - due[order[at]!]!;
        if (over > 0) delta -= weight[order[at]!]! * (over < -shift ? over : -shift);
      }
    }
    return delta;
  }

  private insertionDelta(from: number, to: number): number {
    const { order, end } = this;
    const job = order[from]!;
    const span = this.jobs.duration[job]!;
    let delta = this.late(job, from < to ? end[to]! : this.begin(to) + span) - this.late(job, end[from]!);
    const shift = from < to ? -span : span;
    const [low, high] = from < to ? [from + 1, to] : [to, from - 1];
    for (let at = low; at <= high; at += 1) delta += this.late(order[at]!, end[at]! + shift) - this.late(order[at]!, end[at]!);
    return delta;
  }

  private insert(from: number, to: number, delta: number): void {
    const job = this.order[from]!;
    if (from < to) this.order.copyWithin(from, from + 1, to + 1);
    else this.order.copyWithin(to + 1, to, from);
    this.order[to] = job;
    this.changed(Math.min(from, to), Math.max(from, to), delta);
  }

  private swap(a: number, b: number, delta: number): void {
    [this.order[a], this.order[b]] = [this.order[b]!, this.order[a]!];
    this.changed(a, b, delta);
  }

  private changed(from: number, to: number, delta: number): void {
    this.value += delta;
    this.refresh(from, to);
    this.wakeAround(from);
    this.wakeAround(to);
  }
}
