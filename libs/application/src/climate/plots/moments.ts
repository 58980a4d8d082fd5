/** At which moments a past is looked at, so that a plot of it is smooth, shows every jump and costs a bounded number of looks. */
import type { ClockReading } from '#climate';
import { MINUTE_MS } from '../durations.js';

/** Looks over the time shown. Own choice, finer than the eye at the width of a plot. */
const CELLS = 120;
/** Never finer than this, ms. */
const CELL_LEAST_MS = 5 * MINUTE_MS;

export interface MomentsInput {
  fromMs: number;
  untilMs: number;
  /** Readings of the room, oldest first: where there is one in a stretch, it is looked at there. */
  air: readonly ClockReading[];
  /** When something came, went or was weighed: looked at just before and just after. */
  jumps: readonly number[];
}

/** Moments from `fromMs` to `untilMs`, both included, in order, each once. */
export function momentsOf({ fromMs, untilMs, air, jumps }: MomentsInput): number[] {
  const cellMs = Math.max(CELL_LEAST_MS, (untilMs - fromMs) / CELLS);
  const moments = new Set([fromMs, untilMs]);
  for (let endMs = fromMs + cellMs; endMs < untilMs; endMs += cellMs) {
    const reading = air.findLast(({ atMs }) => atMs <= endMs);
    moments.add(Math.round(reading !== undefined && reading.atMs > endMs - cellMs ? reading.atMs : endMs));
  }
  for (const { first, last } of bunched(jumps.filter((ms) => ms > fromMs && ms <= untilMs), cellMs / 2)) moments.add(Math.max(fromMs, first - 1)).add(last);
  return [...moments].sort((a, b) => a - b);
}

/** Jumps so close together that the eye sees one: a rack that is hung in one go. */
function bunched(jumps: readonly number[], withinMs: number): { first: number; last: number }[] {
  const bunches: { first: number; last: number }[] = [];
  for (const ms of jumps.toSorted((a, b) => a - b)) {
    const bunch = bunches.at(-1);
    if (bunch !== undefined && ms - bunch.first <= withinMs) bunch.last = ms;
    else bunches.push({ first: ms, last: ms });
  }
  return bunches;
}
