/** Rows of whole numbers, in as few bytes as they need. */
export type Whole = Int16Array | Int32Array;

/** Room for so many whole numbers from -2^15 to the greatest. */
export function wholes(count: number, greatest: number): Whole {
  return greatest < 2 ** 15 ? new Int16Array(count) : new Int32Array(count);
}

/** The number as a row can hold it; what is below -2^15 stays that far below nothing. */
export function heldWhole(value: number): number {
  return Math.max(value, -(2 ** 15));
}
