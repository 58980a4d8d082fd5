/** Milliseconds of a timestamptz column, or null. */
export function msOrNull(value: Date | null): number | null {
  return value === null ? null : value.getTime();
}

/** A timestamptz parameter from milliseconds. */
export function at(ms: number): Date;
export function at(ms: number | null): Date | null;
export function at(ms: number | null): Date | null {
  return ms === null ? null : new Date(ms);
}
