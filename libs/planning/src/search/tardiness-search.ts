/**
 * Search for the order of jobs on one machine with little weighted tardiness: descents over insertions and swaps of
 * any distance, each after a small disturbance of the latest order. Only jobs near a change are looked at again
 * ("don't look bits": J. L. Bentley, "Fast algorithms for geometric traveling salesman problems", ORSA Journal on
 * Computing 4, 1992). Iterated search for this problem: R. K. Congram, C. N. Potts and S. L. van de Velde, "An
 * iterated dynasearch algorithm for the single-machine total weighted tardiness scheduling problem", INFORMS Journal
 * on Computing 14, 2002 (both from memory). The numbers are our own calibration.
 */
import { Rounds, type SearchBudget } from './budget.js';
import { Dice } from './dice.js';
import { JobSequence } from './job-sequence.js';
import { LateAcceptance } from './late-acceptance.js';
import { apparentTardinessOrder, type OneMachineJobs, weightedTardiness } from './one-machine.js';

/** The best order found. */
export interface TardinessOrder {
  order: Int32Array;
  /** Sum of weight times tardiness. */
  value: number;
  /** Disturbances spent, each with its descent; the first round descends from the first order. */
  rounds: number;
}

/** A geometric grid, because no single parameter is good for all loads. */
const LOOK_AHEADS = [0.2, 0.28, 0.4, 0.55, 0.77, 1.1, 1.5, 2.1, 3, 4.2, 6];
const ACCEPTANCE_LENGTH = 10;
/** Rounds without a better order after which the search jumps farther. */
const PATIENCE = 300;
const FAR_JUMP = 10;
/** Above this many jobs a round takes long enough to look at the clock each time. */
const MANY = 200;

/**
 * Looks for an order of little weighted tardiness; releases are not looked at.
 * @param enough the search ends when it has reached this value; 0, which nothing can beat, unless a bound is known
 */
export function searchTardiness(jobs: OneMachineJobs, seed: number, budget: SearchBudget, enough = 0): TardinessOrder {
  return new TardinessSearch(jobs, seed).run(new Rounds(budget, jobs.duration.length > MANY ? 1 : undefined), enough);
}

class TardinessSearch {
  private readonly dice: Dice;
  private readonly sequence: JobSequence;
  private readonly present: Int32Array;
  private presentValue: number;
  private best: Int32Array;
  private bestValue: number;

  constructor(private readonly jobs: OneMachineJobs, seed: number) {
    this.dice = new Dice(seed);
    this.sequence = new JobSequence(jobs);
    const orders = LOOK_AHEADS.map((lookAhead) => apparentTardinessOrder(jobs, lookAhead));
    const values = orders.map((order) => weightedTardiness(jobs, order));
    this.bestValue = Math.min(...values);
    this.best = orders[values.indexOf(this.bestValue)]!;
    this.present = this.best.slice();
    this.presentValue = this.bestValue;
    this.sequence.load(this.best, this.bestValue);
  }

  run(rounds: Rounds, enough: number): TardinessOrder {
    const { sequence } = this;
    const acceptance = new LateAcceptance(ACCEPTANCE_LENGTH, this.bestValue);
    let idle = 0;
    while (this.bestValue > enough && rounds.next()) {
      if (rounds.spent === 1) sequence.wakeAll();
      else this.disturb();
      sequence.descend();
      idle = sequence.value < this.bestValue ? 0 : idle + 1;
      if (acceptance.accepts(sequence.value, this.presentValue)) this.keep();
      else sequence.load(this.present, this.presentValue);
      if (idle > PATIENCE) {
        for (let i = 0; i < FAR_JUMP; i += 1) this.disturb();
        this.keep();
        acceptance.reset(this.presentValue);
        idle = 0;
      }
    }
    return { order: this.best, value: this.bestValue, rounds: rounds.spent };
  }

  private keep(): void {
    const { sequence } = this;
    this.present.set(sequence.order);
    this.presentValue = sequence.value;
    if (sequence.value >= this.bestValue) return;
    this.best = sequence.order.slice();
    this.bestValue = sequence.value;
  }

  /** A few random swaps and insertions around one place. */
  private disturb(): void {
    const { dice, sequence } = this;
    const last = sequence.order.length - 1;
    const reach = 12 + Math.floor(last / 20);
    const centre = dice.below(last + 1);
    const near = (): number => Math.min(last, Math.max(0, centre + dice.between(-reach, reach)));
    for (let times = dice.between(2, 5); times > 0; times -= 1) {
      const [a, b] = [near(), near()];
      if (a === b) continue;
      if (dice.below(2) === 0) sequence.insertAt(a, b);
      else sequence.exchange(a, b);
    }
  }
}
