/**
 * The mould clock of a thing over the readings of the places where it was: what each stretch added, what was measured and what
 * was filled in. Ours: how gaps are filled (`clock-state.ts`), and that of two readings of one moment the warmer and damper counts.
 */
import { bisector } from 'd3-array';
import type { Advice } from './advice.js';
import { requireNumber } from './climate-range.error.js';
import { DEFAULT_CALIBRATION, type CalibrationValues } from './calibration.js';
import { addSteps, checkReading, HOUR_MS, startClock, stretchSteps, type ClockReading, type ClockBasis, type ClockPlacement, type ClockState, type ClockStep, type ClockStretch, type ClockThing } from './clock-state.js';
import { mouldClock, type ClockSegment, type MouldClock } from './mould-clock.js';

/** A reading of a place. */
export interface PlaceReading extends ClockReading {
  /** Any name; `null` where there is only one place. */
  placeId: string | null;
}

/** Where the thing was from a moment on, until the next one. */
export interface Stay {
  fromMs: number;
  placement: ClockPlacement;
  /** Whose readings count. */
  placeId: string | null;
}

/** How wet the thing was from a moment on, until the next one (see `ClockStretch.moistureX`). */
export interface Wetness {
  fromMs: number;
  moistureX: number | null;
}

export interface ClockHistoryOptions {
  thing: ClockThing;
  /** When it came out of the water (or the flood fell), or the state to go on from. */
  start: number | ClockState;
  untilMs: number;
  /** In any order. Before the first nobody knows where it was. */
  stays: readonly Stay[];
  /** In any order; not known before the first. */
  wetness?: readonly Wetness[];
  outdoor?: ClockStretch['outdoor'];
}

/** A time in which the thing stayed in one place, on one basis, with its clock running or standing still. */
export interface ClockHistorySegment {
  fromMs: number;
  untilMs: number;
  hours: number;
  placement: ClockPlacement;
  placeId: string | null;
  basis: ClockBasis;
  paused: boolean;
  surfaceTempC: { lowest: number; highest: number };
  waterActivity: { lowest: number; highest: number };
  doseGained: number;
}

export type ClockNoteCode = 'readings_same_moment' | 'readings_elsewhere' | 'dose_assumed' | 'freezer_not_read' | 'wetness_unknown';

export interface ClockHistory {
  /** To go on from when more is known. */
  state: ClockState;
  /** What the clock says at the end, in the conditions of the end. */
  clock: MouldClock;
  /** The dose by the long and by the short end of what the sources span. */
  doseBand: { lowest: number; highest: number };
  /** Part of the dose that rests on assumptions, 0 to 1; 0 for no dose. */
  assumedShare: number;
  segments: ClockHistorySegment[];
  /** Conditions of its surface from start to end, as far as they differ: what the published index goes by. */
  conditions: ClockSegment[];
  notes: Advice<ClockNoteCode>[];
}

/** Reckons the clock of a thing over readings in any order. @throws ClimateRangeError */
export function clockFromReadings(readings: readonly PlaceReading[], options: ClockHistoryOptions, values: CalibrationValues = DEFAULT_CALIBRATION): ClockHistory {
  const { thing } = options;
  const begun = typeof options.start === 'number' ? startClock(options.start) : options.start;
  requireNumber('untilMs', options.untilMs, { min: begun.atMs, max: 8.64e15, unit: 'ms', hint: 'The end may not lie before the start.' });
  const sorted = sortedByPlace(readings);
  const segments: ClockHistorySegment[] = [];
  const conditions: ClockSegment[] = [];
  let state = begun;
  let now: ClockStep | undefined;
  for (const { stay, stretch } of stretchesOf(begun.atMs, options.untilMs, options, sorted.byPlace)) {
    const steps = stretchSteps(state.atMs, stretch, thing, values);
    for (const step of steps) {
      addToSegments(segments, step, stay);
      addToConditions(conditions, step);
    }
    state = addSteps(state, steps, stretch);
    now = steps.at(-1);
  }
  if (now === undefined) {
    // No time has passed: the conditions are those of the next millisecond.
    const [next] = stretchesOf(begun.atMs, begun.atMs + 1, options, sorted.byPlace);
    now = stretchSteps(begun.atMs, next!.stretch, thing, values)[0]!;
  }
  return {
    state,
    clock: mouldClock(state.dose, now, thing.mouldClass, values),
    doseBand: doseBand(state.dose, values),
    assumedShare: state.dose === 0 ? 0 : state.doseBy.assumed / state.dose,
    segments,
    conditions,
    notes: notesOf(state, begun, segments, sorted, options),
  };
}

/** The dose by the long and by the short end of the hours that the sources span. */
export function doseBand(dose: number, values: CalibrationValues = DEFAULT_CALIBRATION): { lowest: number; highest: number } {
  return { lowest: (dose * values.mouldHoursAtReference) / values.mouldHoursLongest, highest: (dose * values.mouldHoursAtReference) / values.mouldHoursShortest };
}

const byMoment = bisector<ClockReading, number>((reading) => reading.atMs);
const NOWHERE: Stay = { fromMs: -Infinity, placement: 'unknown', placeId: null };

/** The stretches of a time, cut wherever the place, the wetness or the readings change. */
function* stretchesOf(fromMs: number, untilMs: number, options: ClockHistoryOptions, byPlace: ReadonlyMap<string | null, readonly ClockReading[]>): Generator<{ stay: Stay; stretch: ClockStretch }> {
  const stays = options.stays.toSorted((a, b) => a.fromMs - b.fromMs);
  const wetness = (options.wetness ?? []).toSorted((a, b) => a.fromMs - b.fromMs);
  for (let at = fromMs; at < untilMs; ) {
    const now = at;
    const stay = stays.findLast((each) => each.fromMs <= now) ?? NOWHERE;
    const moistureX = wetness.findLast((each) => each.fromMs <= now)?.moistureX ?? null;
    const read = byPlace.get(stay.placeId) ?? [];
    const following = read[byMoment.right(read, now)];
    const changes = [...stays, ...wetness].map((each) => each.fromMs).filter((ms) => ms > now);
    at = Math.min(untilMs, following?.atMs ?? Infinity, ...changes);
    yield { stay, stretch: { untilMs: at, placement: stay.placement, before: read[byMoment.right(read, now) - 1] ?? null, after: following ?? null, moistureX, outdoor: options.outdoor ?? null } };
  }
}

interface SortedReadings {
  byPlace: Map<string | null, ClockReading[]>;
  /** Readings that another one of the same moment and place has met. */
  sameMoment: number;
}

function sortedByPlace(readings: readonly PlaceReading[]): SortedReadings {
  const byPlace = new Map<string | null, ClockReading[]>();
  let sameMoment = 0;
  for (const reading of readings.toSorted((a, b) => a.atMs - b.atMs)) {
    checkReading('reading', reading);
    const known = byPlace.get(reading.placeId) ?? [];
    byPlace.set(reading.placeId, known);
    const last = known.at(-1);
    if (last?.atMs === reading.atMs) {
      sameMoment += 1;
      known[known.length - 1] = worseOf(last, reading);
    } else {
      known.push(reading);
    }
  }
  return { byPlace, sameMoment };
}

function worseOf(a: ClockReading, b: ClockReading): ClockReading {
  const humidity = a.relativeHumidityPct === null || b.relativeHumidityPct === null ? (a.relativeHumidityPct ?? b.relativeHumidityPct) : Math.max(a.relativeHumidityPct, b.relativeHumidityPct);
  return { atMs: a.atMs, airTempC: Math.max(a.airTempC, b.airTempC), relativeHumidityPct: humidity };
}

function addToSegments(segments: ClockHistorySegment[], step: ClockStep, { placement, placeId }: Stay): void {
  const paused = step.doseGained === 0;
  const last = segments.at(-1);
  const hours = (step.untilMs - step.fromMs) / HOUR_MS;
  if (last === undefined || last.placement !== placement || last.placeId !== placeId || last.basis !== step.basis || last.paused !== paused) {
    const at = (value: number) => ({ lowest: value, highest: value });
    segments.push({ fromMs: step.fromMs, untilMs: step.untilMs, hours, placement, placeId, basis: step.basis, paused, surfaceTempC: at(step.surfaceTempC), waterActivity: at(step.waterActivity), doseGained: step.doseGained });
    return;
  }
  last.untilMs = step.untilMs;
  last.hours += hours;
  last.doseGained += step.doseGained;
  widen(last.surfaceTempC, step.surfaceTempC);
  widen(last.waterActivity, step.waterActivity);
}

function addToConditions(conditions: ClockSegment[], { fromMs, untilMs, surfaceTempC, waterActivity }: ClockStep): void {
  const last = conditions.at(-1);
  const hours = (untilMs - fromMs) / HOUR_MS;
  if (last !== undefined && last.surfaceTempC === surfaceTempC && last.waterActivity === waterActivity) last.hours += hours;
  else conditions.push({ hours, surfaceTempC, waterActivity });
}

function widen(range: { lowest: number; highest: number }, value: number): void {
  range.lowest = Math.min(range.lowest, value);
  range.highest = Math.max(range.highest, value);
}

function notesOf(state: ClockState, begun: ClockState, segments: readonly ClockHistorySegment[], sorted: SortedReadings, options: ClockHistoryOptions): Advice<ClockNoteCode>[] {
  const notes: Advice<ClockNoteCode>[] = [];
  const add = (code: ClockNoteCode, values: Advice['values'], text: string): void => void notes.push({ code, values, text });
  const whole = (value: number): number => Math.round(value * 10) / 10;
  const places = new Set(options.stays.map((stay) => stay.placeId));
  const elsewhere = [...sorted.byPlace].filter(([placeId]) => !places.has(placeId)).reduce((sum, [, read]) => sum + read.length, 0);
  if (sorted.sameMoment > 0) add('readings_same_moment', { count: sorted.sameMoment }, `${sorted.sameMoment} readings have the moment of another one of the same place; the warmer and damper counts.`);
  if (elsewhere > 0) add('readings_elsewhere', { count: elsewhere }, `${elsewhere} readings are of places where the thing never was; they do not count.`);
  const assumedPct = state.dose === 0 ? 0 : Math.round((100 * state.doseBy.assumed) / state.dose);
  if (assumedPct > 0) add('dose_assumed', { percent: assumedPct, hours: whole(state.hoursBy.assumed) }, `${assumedPct} % of the dose rests on assumptions: nobody measured the air for ${whole(state.hoursBy.assumed)} h. Such time counts on the cautious side.`);
  const unread = segments.filter(({ placement, basis }) => placement === 'freezer' && basis === 'assumed').reduce((sum, { hours }) => sum + hours, 0);
  if (unread > 0) add('freezer_not_read', { hours: whole(unread) }, `Nobody read the freezer for ${whole(unread)} h. A clock stands still only while things stay frozen: look at the thermometer and write it down.`);
  if (state.doseWetnessUnknown > begun.doseWetnessUnknown) add('wetness_unknown', {}, 'How wet the thing was is not known for all of the time; it counts as wet then. Weighing it tells.');
  return notes;
}
