/** A part of a transaction that may fail by itself. */
export interface Attempts {
  /** Does the work; when it throws, what it wrote is undone and what came before it in the transaction stays. */
  within<T>(work: () => Promise<T>): Promise<T>;
}
