/**
 * A drying room through time: readings, weather, machines that trip and return, goods hung and taken. Brought forward piece by
 * piece from a state that can be stored, and in pieces it comes out as in one (to rounding).
 *
 * Past: `air: 'measured'`, the goods dry in the air that was read; a reading holds until the next one, at most for
 * `readingHoldH` of the calibration, after which the balance goes on from it. Future: `air: 'simulated'`, the balance decides.
 * Published: nothing beyond the relations it calls. Own convention: readings hold until the next (half an interval late on
 * average), and goods in a room below 1 C neither dry nor take water up.
 */
import { ClimateRangeError, requireNumber } from './climate-range.error.js';
import { DEFAULT_CALIBRATION, type CalibrationValues } from './calibration.js';
import { SEA_LEVEL_PRESSURE_PA } from './moist-air.core.js';
import { PRESSURE_RULE, RELATIVE_HUMIDITY_RULE } from './psychrometrics.js';
import { applyRoomEvent, checkedForcing, checkedGoods, COURSE_TEMP_RULE, dryAirOf } from './room-course-events.js';
import { courseStep, type CourseWork } from './room-course-step.js';
import { ratioAtHumidity, VOLUME_RULE } from './room.js';
import { relativeHumidityPctFromRatio } from './moist-air.core.js';
import type { CourseGoods, CourseInstant, CourseStep, RoomCourseAdvance, RoomCourseState, RoomEvent, RoomForcing } from './room-course.types.js';
import { SIMULATION_HOURS_MAX } from './room-simulation.js';

const MS_PER_H = 3_600_000;
const STEP_RULE = { min: 1, max: 60, unit: 'minutes' };
const TIME_RULE = { min: -8.64e15, max: 8.64e15, unit: 'milliseconds since 1970' };

/** How a room begins: its air by a reading, what acts on it, and what hangs in it. */
export interface RoomCourseStart {
  atMs: number;
  volumeM3: number;
  /** Sea level if absent. */
  pressurePa?: number;
  /** The reading at `atMs`; its temperature is `forcing.airTempC`. */
  relativeHumidityPct: number;
  forcing: RoomForcing;
  goods?: readonly CourseGoods[];
  /** Step in minutes, 15 if absent. */
  stepMinutes?: number;
}

/**
 * A room at the time of a reading. @throws ClimateRangeError naming the first number that is out of range
 * @example startRoomCourse({ atMs, volumeM3: 60, relativeHumidityPct: 60, forcing: { airTempC: 20, airChangesPerH: 0.5, outdoorTempC: 12, outdoorRelativeHumidityPct: 80, dehumidifiers: [], airSpeedMPerS: null } })
 */
export function startRoomCourse(start: RoomCourseStart, values: CalibrationValues = DEFAULT_CALIBRATION): RoomCourseState {
  const atMs = requireNumber('atMs', start.atMs, TIME_RULE);
  const pressurePa = requireNumber('pressurePa', start.pressurePa ?? SEA_LEVEL_PRESSURE_PA, PRESSURE_RULE);
  const volumeM3 = requireNumber('volumeM3', start.volumeM3, VOLUME_RULE);
  const forcing = checkedForcing(start.forcing);
  const relativeHumidityPct = requireNumber('relativeHumidityPct', start.relativeHumidityPct, RELATIVE_HUMIDITY_RULE);
  const humidityRatio = ratioAtHumidity(requireNumber('airTempC', forcing.airTempC, COURSE_TEMP_RULE), relativeHumidityPct, pressurePa);
  const goods = start.goods ?? [];
  const twice = goods.find((one, i) => goods.findIndex((other) => other.id === one.id) !== i);
  if (twice !== undefined) throw new ClimateRangeError(`The group ${twice.id} is given twice; give each group an id of its own.`, 'id');
  return {
    format: 1,
    atMs,
    stepMs: Math.round(requireNumber('stepMinutes', start.stepMinutes ?? 15, STEP_RULE) * 60_000),
    volumeM3,
    pressurePa,
    forcing,
    air: 'measured',
    readingAtMs: atMs,
    dryAirKg: dryAirOf(volumeM3, forcing.airTempC, humidityRatio, pressurePa),
    humidityRatio,
    relativeHumidityPct,
    groups: goods.map((one) => checkedGoods(one, atMs, values)),
    water: { evaporatedKg: 0, outdoorAirKg: 0, dehumidifiedKg: 0, condensedKg: 0, notAttributedKg: 0, worstImbalanceKg: 0 },
    resume: null,
  };
}

/** How to bring a course forward. */
export interface RoomCourseInput {
  /** `measured`: in the air of the readings. `simulated`: by the balance; a reading then only sets the air it starts again from. */
  air: 'measured' | 'simulated';
  /**
   * In order of time, from the state's `atMs` to `untilMs`, both included. Each event is given once: what happened at the very
   * time a part ended may come with that part or with the next.
   */
  events?: readonly RoomEvent[];
  /** Report the moisture of every group in every step. */
  withMoisture?: boolean;
}

/**
 * Brings a room forward to `untilMs` (at most 2000 h at a time). Pure: the state given is not changed. In parts equals in one: the
 * steps lie on a fixed grid, and a step cut through by `untilMs` is reckoned provisionally and taken up again from its start.
 * Going over from `measured` to `simulated` ends a step. @throws ClimateRangeError for events out of order or outside the
 * stretch (replay from an earlier state for what came in late), and for numbers out of range.
 */
export function advanceRoomCourse(state: RoomCourseState, untilMs: number, input: RoomCourseInput, values: CalibrationValues = DEFAULT_CALIBRATION): RoomCourseAdvance {
  const until = requireNumber('untilMs', untilMs, { min: state.atMs, max: state.atMs + SIMULATION_HOURS_MAX * MS_PER_H, unit: 'milliseconds since 1970', hint: 'A course only goes forward; replay from an earlier state to go back.' });
  const events = input.events ?? [];
  requireOrder(state.atMs, until, events);
  const work = takeUp(state, input, events[0]?.atMs === state.atMs);
  const steps: CourseStep[] = [];
  const taken: RoomCourseAdvance['taken'][number][] = [];
  let next = 0;
  let resume: CourseInstant | null = null;
  for (;;) {
    for (; next < events.length && events[next]!.atMs === work.atMs; next += 1) {
      const gone = applyRoomEvent(work, events[next]!, values);
      if (gone !== null) taken.push(gone);
    }
    if (work.atMs >= until) break;
    const end = stepEnd(work, events[next]?.atMs, values);
    if (end > until) resume = instantOf(work);
    const step = courseStep(work, Math.min(end, until), values);
    steps.push(input.withMoisture === true ? { ...step, moistureX: Object.fromEntries(work.groups.map((group) => [group.id, group.moistureX])) } : step);
  }
  return { state: stateOf(work, resume), steps, taken };
}

function requireOrder(fromMs: number, untilMs: number, events: readonly RoomEvent[]): void {
  let last = fromMs;
  for (const event of events) {
    if (!(event.atMs >= last)) {
      const why = event.atMs < fromMs ? `before ${fromMs}, where the course stands; replay from an earlier state` : 'out of order; sort the events by time';
      throw new ClimateRangeError(`An event (${event.kind}) at ${event.atMs} is ${why}.`, 'events');
    }
    if (event.atMs > untilMs) throw new ClimateRangeError(`An event (${event.kind}) at ${event.atMs} is after ${untilMs}, where this part ends; give it with the next part.`, 'events');
    last = event.atMs;
  }
}

/** A working copy, set back to the start of the step that was cut through unless something ends that step here. */
function takeUp(state: RoomCourseState, input: RoomCourseInput, eventHere: boolean): CourseWork {
  const ends = eventHere || input.air !== state.air;
  const from = state.resume === null || ends ? null : state.resume;
  return {
    atMs: from?.atMs ?? state.atMs,
    stepMs: state.stepMs,
    volumeM3: state.volumeM3,
    pressurePa: state.pressurePa,
    forcing: state.forcing,
    air: input.air,
    readingAtMs: state.readingAtMs,
    dryAirKg: state.dryAirKg,
    humidityRatio: from?.humidityRatio ?? state.humidityRatio,
    water: { ...(from?.water ?? state.water) },
    groups: state.groups.map((group, i) => (from === null ? { ...group } : { ...group, moistureX: from.moistureX[i]!, dose: from.dose[i]!, dryAtMs: from.dryAtMs[i]! })),
    readyAir: null,
    readyGroups: null,
  };
}

function stepEnd(work: CourseWork, eventMs: number | undefined, values: CalibrationValues): number {
  const grid = (Math.floor(work.atMs / work.stepMs) + 1) * work.stepMs;
  const held = work.readingAtMs + Math.round(values.readingHoldH * MS_PER_H);
  const holdEnds = work.air === 'measured' && held > work.atMs ? held : Infinity;
  return Math.min(grid, eventMs ?? Infinity, holdEnds);
}

function instantOf(work: CourseWork): CourseInstant {
  return {
    atMs: work.atMs,
    humidityRatio: work.humidityRatio,
    moistureX: work.groups.map((group) => group.moistureX),
    dose: work.groups.map((group) => group.dose),
    dryAtMs: work.groups.map((group) => group.dryAtMs),
    water: { ...work.water },
  };
}

function stateOf(work: CourseWork, resume: CourseInstant | null): RoomCourseState {
  const { readyAir: _air, readyGroups: _groups, ...rest } = work;
  return { format: 1, ...rest, relativeHumidityPct: relativeHumidityPctFromRatio(work.forcing.airTempC, work.humidityRatio, work.pressurePa), resume };
}
