/** How long a search may go on, and when it has to stop. */

/** Rounds, or time by a clock that the caller gives; what a round is, each search says. */
export type SearchBudget =
  | { /** Rounds, 0 or more: equal instance, seed and iterations give bit-identical results. */ iterations: number }
  | { /** Milliseconds by `nowMs`, above 0; a rerun with the rounds then reported is bit-identical. */ milliseconds: number; nowMs: () => number; /** Rounds at most, where the time would allow more. */ mostIterations?: number };

/** Reading a clock costs as much as many a round; so it is read once in this many. */
const ROUNDS_PER_LOOK = 64;

/**
 * Counts rounds against a budget. A search reads nothing else of its budget, so that the first rounds of a long
 * run are those of a short one: with an incumbent that only improves, more rounds are never worse.
 */
export class Rounds {
  /** Rounds begun so far. */
  spent = 0;
  private readonly limit: number;
  private readonly nowMs: (() => number) | null;
  private readonly untilMs: number;
  private over = false;

  /** @param look rounds between two looks at the clock; 1 for searches whose rounds are long */
  constructor(budget: SearchBudget, private readonly look = ROUNDS_PER_LOOK) {
    const timed = 'milliseconds' in budget;
    this.limit = timed ? (budget.mostIterations ?? Number.POSITIVE_INFINITY) : budget.iterations;
    this.nowMs = timed ? budget.nowMs : null;
    this.untilMs = timed ? budget.nowMs() + budget.milliseconds : 0;
  }

  /** Whether the budget is spent by now; reads the clock. */
  isOver(): boolean {
    return this.over || this.spent >= this.limit || (this.nowMs !== null && this.nowMs() >= this.untilMs);
  }

  /** Whether there is budget for one more round; if so, it counts as begun. */
  next(): boolean {
    if (this.over || this.spent >= this.limit) return false;
    if (this.nowMs !== null && this.spent % this.look === 0 && this.nowMs() >= this.untilMs) {
      this.over = true;
      return false;
    }
    this.spent += 1;
    return true;
  }
}
