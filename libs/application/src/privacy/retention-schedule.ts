/** When the schedule of a network looks at what has had its time. Pure: over its numbers, its time zone and the moment. */
import type { RetentionValues } from '../calibration/retention-table.js';
import { momentsOf, offsetMs } from '../intake/import/local-time.js';

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;

export type Schedule = Pick<RetentionValues, 'scheduleEveryDays' | 'scheduleHour'>;

/** Off unless the network has chosen otherwise. */
export function isScheduled({ scheduleEveryDays }: Schedule): boolean {
  return scheduleEveryDays > 0;
}

/** Whether the moment lies in the hour that was chosen, by the clock on the wall of the network. A look that comes too late for it waits for the next day. */
export function isScheduledHour({ scheduleHour }: Schedule, timeZone: string, atMs: number): boolean {
  return new Date(atMs + offsetMs(atMs, timeZone)).getUTCHours() === scheduleHour;
}

/** The next beginning of the chosen hour, at the earliest so many days after today; where the clocks leave the hour out, that of the day after. */
export function nextLookMs({ scheduleHour }: Schedule, timeZone: string, nowMs: number, inDays = 0): number {
  const local = new Date(nowMs + offsetMs(nowMs, timeZone));
  for (let ahead = inDays; ; ahead += 1) {
    const day = new Date(Date.UTC(local.getUTCFullYear(), local.getUTCMonth(), local.getUTCDate()) + ahead * DAY_MS);
    const wall = { year: day.getUTCFullYear(), month: day.getUTCMonth() + 1, day: day.getUTCDate(), hour: scheduleHour, minute: 0, second: 0 };
    const next = momentsOf(wall, timeZone).find((moment) => moment > nowMs);
    if (next !== undefined) return next;
  }
}
