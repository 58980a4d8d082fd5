/** Rows of whole numbers, in as few bytes as they need. */
export type Whole = Int8Array | Int16Array | Int32Array;

/** Room for so many whole numbers from -128 to the greatest. */
export function wholes(count: number, greatest: number): Whole {
  if (greatest < 2 ** 7) return new Int8Array(count);
  return greatest < 2 ** 15 ? new Int16Array(count) : new Int32Array(count);
}

/** The number, held in the least of such rows; what is below -128 stays that far below nothing. */
export function heldWhole(value: number): number {
  return Math.max(value, -(2 ** 7));
}
