/** When a thing got wet and when it came: read, placed in the incident, and set against each other. */
import { say } from '#care';
import { FUTURE_TOLERANCE_MS } from '#custody';
import { isInstantFault, readInstant } from './read-instant.js';
import type { RowRemarks } from './row-remarks.js';
import type { ReadingFacts } from './row-values.js';

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;

/** How long before the registered beginning of the flood a time may lie; water comes to some cellars first. Our own calibration. */
export const BEFORE_FLOOD_MS = 2 * DAY_MS;

type TimeColumn = 'wettedAt' | 'arrivedAt';

/** The times of a row; a fault of one of them is a refusal in the remarks. */
export function readTimes(cells: { wettedAt: string; arrivedAt: string }, facts: ReadingFacts, remarks: RowRemarks): { wettedAtMs: number | null; arrivedAtMs: number } {
  const wetted = readOne(cells.wettedAt, 'wettedAt', facts, remarks);
  const arrived = readOne(cells.arrivedAt, 'arrivedAt', facts, remarks);
  if (wetted === null || arrived === null) return { wettedAtMs: wetted?.atMs ?? null, arrivedAtMs: arrived?.atMs ?? facts.submittedAtMs };
  if (arrived.atMs >= wetted.atMs) return { wettedAtMs: wetted.atMs, arrivedAtMs: arrived.atMs };
  // Only the day of arrival is known: it came after it got wet.
  if (arrived.dayOnly && wetted.atMs < arrived.endsAtMs) return { wettedAtMs: wetted.atMs, arrivedAtMs: wetted.atMs };
  remarks.refuse('arrivedAt', 'arrived_before_wetted', say('The thing arrived before it got wet. Look at both times, and mend the wrong one.'), cells.arrivedAt);
  return { wettedAtMs: wetted.atMs, arrivedAtMs: arrived.atMs };
}

interface Placed {
  atMs: number;
  dayOnly: boolean;
  endsAtMs: number;
}

function readOne(cell: string, column: TimeColumn, facts: ReadingFacts, remarks: RowRemarks): Placed | null {
  if (cell === '') return null;
  const read = readInstant(cell, facts.timeZone);
  if (isInstantFault(read)) {
    remarks.refuse(column, read.code, read.said, cell);
    return null;
  }
  const dayOnly = read.precision === 'day';
  const atMs = dayOnly ? withinDay(read.atMs, column, facts) : Math.min(read.atMs, facts.submittedAtMs);
  if (read.atMs > facts.submittedAtMs + FUTURE_TOLERANCE_MS) {
    remarks.refuse(column, 'date_in_future', say('This time lies after the file was sent. Look at the day, the month and the year.'), cell);
    return null;
  }
  if (atMs < facts.floodAtMs - BEFORE_FLOOD_MS) {
    remarks.refuse(column, 'date_before_flood', say('This time lies more than two days before the flood. Look at the day, the month and the year.'), cell);
    return null;
  }
  if (read.repair !== null) remarks.repair(column, read.repair, REPAIR_TEXT[read.repair], cell, new Date(atMs).toISOString());
  if (dayOnly) remarks.note(column, 'time_not_given', column === 'wettedAt' ? say('Only the day is given: the earliest time of it after the flood began was taken, so that nothing waits too long.') : say('Only the day is given: noon was taken, or the time the file was sent.'), cell, new Date(atMs).toISOString());
  return { atMs, dayOnly, endsAtMs: read.atMs + DAY_MS };
}

/** Wetting: as early as it can have been, because the clocks of damage run from it. Arrival: noon, and never later than now. */
function withinDay(dayAtMs: number, column: TimeColumn, facts: ReadingFacts): number {
  if (column === 'arrivedAt') return Math.min(dayAtMs + 12 * HOUR_MS, Math.max(dayAtMs, facts.submittedAtMs));
  const floodOnThatDay = facts.floodAtMs >= dayAtMs && facts.floodAtMs < dayAtMs + DAY_MS;
  return floodOnThatDay ? facts.floodAtMs : dayAtMs;
}

const REPAIR_TEXT = {
  date_form: say('The time was written in another form; read in the time zone of the network where no offset was given.'),
  date_two_digit_year: say('The year was written with two digits and read as one of this century.'),
  date_hour_twice: say('The clocks were put back over this time, so it came twice; the earlier one was taken.'),
} as const;
