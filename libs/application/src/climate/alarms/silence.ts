import type { AlarmValues } from './calibration.js';

/** How a place is read. */
export interface Reporting {
  /** The shortest interval that a sensor in service there is expected to report in; null when none states any. */
  everyMinutes: number | null;
  /** All that was read in the day up to its newest reading was typed in by hand. */
  byHand: boolean;
}

/** After how many hours without a reading a place is silent. */
export interface Silence {
  limitH: number;
  expectedEveryMinutes: number | null;
}

/**
 * By what its sensors are expected to do; else by how it is read. A freezer that people look at is given longer, as each look
 * warms it. A room is not: without readings its clocks soon run on the cautious side.
 */
export function silenceOf(kind: 'drying-room' | 'freezer', { everyMinutes, byHand }: Reporting, values: AlarmValues): Silence {
  if (everyMinutes !== null) return { limitH: Math.max(values.silentLeastH, (everyMinutes / 60) * values.silentTimes), expectedEveryMinutes: everyMinutes };
  return { limitH: kind === 'freezer' && byHand ? values.silentByHandAfterH : values.silentAfterH, expectedEveryMinutes: null };
}
