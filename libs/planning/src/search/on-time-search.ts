/**
 * Search for jobs on one machine of much weight that all end in time, the others being rejected: a first choice by
 * rejection, then ruin and recreate. A string of accepted neighbours is taken out and offered again together with
 * some rejected jobs, after the idea of J. Christiaens and G. Vanden Berghe, "Slack induction by string removals for
 * vehicle routing problems", Transportation Science 54, 2020 (from memory). The numbers are our own calibration.
 */
import { Rounds, type SearchBudget } from './budget.js';
import { Dice } from './dice.js';
import { LateAcceptance } from './late-acceptance.js';
import { OnTimeSequence } from './on-time-sequence.js';
import type { OneMachineJobs } from './one-machine.js';

/** The best choice found. */
export interface OnTimeChoice {
  /** The jobs that end in time, in an order in which they do. */
  accepted: Int32Array;
  /** Weight of the jobs rejected. */
  lateWeight: number;
  /** Rounds of ruin and recreate. */
  rounds: number;
}

const ACCEPTANCE_LENGTH = 20;
const LONGEST_STRING = 6;
const OFFERED_REJECTED = 24;
/** One offer in this many is skipped, and one place that would be the best. */
const BLINK = 100;
const PLACE_BLINK = 10;
/** Rounds without a better choice after which the search goes back to the best one. */
const PATIENCE = 20_000;

/**
 * Looks for a choice of jobs with little weight rejected.
 * @param enough the search ends when no more weight than this is late
 */
export function searchOnTime(jobs: OneMachineJobs, seed: number, budget: SearchBudget, enough = 0): OnTimeChoice {
  return new OnTimeSearch(jobs, seed).run(new Rounds(budget), enough);
}

class OnTimeSearch {
  private readonly dice: Dice;
  private readonly sequence: OnTimeSequence;
  private readonly acceptedNow: Uint8Array;
  private readonly key: Float64Array;
  /** Jobs that are not hopeless by themselves. */
  private readonly pool: Int32Array;
  private readonly totalWeight: number;
  private onTime = 0;
  private readonly skips = (): boolean => this.dice.below(PLACE_BLINK) === 0;

  constructor(private readonly jobs: OneMachineJobs, seed: number) {
    const { release, duration, weight, due } = jobs;
    this.dice = new Dice(seed);
    this.sequence = new OnTimeSequence(jobs);
    this.acceptedNow = new Uint8Array(duration.length);
    this.key = new Float64Array(duration.length);
    this.totalWeight = weight.reduce((sum, w) => sum + w, 0);
    this.pool = Int32Array.from(Array.from(duration.keys()).filter((job) => release[job]! + duration[job]! <= due[job]!));
    for (const kind of [0, 1, 2]) this.firstChoice(kind);
  }

  run(rounds: Rounds, enough: number): OnTimeChoice {
    let best = this.sequence.jobsInOrder();
    let bestLate = this.late();
    const acceptance = new LateAcceptance(ACCEPTANCE_LENGTH, bestLate);
    let idle = 0;
    while (bestLate > enough && this.pool.length > 0 && rounds.next()) {
      const before = this.sequence.jobsInOrder();
      const present = this.late();
      this.ruinAndRecreate();
      if (!acceptance.accepts(this.late(), present)) this.load(before);
      idle += 1;
      if (this.late() < bestLate) {
        [best, bestLate, idle] = [this.sequence.jobsInOrder(), this.late(), 0];
      } else if (idle > PATIENCE) {
        this.load(best);
        acceptance.reset(bestLate);
        idle = 0;
      }
    }
    return { accepted: best, lateWeight: bestLate, rounds: rounds.spent };
  }

  private late(): number {
    return this.totalWeight - this.onTime;
  }

  private load(order: Int32Array): void {
    this.acceptedNow.fill(0);
    this.onTime = 0;
    for (const job of order) this.count(job);
    this.sequence.load(order);
  }

  private count(job: number): void {
    this.acceptedNow[job] = 1;
    this.onTime += this.jobs.weight[job]!;
  }

  /** Offers all jobs in the order of one key and keeps the result when it is the best so far. */
  private firstChoice(kind: number): void {
    const before = this.sequence.jobsInOrder();
    const value = this.onTime;
    this.load(new Int32Array(0));
    for (const job of this.pool) this.key[job] = this.baseKey(job, kind);
    for (const job of this.sorted(this.pool.slice())) if (this.sequence.accept(job)) this.count(job);
    if (this.onTime < value) this.load(before);
  }

  /** What is smaller is offered first: window times share, share, or weight. */
  private baseKey(job: number, kind: number): number {
    const { release, duration, weight, due } = this.jobs;
    if (weight[job] === 0) return Number.POSITIVE_INFINITY;
    if (kind === 0) return (due[job]! - release[job]!) * Math.sqrt(duration[job]! / weight[job]!);
    return kind === 1 ? duration[job]! / weight[job]! : 1 / weight[job]!;
  }

  private sorted(list: Int32Array): Int32Array {
    const { key } = this;
    return list.sort((a, b) => (key[a]! < key[b]! ? -1 : key[a]! > key[b]! ? 1 : a - b));
  }

  private ruinAndRecreate(): void {
    const { sequence, dice } = this;
    const offered = this.someRejected();
    for (let strings = dice.between(1, 2); strings > 0 && sequence.size > 0; strings -= 1) {
      const length = Math.min(sequence.size, dice.between(1, LONGEST_STRING));
      const from = dice.below(sequence.size - length + 1);
      for (let i = from; i < from + length; i += 1) {
        const job = sequence.at(i);
        offered.push(job);
        this.acceptedNow[job] = 0;
        this.onTime -= this.jobs.weight[job]!;
      }
      sequence.remove(from, length);
    }
    const kind = dice.below(3);
    for (const job of offered) this.key[job] = this.baseKey(job, kind) * (0.6 + 0.8 * dice.unit());
    for (const job of this.sorted(Int32Array.from(offered))) {
      if (dice.below(BLINK) !== 0 && sequence.accept(job, this.skips)) this.count(job);
    }
  }

  /** Some rejected jobs from a random place of the pool on. */
  private someRejected(): number[] {
    const { pool, acceptedNow } = this;
    const found: number[] = [];
    const offset = this.dice.below(pool.length);
    for (let i = 0; i < pool.length && found.length < OFFERED_REJECTED; i += 1) {
      const job = pool[(offset + i) % pool.length]!;
      if (acceptedNow[job] === 0) found.push(job);
    }
    return found;
  }
}
