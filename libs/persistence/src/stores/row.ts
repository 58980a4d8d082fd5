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

/** The day of a date column, `2026-05-08`, or null: the driver reads it as midnight of this machine. */
export function dayOrNull(value: Date | null): string | null {
  if (value === null) return null;
  return [value.getFullYear(), value.getMonth() + 1, value.getDate()].map((part) => String(part).padStart(2, '0')).join('-');
}
