/** A shop: jobs of operations, one after the other, each on one of its machines; a machine holds one operation at a time. */

/** One machine an operation can go to, and what it takes there. */
export interface ShopChoice {
  machine: number;
  /** Slots, 0 or more, without interruption. */
  duration: number;
}

/** A job: its operations in sequence. Release and due date in slots, weight 0 or more. */
export interface ShopJob {
  release: number;
  due: number;
  weight: number;
  /** One or more; each with the machines it can go to, one or more, none twice. */
  operations: readonly (readonly ShopChoice[])[];
}

export interface Shop {
  machines: number;
  jobs: readonly ShopJob[];
  /** What is to be small: the sum of weight times lateness beyond the due date, or the end of the last operation. */
  objective: 'weightedTardiness' | 'makespan';
}

/**
 * The same as typed arrays. Operations are numbered through, those of a job one after the other, and their choices
 * likewise, those of operation x from `firstChoice[x]` to `firstChoice[x + 1]`. What is counted are goals: a value is
 * the sum over the goals of weight times the excess of the goal's end over its due date. With weighted tardiness each
 * job is a goal; for the makespan there is one goal of weight 1 and due date 0, at which all jobs end.
 */
export interface CompiledShop {
  count: number;
  machines: number;
  firstChoice: Int32Array;
  choiceMachine: Int32Array;
  choiceDuration: Int32Array;
  /** Release of the job for its first operation, 0 for the others. */
  release: Int32Array;
  /** Operation before in the job, or `count`. */
  before: Int32Array;
  /** Operation after in the job, or `count + 1 + goal` after the last. */
  after: Int32Array;
  /** Last operation of each job, and the goal at which it ends. */
  last: Int32Array;
  goalOf: Int32Array;
  goals: number;
  weight: Float64Array;
  due: Int32Array;
  /** No plan has a value below this. */
  bound: number;
}

/** Longest sum of durations and releases: three of them stay within 32 bits. */
const MOST_SLOTS = 2 ** 28;

/** @throws RangeError when a job has no operations, an operation no machine, or a number is out of its range. */
export function compileShop(shop: Shop): CompiledShop {
  check(shop);
  const { jobs, machines } = shop;
  const tardiness = shop.objective === 'weightedTardiness';
  const operations = jobs.flatMap((job) => job.operations);
  const count = operations.length;
  const firstChoice = new Int32Array(count + 1);
  operations.forEach((choices, x) => { firstChoice[x + 1] = firstChoice[x]! + choices.length; });
  const compiled: CompiledShop = {
    count, machines, firstChoice,
    choiceMachine: Int32Array.from(operations.flat(), ({ machine }) => machine),
    choiceDuration: Int32Array.from(operations.flat(), ({ duration }) => duration),
    release: new Int32Array(count), before: new Int32Array(count), after: new Int32Array(count), last: new Int32Array(jobs.length),
    goalOf: Int32Array.from(jobs, (_, j) => (tardiness ? j : 0)),
    goals: tardiness ? jobs.length : 1,
    weight: tardiness ? Float64Array.from(jobs, ({ weight }) => weight) : Float64Array.of(1),
    due: tardiness ? Int32Array.from(jobs, ({ due }) => due) : Int32Array.of(0),
    bound: tardiness ? tardinessBound(jobs) : makespanBound(shop),
  };
  let x = 0;
  jobs.forEach(({ release, operations: own }, j) => {
    own.forEach((_, step) => {
      compiled.release[x] = step === 0 ? release : 0;
      compiled.before[x] = step === 0 ? count : x - 1;
      compiled.after[x] = step === own.length - 1 ? count + 1 + compiled.goalOf[j]! : x + 1;
      x += 1;
    });
    compiled.last[j] = x - 1;
  });
  return compiled;
}

function check({ jobs, machines }: Shop): void {
  let slots = 0;
  jobs.forEach(({ release, due, weight, operations }, j) => {
    if (![release, due].every((slot) => isWhole(slot, MOST_SLOTS)) || !isWhole(weight, 2 ** 31)) throw new RangeError(`Job ${j} has a release, a due date or a weight that is no whole number in range.`);
    if (operations.length === 0) throw new RangeError(`Job ${j} has no operations.`);
    operations.forEach((choices, step) => {
      if (choices.length === 0) throw new RangeError(`Operation ${step} of job ${j} has no machine.`);
      if (new Set(choices.map(({ machine }) => machine)).size < choices.length) throw new RangeError(`Operation ${step} of job ${j} has a machine twice.`);
      if (!choices.every(({ machine, duration }) => isWhole(machine, machines) && isWhole(duration, MOST_SLOTS))) throw new RangeError(`Operation ${step} of job ${j} has a machine or a duration out of range.`);
      slots += Math.max(...choices.map(({ duration }) => duration));
    });
    slots += release;
  });
  if (slots >= MOST_SLOTS) throw new RangeError(`All durations and releases together are ${MOST_SLOTS} slots or more.`);
}

function isWhole(value: number, end: number): boolean {
  return Number.isInteger(value) && value >= 0 && value < end;
}

const shortest = (choices: readonly ShopChoice[]): number => Math.min(...choices.map(({ duration }) => duration));

/** Earliest end of a job that has the shop for itself. */
const aloneUntil = ({ release, operations }: ShopJob): number => operations.reduce((sum, choices) => sum + shortest(choices), release);

function tardinessBound(jobs: readonly ShopJob[]): number {
  return jobs.reduce((sum, job) => sum + job.weight * Math.max(0, aloneUntil(job) - job.due), 0);
}

/** The longest job; the least work shared evenly; the work that only one machine can do, between its least head and tail. */
function makespanBound({ jobs, machines }: Shop): number {
  const work = Array.from({ length: machines }, () => 0);
  const head = Array.from({ length: machines }, () => Number.POSITIVE_INFINITY);
  const tail = Array.from({ length: machines }, () => Number.POSITIVE_INFINITY);
  let total = 0;
  for (const job of jobs) {
    let now = job.release;
    const end = aloneUntil(job);
    for (const choices of job.operations) {
      const least = shortest(choices);
      const { machine } = choices[0]!;
      if (choices.length === 1) {
        work[machine]! += least;
        head[machine] = Math.min(head[machine]!, now);
        tail[machine] = Math.min(tail[machine]!, end - now - least);
      }
      now += least;
      total += least;
    }
  }
  const busiest = work.map((sum, k) => (head[k] === Number.POSITIVE_INFINITY ? 0 : sum + head[k]! + tail[k]!));
  return Math.max(0, Math.ceil(total / Math.max(1, machines)), ...busiest, ...jobs.map(aloneUntil));
}
