/**
 * Late acceptance: a new solution is taken when it is not worse than the present one or than the one some steps
 * ago. E. K. Burke and Y. Bykov, "The late acceptance hill-climbing heuristic", European Journal of Operational
 * Research 258, 2017 (from memory).
 */
export class LateAcceptance {
  private readonly history: Float64Array;
  private at = 0;

  /**
   * @param length how many steps back is looked; 1 is plain descent, hundreds to thousands wander far
   * @param value the value of the solution at the start, smaller is better
   */
  constructor(length: number, value: number) {
    this.history = new Float64Array(length).fill(value);
  }

  /** Whether to go from a solution of value `present` to one of value `offered`; to be asked once in each step. */
  accepts(offered: number, present: number): boolean {
    const { history, at } = this;
    const taken = offered <= present || offered <= history[at]!;
    const value = taken ? offered : present;
    if (value < history[at]!) history[at] = value;
    this.at = at + 1 === history.length ? 0 : at + 1;
    return taken;
  }

  /** Starts again from a solution of this value. */
  reset(value: number): void {
    this.history.fill(value);
    this.at = 0;
  }
}
