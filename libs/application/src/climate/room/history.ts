/**
 * A room through what was measured: water of every thing in the air that was read, its clock beside it, the machines watched.
 * Brought forward cut by cut (readings, things that come and go, weighings, whole hours), so that going on from a checkpoint makes
 * the same cuts as reckoning from the beginning and comes out the same.
 */
import { advanceClock, advanceRoomCourse, arrangementFactor, clockFromReadings, humidityRatio, moistAir, startRoomCourse, type ClockReading, type CalibrationValues, type ClockState, type CourseGoods, type RoomCourseState, type RoomEvent } from '#climate';
import type { AlarmValues } from '../alarms/calibration.js';
import { HOUR_MS } from '../durations.js';
import { factorOnly, speedFor, type SpeedFactor } from './fits.js';
import { clockThingOf, goodsOf, hasClock, moistureAtHanging, weighedWater, type MoistureBasis, type WaterEnds } from './goods.js';
import type { HangingStay, HungItem, InputPlaceReading, OutdoorAir, RoomFacts } from './inputs.js';
import { runningAt } from './machines.js';
import { NO_WATCH, watchOn } from './machine-watch.js';
import { fastIdOf, moistures, slowIdOf, thingIdOf, type HangingState, type LeftItem, type RoomState } from './state.js';

/** Outdoor air of which nobody knows anything, on the damp side. Own calibration, as plans take it. */
export const UNKNOWN_OUTDOOR = { airTempC: 25, relativeHumidityPct: 90 };

/** What the past is reckoned from. */
export interface HistoryInput extends RoomFacts {
  /** Air of the room, oldest first, one at a moment, all with a humidity: after the state's moment, or all of it at the beginning. */
  readings: readonly ClockReading[];
  /** Air outside as it was observed, oldest first. */
  observed: readonly OutdoorAir[];
  /** Air where things were before they were hung here. */
  elsewhere: readonly InputPlaceReading[];
  /** Factors that weighings have fitted, in place of the general one. */
  speeds: readonly SpeedFactor[];
  /** What machines are held against; the defaults where nobody asks about machines, as in a picture. */
  alarms?: AlarmValues;
}

/** The past brought forward. */
export interface RoomHistory {
  state: RoomState;
  left: LeftItem[];
  /** Pieces that were reckoned: what the work cost. */
  cuts: number;
}

/** The room at its first reading; null when there is none. */
export function startRoom(input: HistoryInput, values: CalibrationValues): RoomState | null {
  const reading = input.readings[0];
  if (reading === undefined) return null;
  const { room } = input;
  const outdoor = outdoorAt(input.observed, reading.atMs);
  const course = startRoomCourse({
    atMs: reading.atMs, volumeM3: room.volumeM3, relativeHumidityPct: humidityOf(reading),
    forcing: {
      airTempC: reading.airTempC, airChangesPerH: room.airChangesPerH, outdoorTempC: outdoor.airTempC, outdoorRelativeHumidityPct: outdoor.relativeHumidityPct,
      dehumidifiers: runningAt(input.machines, reading.atMs, values), airSpeedMPerS: null,
    },
  }, values);
  const state: RoomState = { format: 1, atMs: reading.atMs, course, hanging: {}, reading, watch: NO_WATCH };
  const run = new Run(state, input, values);
  for (const stay of input.stays) if (stay.fromMs <= reading.atMs && (stay.toMs ?? Infinity) > reading.atMs) run.hang(stay, reading.atMs);
  return run.stateAt(reading);
}

/** Brings a state forward to the last reading. */
export function throughReadings(state: RoomState, input: HistoryInput, values: CalibrationValues): RoomHistory {
  const run = new Run(state, input, values);
  const last = input.readings.findLast(({ atMs }) => atMs > state.atMs);
  if (last === undefined) return { state, left: [], cuts: 0 };
  run.advance(last.atMs);
  return { state: run.stateAt(last), left: run.left, cuts: run.cuts };
}

/** From the last reading to now: the reading is held for a while, then the air is reckoned and clocks run on the cautious side. Never a checkpoint. */
export function fromLastReading(state: RoomState, nowMs: number, input: HistoryInput, values: CalibrationValues): RoomHistory {
  const run = new Run(state, input, values);
  if (nowMs > state.atMs) run.advance(nowMs);
  return { state: { ...run.stateAt(state.reading), atMs: Math.max(nowMs, state.atMs) }, left: run.left, cuts: run.cuts };
}

function humidityOf(reading: ClockReading): number {
  return reading.relativeHumidityPct ?? 100;
}

export function outdoorAt(observed: readonly OutdoorAir[], atMs: number): Omit<OutdoorAir, 'atMs'> {
  return observed.findLast((air) => air.atMs <= atMs) ?? UNKNOWN_OUTDOOR;
}

/** One pass over a stretch of the past. */
class Run {
  readonly left: LeftItem[] = [];
  cuts = 0;
  private course: RoomCourseState;
  private readonly hanging: Record<string, HangingState>;
  private readonly items: ReadonlyMap<string, HungItem>;
  /** The last reading up to the present moment, and those after it. */
  private before: ClockReading;
  private readonly ahead: ClockReading[];
  private watch;
  private evaporatedKg = 0;

  constructor(from: RoomState, private readonly input: HistoryInput, private readonly values: CalibrationValues) {
    this.course = from.course;
    this.hanging = { ...from.hanging };
    this.items = new Map(input.items.map((item) => [item.id, item]));
    this.before = from.reading;
    this.ahead = input.readings.filter(({ atMs }) => atMs > from.reading.atMs);
    this.watch = from.watch;
  }

  stateAt(reading: ClockReading): RoomState {
    const { speeds } = this.input;
    return { format: 1, atMs: reading.atMs, course: this.course, hanging: this.hanging, reading, watch: this.watch, ...(speeds.length === 0 ? {} : { speeds: speeds.map(factorOnly) }) };
  }

  advance(untilMs: number): void {
    for (const cutMs of this.cutsUntil(untilMs)) {
      this.toCut(cutMs);
      this.cuts += 1;
    }
  }

  /** Readings, comings and goings, weighings and whole hours after the present moment. */
  private cutsUntil(untilMs: number): number[] {
    const fromMs = this.course.atMs;
    const cuts = new Set([untilMs, ...this.ahead.map(({ atMs }) => atMs), ...this.input.stays.flatMap((stay) => (stay.toMs === null ? [stay.fromMs] : [stay.fromMs, stay.toMs]))]);
    // Only what was weighed while it hung: what comes later from elsewhere must not cut a past that is kept.
    for (const { itemId, fromMs: from, toMs } of this.input.stays) for (const { atMs } of this.items.get(itemId)?.weighings ?? []) if (atMs >= from && atMs <= (toMs ?? Infinity)) cuts.add(atMs);
    for (let hour = (Math.floor(fromMs / HOUR_MS) + 1) * HOUR_MS; hour < untilMs; hour += HOUR_MS) cuts.add(hour);
    return [...cuts].filter((ms) => ms > fromMs && ms <= untilMs).sort((a, b) => a - b);
  }

  private toCut(cutMs: number): void {
    const fromMs = this.course.atMs;
    while ((this.ahead[0]?.atMs ?? Infinity) <= fromMs) this.before = this.ahead.shift() ?? this.before;
    const [before, after] = [this.before, this.ahead[0] ?? null];
    const wet = moistures(this.course);
    const reading = after?.atMs === cutMs ? after : null;
    const { state, steps } = advanceRoomCourse(this.course, cutMs, { air: 'measured', events: this.roomEvents(fromMs, cutMs, reading) }, this.values);
    this.course = state;
    this.runClocks(cutMs, before, after, wet);
    // A step that a cut went through is given again, whole, by the next call; count it by its own share.
    for (const step of steps) this.evaporatedKg += (step.evaporationKgPerH * (step.toMs - Math.max(step.fromMs, fromMs))) / HOUR_MS;
    if (reading !== null) this.watchMachines(before, reading);
    this.comeAndGo(cutMs);
  }

  private roomEvents(fromMs: number, toMs: number, reading: ClockReading | null): RoomEvent[] {
    const within = (ms: number): boolean => ms > fromMs && ms <= toMs;
    const events: RoomEvent[] = this.input.observed.filter(({ atMs }) => within(atMs))
      .map((air) => ({ kind: 'outdoor', atMs: air.atMs, outdoorTempC: air.airTempC, outdoorRelativeHumidityPct: air.relativeHumidityPct }));
    for (const atMs of new Set(this.input.machines.flatMap(({ changes }) => changes.map((change) => change.atMs)))) {
      if (within(atMs)) events.push({ kind: 'machines', atMs, dehumidifiers: runningAt(this.input.machines, atMs, this.values) });
    }
    if (reading !== null) events.push({ kind: 'reading', atMs: reading.atMs, airTempC: reading.airTempC, relativeHumidityPct: humidityOf(reading) });
    return events.sort((a, b) => a.atMs - b.atMs);
  }

  /** Clocks go by the water at the beginning of the stretch, the wetter end. */
  private runClocks(cutMs: number, before: ClockReading, after: ClockReading | null, wet: ReturnType<typeof moistures>): void {
    const outdoor = outdoorAt(this.input.observed, before.atMs);
    for (const [itemId, hanging] of Object.entries(this.hanging)) {
      const item = this.items.get(itemId);
      if (hanging.clock === null || item === undefined) continue;
      const stretch = { untilMs: cutMs, placement: 'room' as const, before, after, moistureX: wet.get(itemId)?.slowX ?? null, outdoor };
      this.hanging[itemId] = { ...hanging, clock: advanceClock(hanging.clock, stretch, clockThingOf(item), this.values) };
    }
  }

  private watchMachines(before: ClockReading, after: ClockReading): void {
    const { room, machines, observed, alarms } = this.input;
    const changed = machines.some(({ changes }) => changes.some(({ atMs }) => atMs > before.atMs && atMs <= after.atMs));
    const { airTempC, relativeHumidityPct } = outdoorAt(observed, before.atMs);
    this.watch = watchOn(this.watch, {
      before, after, evaporatedKg: this.evaporatedKg, volumeM3: room.volumeM3, airChangesPerH: room.airChangesPerH,
      outdoorHumidityRatio: humidityRatio(moistAir({ airTempC, relativeHumidityPct })), machines: changed ? null : runningAt(machines, after.atMs, this.values),
    }, this.values, alarms);
    this.evaporatedKg = 0;
  }

  /** What happens to things at a moment: who is moved within the room keeps water, clock and time of hanging. */
  private comeAndGo(atMs: number): void {
    const going = this.input.stays.filter((stay) => stay.toMs === atMs && this.hanging[stay.itemId] !== undefined);
    const coming = this.input.stays.filter((stay) => stay.fromMs === atMs && (stay.toMs ?? Infinity) > atMs);
    for (const { itemId } of going) this.take(itemId, atMs, coming.some((stay) => stay.itemId === itemId));
    for (const stay of coming) this.hang(stay, atMs);
    for (const item of this.input.items) {
      const weighed = item.weighings.find((weighing) => weighing.atMs === atMs);
      const hanging = this.hanging[item.id];
      if (weighed !== undefined && hanging !== undefined) this.weigh(item, hanging, weighed.massKg, atMs);
    }
  }

  private readonly moved = new Map<string, Begun>();

  private take(itemId: string, atMs: number, stays: boolean): void {
    const hanging = this.hanging[itemId];
    const wet = moistures(this.course).get(itemId);
    if (hanging === undefined || wet === undefined) return;
    const begun = this.asItHangs(itemId);
    const groups = this.course.groups.filter(({ id }) => thingIdOf(id) === itemId);
    this.apply(atMs, groups.map(({ id }) => ({ kind: 'take', atMs, id })));
    delete this.hanging[itemId];
    if (stays && begun !== undefined) this.moved.set(itemId, begun);
    else this.left.push({ itemId, hungAtMs: hanging.hungAtMs, takenAtMs: atMs, targetX: groups[0]?.targetX ?? 0, knownAtMs: hanging.knownAtMs, water: wet, moistureBasis: hanging.moistureBasis, clock: hanging.clock });
  }

  /** Hangs a thing. A second record of hanging what hangs already moves it. */
  hang(stay: HangingStay, atMs: number): void {
    const item = this.items.get(stay.itemId);
    if (item === undefined) return;
    if (this.hanging[item.id] !== undefined) this.take(item.id, atMs, true);
    const carried = this.moved.get(item.id) ?? this.ofLot(stay, atMs);
    this.moved.delete(item.id);
    const begun = carried ?? this.begin(item, stay, atMs);
    const speed = speedFor(this.input.speeds, item, stay.arrangement);
    const dose = begun.hanging.clock?.dose ?? 0;
    const goods = (water: { moistureX: number; dryMassKg?: number }) => goodsOf(item, stay.arrangement, { ...water, dose }, this.values, speed?.factor);
    const slow = goods(begun.ends.slow);
    const thin = slow.build === 'thin';
    const fast = { ...goods(begun.ends.fast), ...(thin ? {} : { uptakeTimes: 1 / this.values.thickSlowdownMax }) };
    this.apply(atMs, [
      { kind: 'hang', atMs, goods: goods({ moistureX: begun.x }) },
      { kind: 'hang', atMs, goods: { ...(thin ? slow : slowed(slow, this.values)), id: slowIdOf(item.id), count: 0 } },
      { kind: 'hang', atMs, goods: { ...fast, id: fastIdOf(item.id), count: 0 } },
    ]);
    this.hanging[item.id] = { ...begun.hanging, arrangement: stay.arrangement };
  }

  /** What is taken out of a lot that hangs here is as wet as the lot, and its clock stands where the lot's does. */
  private ofLot({ splitFromId }: HangingStay, atMs: number): Begun | undefined {
    const lot = splitFromId === null ? undefined : this.asItHangs(splitFromId);
    return lot === undefined ? undefined : { ...lot, hanging: { ...lot.hanging, hungAtMs: atMs } };
  }

  private asItHangs(itemId: string): Begun | undefined {
    const hanging = this.hanging[itemId];
    const groups = new Map(this.course.groups.map((group) => [group.id, group]));
    const own = groups.get(itemId);
    if (hanging === undefined || own === undefined) return undefined;
    return { hanging, x: own.moistureX, ends: { slow: groups.get(slowIdOf(itemId)) ?? own, fast: groups.get(fastIdOf(itemId)) ?? own } };
  }

  private begin(item: HungItem, stay: HangingStay, atMs: number): Begun {
    const { moistureX, ends, basis } = moistureAtHanging(item, Math.min(stay.fromMs, atMs), this.values);
    const clock = hasClock(item) ? clockAtHanging(item, stay.fromMs, atMs, this.input, this.values) : null;
    return { hanging: { hungAtMs: stay.fromMs, moistureBasis: basis, knownAtMs: stay.fromMs, arrangement: stay.arrangement, clock }, x: moistureX, ends };
  }

  /** The ends weigh something else dry from then on, so they are hung anew. */
  private weigh(item: HungItem, hanging: HangingState, massKg: number, atMs: number): void {
    const { moistureX, ends } = weighedWater(item, massKg, this.values);
    const groups = new Map(this.course.groups.map((group) => [group.id, group]));
    const anew = ([[slowIdOf(item.id), ends.slow], [fastIdOf(item.id), ends.fast]] as const).flatMap(([id, end]): RoomEvent[] => {
      const group = groups.get(id);
      return group === undefined ? [] : [{ kind: 'take', atMs, id }, { kind: 'hang', atMs, goods: { ...group, ...end } }];
    });
    this.apply(atMs, [{ kind: 'weighed', atMs, id: item.id, moistureX }, ...anew]);
    this.hanging[item.id] = { ...hanging, moistureBasis: 'weighed' satisfies MoistureBasis, knownAtMs: atMs };
  }

  private apply(atMs: number, events: RoomEvent[]): void {
    this.course = advanceRoomCourse(this.course, atMs, { air: 'measured', events }, this.values).state;
  }
}

/** A thing as it begins to hang in a place, or goes on. */
interface Begun {
  hanging: HangingState;
  x: number;
  ends: WaterEnds;
}

/**
 * Thick and closed goods give their water off from inside, at the slow end so much more slowly. In air that wets them again the slow
 * end takes water up as fast as thin goods, and the fast end as slowly as it may: something in between may have dried like the one
 * and grow damp like the other.
 */
function slowed({ airReach, arrangementFactor: factor, ...goods }: CourseGoods, values: CalibrationValues): CourseGoods {
  const reach = factor === undefined ? (airReach === undefined ? {} : { airReach }) : { arrangementFactor: factor };
  return { ...goods, arrangementFactor: arrangementFactor(reach, values) / values.thickSlowdownMax, uptakeTimes: values.thickSlowdownMax };
}

/** Keepers where the readings of the zone, freezer or other room count; everywhere else nobody reads. */
const READ_PLACEMENT: Readonly<Record<string, 'room' | 'freezer'>> = { holding: 'room', station: 'room', 'drying-place': 'room', freezer: 'freezer' };

/**
 * The clock of a thing when it is hung: from when it was wetted, through the places where it was. What another drying room left
 * is taken up; how wet it was elsewhere nobody knows, so it counts as wet.
 */
function clockAtHanging(item: HungItem, hungAtMs: number, atMs: number, { room, readings, observed, elsewhere }: HistoryInput, values: CalibrationValues): ClockState {
  const left = item.left.findLast((leaving) => leaving.clock !== null && leaving.atMs <= hungAtMs)?.clock;
  const start = left ?? Math.min(item.wettedAtMs, hungAtMs);
  const stays = item.earlier.filter(({ fromMs }) => fromMs < hungAtMs)
    .map(({ fromMs, keeperKind, placeId }) => ({ fromMs, placement: placeId === null ? ('unknown' as const) : (READ_PLACEMENT[keeperKind] ?? 'unknown'), placeId }));
  const places = new Set(stays.map(({ placeId }) => placeId));
  // Only what this thing can have met, so that it does not matter for whom else readings were loaded.
  const fromMs = item.wettedAtMs - values.readingGapInterpolatedMaxH * HOUR_MS;
  const met = elsewhere.filter(({ placeId, atMs: ms }) => places.has(placeId) && ms >= fromMs && ms <= hungAtMs);
  // Hung before anybody had read the room: the first reading tells of that time.
  const first = hungAtMs < atMs ? readings.filter((reading) => reading.atMs === atMs).map((reading) => ({ ...reading, placeId: room.id })) : [];
  const stay = { fromMs: hungAtMs, placement: 'room' as const, placeId: room.id };
  return clockFromReadings([...met, ...first], { thing: clockThingOf(item), start, untilMs: atMs, stays: [...stays, stay], outdoor: outdoorAt(observed, hungAtMs) }, values).state;
}
