/**
 * What is free on several resources, slot by slot: one dense array, all resources of a slot beside each other.
 * A window is scanned from its far end and the search jumps past the first slot in the way, so each slot is read
 * about once per fit.
 */
export class SlotProfile {
  private readonly free: Int32Array;
  private readonly open: Int32Array;

  /**
   * @param resources number of resources
   * @param slots length of the horizon
   * @param capacity free amount by resource, constant, or by slot and resource (`slot * resources + resource`)
   *   when a calendar or a use that is fixed already takes some of it
   */
  constructor(readonly resources: number, readonly slots: number, capacity: ArrayLike<number>) {
    const constant = capacity.length === resources;
    this.open = Int32Array.from({ length: resources * slots }, (_, i) => capacity[constant ? i % resources : i]!);
    this.free = this.open.slice();
  }

  /** Forgets every booking. */
  clear(): void {
    this.free.set(this.open);
  }

  /** Whether `demand[at ..]` is free in this slot. */
  private has(slot: number, demand: Int32Array, at: number): boolean {
    const { free, resources } = this;
    const row = slot * resources;
    for (let r = 0; r < resources; r += 1) if (free[row + r]! < demand[at + r]!) return false;
    return true;
  }

  /**
   * Earliest start >= `from` at which the demand is free for `duration` slots, -1 when none ends in the horizon.
   * @param demand amounts by resource, from index `at` on
   */
  earliest(demand: Int32Array, at: number, duration: number, from: number): number {
    let start = from;
    let known = from;
    while (start + duration <= this.slots) {
      let slot = start + duration - 1;
      while (slot >= known && this.has(slot, demand, at)) slot -= 1;
      if (slot < known) return start;
      known = start + duration;
      start = slot + 1;
    }
    return -1;
  }

  /** Latest start with an end <= `until` at which the demand is free for `duration` slots, -1 when there is none. */
  latest(demand: Int32Array, at: number, duration: number, until: number): number {
    let end = until;
    let known = until;
    while (end - duration >= 0) {
      let slot = end - duration;
      while (slot < known && this.has(slot, demand, at)) slot += 1;
      if (slot >= known) return end - duration;
      known = end - duration;
      end = slot;
    }
    return -1;
  }

  /** Books the demand in [start, end). */
  take(demand: Int32Array, at: number, start: number, end: number): void {
    const { free, resources } = this;
    for (let r = 0; r < resources; r += 1) {
      const amount = demand[at + r]!;
      if (amount === 0) continue;
      for (let i = start * resources + r; i < end * resources; i += resources) free[i] = free[i]! - amount;
    }
  }
}
