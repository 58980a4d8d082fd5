/** Wall-clock times of a time zone as moments, with what a change of the clocks does to them. */

/** A calendar day and a time of it, as written. */
export interface WallTime {
  year: number;
  month: number;
  day: number;
  hour: number;
  minute: number;
  second: number;
}

/** The moments that a wall time can be: none in the gap of spring, two in the repeated hour of autumn, else one; earliest first. */
export function momentsOf(wall: WallTime, timeZone: string): number[] {
  const asUtcMs = Date.UTC(wall.year, wall.month - 1, wall.day, wall.hour, wall.minute, wall.second);
  // The offsets in force a day before and after cover every change between them.
  const around = new Set([-DAY_MS, DAY_MS].map((shift) => offsetMs(asUtcMs + shift, timeZone)));
  return [...around].map((offset) => asUtcMs - offset).filter((moment) => moment + offsetMs(moment, timeZone) === asUtcMs).sort((a, b) => a - b);
}

/** True when the day is in the calendar and the time is in the day. */
export function isPossible(wall: WallTime): boolean {
  const date = new Date(Date.UTC(wall.year, wall.month - 1, wall.day));
  return date.getUTCFullYear() === wall.year && date.getUTCMonth() === wall.month - 1 && date.getUTCDate() === wall.day && wall.hour < 24 && wall.minute < 60 && wall.second < 60;
}

/** True for a zone that the runtime knows. */
export function isTimeZone(name: string): boolean {
  try {
    return new Intl.DateTimeFormat('en', { timeZone: name }).resolvedOptions().timeZone !== '';
  } catch {
    return false;
  }
}

const DAY_MS = 86_400_000;
/** Offsets change on whole quarters of an hour, so one look-up serves all moments of one; it costs far more than the rest of a row. */
const QUARTER_MS = 900_000;
const MOST_OFFSETS = 10_000;
const formats = new Map<string, Intl.DateTimeFormat>();
const offsets = new Map<string, number>();

/** Local time minus UTC at a moment. @throws RangeError for a zone that is not known */
export function offsetMs(atMs: number, timeZone: string): number {
  const quarterMs = Math.floor(atMs / QUARTER_MS) * QUARTER_MS;
  const key = `${timeZone} ${quarterMs}`;
  const known = offsets.get(key);
  if (known !== undefined) return known;
  if (offsets.size >= MOST_OFFSETS) offsets.clear();
  const offset = lookUpOffsetMs(quarterMs, timeZone);
  offsets.set(key, offset);
  return offset;
}

/** From the IANA data of the runtime. */
function lookUpOffsetMs(atMs: number, timeZone: string): number {
  let format = formats.get(timeZone);
  if (format === undefined) {
    format = new Intl.DateTimeFormat('en-u-ca-gregory', { timeZone, hourCycle: 'h23', year: 'numeric', month: 'numeric', day: 'numeric', hour: 'numeric', minute: 'numeric', second: 'numeric' });
    formats.set(timeZone, format);
  }
  const part = Object.fromEntries(format.formatToParts(atMs).map(({ type, value }) => [type, Number(value)]));
  const localMs = Date.UTC(part['year'] ?? 0, (part['month'] ?? 1) - 1, part['day'] ?? 1, part['hour'] ?? 0, part['minute'] ?? 0, part['second'] ?? 0);
  return localMs - atMs;
}
