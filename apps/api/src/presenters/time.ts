/** RFC 3339 in UTC. */
export function iso(ms: number): string {
  return new Date(ms).toISOString();
}

export function isoOrNull(ms: number | null): string | null {
  return ms === null ? null : iso(ms);
}

/** Epoch milliseconds of an instant from a contract; null stays null. */
export function msOf(instant: string): number;
export function msOf(instant: string | null): number | null;
export function msOf(instant: string | null): number | null {
  return instant === null ? null : Date.parse(instant);
}
