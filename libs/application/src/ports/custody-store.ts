import type { CustodyEvent } from '#custody';

export interface CustodyStore {
  /**
   * Appends the event and moves the item's projection in one statement, only if the item still stands at
   * `event.seq - 1` with `event.prevHash`. Answers the item's new version. Throws when that is not so: the caller
   * holds the row lock, so it would be a fault of ours.
   */
  append(event: CustodyEvent, incidentId: string): Promise<number>;
  /** First events of new items, in one statement each for event and item by the intake commands. */
  appendFirst(events: readonly CustodyEvent[], incidentId: string): Promise<void>;
  /** The chain of one item in order. */
  chain(itemId: string, afterSeq: number, limit: number): Promise<CustodyEvent[]>;
}
