/** Minutes within a time that are covered by any of the spans; what overlaps counts once. */
export function minutesWithin(spans: readonly { fromMs: number; toMs: number }[], fromMs: number, toMs: number): number {
  let coveredMs = 0;
  let reachedMs = fromMs;
  for (const span of [...spans].sort((a, b) => a.fromMs - b.fromMs)) {
    const start = Math.max(span.fromMs, reachedMs);
    const end = Math.min(span.toMs, toMs);
    if (end <= start) continue;
    coveredMs += end - start;
    reachedMs = end;
  }
  return coveredMs / 60_000;
}

/** By time zone; making one costs far more than using it. */
const formats = new Map<string, Intl.DateTimeFormat>();

function formatOf(timeZone: string): Intl.DateTimeFormat {
  // The Canadian English form of a date is that of ISO 8601.
  const format = formats.get(timeZone) ?? new Intl.DateTimeFormat('en-CA', { timeZone, year: 'numeric', month: '2-digit', day: '2-digit' });
  formats.set(timeZone, format);
  return format;
}

/** The day of the calendar in a time zone, `2026-05-09`; in UTC where the zone is not known here. */
export function dayIn(timeZone: string, atMs: number): string {
  try {
    return formatOf(timeZone).format(atMs);
  } catch (error) {
    if (error instanceof RangeError) return new Date(atMs).toISOString().slice(0, 10);
    throw error;
  }
}
