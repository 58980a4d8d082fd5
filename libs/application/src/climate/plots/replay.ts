/**
 * The past of a room once more, as it was reckoned, looked at on the way. It goes on from a checkpoint of the newest reckoning, so
 * it shows that reckoning and not one of its own.
 */
import { setImmediate as nextTurn } from 'node:timers/promises';
import type { CalibrationValues, ClockReading } from '#climate';
import { MINUTE_MS } from '../durations.js';
import { fromLastReading, startRoom, throughReadings, type HistoryInput } from '../room/history.js';
import type { InputPlaceReading, OutdoorAir, RoomFacts } from '../room/inputs.js';
import type { RoomState } from '../room/state.js';

/** What a past is replayed from. */
export interface ReplayParts {
  facts: RoomFacts;
  observed: OutdoorAir[];
  /** Air where the thing was before that a plot is about; empty for a room, whose plot shows no clock. */
  elsewhere: InputPlaceReading[];
  /** Foreseen from the newest reckoning on. */
  weather: OutdoorAir[];
  /** The checkpoint to go on from; null to begin with the first reading. */
  base: RoomState | null;
  /** The room at its last reading that was taken in: the present is reckoned from it, whatever is replayed. */
  newest: RoomState;
  /** Readings after the base, one at a moment, up to the newest reckoning. */
  air: ClockReading[];
}

/** The room at a moment of its past. */
export interface PastMoment {
  atMs: number;
  state: RoomState;
  /** Clocks are as they were kept; between two readings they are not, because the second one tells how the time between counts. */
  settled: boolean;
}

/** The room at moments in order of time; those before its first reading are left out. Only the clocks of `clocksOf` are kept. */
export function* replay({ facts, observed, elsewhere, base, newest, air }: ReplayParts, moments: readonly number[], clocksOf: ReadonlySet<string>, values: CalibrationValues): Generator<PastMoment> {
  const input: HistoryInput = { ...facts, observed, elsewhere, readings: air, speeds: newest.speeds ?? [] };
  const start = base ?? startRoom(input, values);
  if (start === null) return;
  let atReading = withClocksOf(start, clocksOf);
  let now = atReading;
  let waiting = air.filter(({ atMs }) => atMs > start.atMs);
  for (const atMs of moments) {
    if (atMs < start.atMs) continue;
    const later = waiting.findIndex((reading) => reading.atMs > atMs);
    const due = later === -1 ? waiting : waiting.slice(0, later);
    waiting = waiting.slice(due.length);
    if (due.length > 0) now = atReading = withClocksOf(throughReadings(atReading, { ...input, readings: due }, values).state, clocksOf);
    if (atMs > now.atMs) now = withClocksOf(fromLastReading(now, atMs, { ...input, readings: [] }, values).state, clocksOf);
    yield { atMs, state: now, settled: now === atReading };
  }
}

/** Clocks cost more than water, and a plot shows one at most. */
function withClocksOf(state: RoomState, clocksOf: ReadonlySet<string>): RoomState {
  return { ...state, hanging: Object.fromEntries(Object.entries(state.hanging).map(([id, hanging]) => [id, clocksOf.has(id) ? hanging : { ...hanging, clock: null }])) };
}

/** What one plot may replay: things times readings. Own calibration: about a second of one processor. */
const MOST_WORK = 60_000;

/** Readings that a replay can afford. `everyMs` null: all of them; else the last one of each such stretch, and of all. */
export function affordable(air: readonly ClockReading[], things: number, mostWork: number = MOST_WORK): { air: ClockReading[]; everyMs: number | null } {
  const most = Math.max(24, Math.floor(mostWork / Math.max(1, things)));
  const [first, last] = [air[0], air.at(-1)];
  if (first === undefined || last === undefined || air.length <= most) return { air: [...air], everyMs: null };
  const everyMs = Math.ceil((last.atMs - first.atMs) / most / MINUTE_MS) * MINUTE_MS;
  const newest = new Map(air.map((reading) => [Math.floor(reading.atMs / everyMs), reading]));
  return { air: [...newest.values()], everyMs };
}

/** Goes through steps and lets others have their turn after each: a long plot must not hold up the requests beside it. */
export async function unhurried<T, R>(steps: Iterable<T>, look: (step: T) => R): Promise<R[]> {
  const seen: R[] = [];
  for (const step of steps) {
    seen.push(look(step));
    await nextTurn();
  }
  return seen;
}
