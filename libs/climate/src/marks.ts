/**
 * How a number stands. `published`: read in the named publication (often an abstract, excerpt or copy, as the cite says);
 * `common-practice`: trade custom without one source; `from-memory`: remembered, unverified, never to be called published;
 * `own-calibration`: this project's convention, configurable, and shown as such to users.
 */
export type NumberMark = 'published' | 'common-practice' | 'from-memory' | 'own-calibration';

/** One number with its standing and the words that say what it rests on. */
export interface MarkedNumber {
  readonly value: number;
  readonly mark: NumberMark;
  readonly cite: string;
}
