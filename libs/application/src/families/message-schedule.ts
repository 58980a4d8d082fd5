/** When a message may go out, and when it is tried again. All numbers are our own calibration; the first four can be configured. */
const MINUTE_MS = 60_000;
const HOUR_MS = 60 * MINUTE_MS;
export const DAY_MS = 24 * HOUR_MS;

export interface SendingRules {
  /** Hours of the family's day between which nothing is sent, from the first to before the second; equal for none. */
  quietFromHour: number;
  quietToHour: number;
  /** Attempts at one household within 24 hours, at most. */
  perDay: number;
  /** After this long a message that could not be sent is given up for a person. */
  giveUpMs: number;
}

export const SENDING_RULES: SendingRules = { quietFromHour: 21, quietToHour: 8, perDay: 4, giveUpMs: 3 * DAY_MS };

/** Pause after so many tries: from a minute, doubling, to two hours; `chance` (0 to 1) spreads them by a fifth, so that a day's backlog does not come at once. */
export function pauseMs(tries: number, chance: number): number {
  return Math.round(Math.min(MINUTE_MS * 2 ** Math.min(tries, 10), 2 * HOUR_MS) * (0.8 + 0.4 * chance));
}

/** The moment from which it is not quiet any more; the same moment when it is not quiet. `offsetMs` is that of the family's clock. */
export function afterQuiet(atMs: number, offsetMs: number, { quietFromHour: from, quietToHour: to }: Pick<SendingRules, 'quietFromHour' | 'quietToHour'>): number {
  if (from === to) return atMs;
  const ofDayMs = (((atMs + offsetMs) % DAY_MS) + DAY_MS) % DAY_MS;
  const hour = ofDayMs / HOUR_MS;
  const quiet = from < to ? hour >= from && hour < to : hour >= from || hour < to;
  if (!quiet) return atMs;
  const aheadMs = to * HOUR_MS - ofDayMs;
  return atMs + (aheadMs > 0 ? aheadMs : aheadMs + DAY_MS);
}
