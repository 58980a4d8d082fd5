import type { CustodyEvent, OpenMatters } from '#custody';
import type { OwnWords } from '../custody/own-words.js';

export interface CustodyStore {
  /**
   * Appends the event, with what is open after it, and moves the item's projection in one statement, only if the item still stands at
   * `event.seq - 1` with `event.prevHash`. Answers the item's new version. Throws when that is not so: the caller
   * holds the row lock, so it would be a fault of ours.
   */
  append(event: CustodyEvent, matters: OpenMatters, incidentId: string): Promise<number>;
  /** First events of new items, in one statement each for event and item by the intake commands. */
  appendFirst(events: readonly CustodyEvent[], incidentId: string): Promise<void>;
  /** Seals what was said in own words about an event of an item, or of a container (no household); writes nothing for no words. */
  keepWords(event: CustodyEvent, incidentId: string, householdId: string | null, words: OwnWords): Promise<void>;
  /** What was said about these events of one item or container, by their numbers; nothing where nothing was said or it was erased. */
  wordsOf(chainId: string, seqs: readonly number[]): Promise<Map<number, OwnWords>>;
  /** The chain of one item in order. */
  chain(itemId: string, afterSeq: number, limit: number): Promise<CustodyEvent[]>;
}
