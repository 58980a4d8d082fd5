/** One machine, jobs one after the other, none split: the data and the two classic values. */

/** Jobs by index; times in slots, weights 0 or more. */
export interface OneMachineJobs {
  /** Earliest start by job; all 0 when the jobs are there from the start. */
  release: Int32Array;
  /** Duration, 1 or more. */
  duration: Int32Array;
  weight: Int32Array;
  due: Int32Array;
}

/** Sum over the jobs of weight times lateness beyond the due date, for this order without releases. */
export function weightedTardiness({ duration, weight, due }: OneMachineJobs, order: ArrayLike<number>): number {
  let now = 0;
  let sum = 0;
  for (let at = 0; at < order.length; at += 1) {
    const job = order[at]!;
    now += duration[job]!;
    if (now > due[job]!) sum += weight[job]! * (now - due[job]!);
  }
  return sum;
}

/**
 * Order by the index of A. P. J. Vepsalainen and T. E. Morton, "Priority rules for job shops with weighted tardiness
 * costs", Management Science 33, 1987 (from memory): next comes the job with the largest (w/p) exp(-slack/(k p)),
 * p in the exponent being the mean duration of those waiting.
 * @param lookAhead the parameter k, above 0: small values look at the due dates late, large ones early
 */
export function apparentTardinessOrder({ duration, weight, due }: OneMachineJobs, lookAhead: number): Int32Array {
  const count = duration.length;
  const waiting = Int32Array.from({ length: count }, (_, job) => job);
  const order = new Int32Array(count);
  let now = 0;
  let work = duration.reduce((sum, p) => sum + p, 0);
  for (let left = count; left > 0; left -= 1) {
    const scale = (lookAhead * work) / left;
    let best = 0;
    let highest = -1;
    for (let i = 0; i < left; i += 1) {
      const job = waiting[i]!;
      const slack = Math.max(0, due[job]! - duration[job]! - now);
      const index = (weight[job]! / duration[job]!) * Math.exp(-slack / scale);
      if (index > highest || (index === highest && job < waiting[best]!)) {
        highest = index;
        best = i;
      }
    }
    const job = waiting[best]!;
    order[count - left] = job;
    waiting[best] = waiting[left - 1]!;
    now += duration[job]!;
    work -= duration[job]!;
  }
  return order;
}
