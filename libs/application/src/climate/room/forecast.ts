/**
 * What comes: the room by its moisture balance from now on, with the machines that run and the weather that is foreseen, and every
 * thing in it. Nothing is hung or taken in it. Bands lie between the ends of mass and water of a thing (`state`), and hold the error of the
 * speed besides: that of the climate library, or the 80 % interval of the factor that weighings have fitted; thick and closed ones
 * reach from the thin-goods time to the slow end, without a number in between.
 */
import { advanceRoomCourse, type CalibrationValues, type CourseGroup, type CourseStep, type RoomCourseState, type RoomEvent } from '#climate';
import { bandShares, keyOf, type FittedSpeed } from './fits.js';
import type { OutdoorAir } from './inputs.js';
import { HOUR_MS } from '../durations.js';
import { dryMoments, isEndId, slowIdOf, thingIdOf, type HangingState, type RoomState } from './state.js';

/** How far ahead a room is reckoned, h: as far as work is planned. */
export const FORECAST_H = 72;

/** The room at the end of an hour to come. */
export interface ForecastPoint {
  atMs: number;
  airTempC: number;
  relativeHumidityPct: number;
  humidityRatio: number;
  evaporationKgPerH: number;
  outdoorAirKgPerH: number;
  dehumidifiersKgPerH: number;
  /** Left in everything that hangs, by the thin-goods model, above what counts as dry. */
  waterKg: number;
}

/** What comes for one thing; moments null for not within the forecast. */
export interface ItemForecast {
  itemId: string;
  dryEarliestMs: number | null;
  /** null also for thick and closed things, where a single number would be false precision. */
  dryExpectedMs: number | null;
  dryLatestMs: number | null;
  /** By the thin-goods model, of thick and closed things too: what plans reckon from. Absent in what was stored before plans did. */
  modelDryMs?: number | null;
  amberMs: number | null;
  redMs: number | null;
}

export interface RoomForecast {
  fromMs: number;
  toMs: number;
  points: ForecastPoint[];
  /** Highest humidity to come, and when. */
  peak: { relativeHumidityPct: number; atMs: number };
  /** First moment above the cap; null for not within the forecast. */
  overCapMs: number | null;
  items: ItemForecast[];
}

export interface ForecastInput {
  humidityCapPct: number;
  weather: readonly OutdoorAir[];
  /** Factors that weighings have fitted, whose intervals take the place of the general error. */
  speeds?: readonly FittedSpeed[];
  hours?: number;
}

/** The room from `state.atMs` on. */
export function forecastRoom(state: RoomState, input: ForecastInput, values: CalibrationValues): RoomForecast {
  const fromMs = state.atMs;
  const toMs = fromMs + (input.hours ?? FORECAST_H) * HOUR_MS;
  const events = input.weather.filter(({ atMs }) => atMs >= fromMs && atMs < toMs).map((air): RoomEvent => ({ kind: 'outdoor', atMs: air.atMs, outdoorTempC: air.airTempC, outdoorRelativeHumidityPct: air.relativeHumidityPct }));
  const track = new Track(state, values, input.speeds ?? []);
  const steps: CourseStep[] = [];
  const points: ForecastPoint[] = [];
  let course = withClocks(state);
  for (let untilMs = nextHour(fromMs, toMs); course.atMs < toMs; untilMs = nextHour(untilMs, toMs)) {
    const startMs = course.atMs;
    const due = events.filter(({ atMs }) => atMs >= startMs && atMs < untilMs);
    const next = advanceRoomCourse(course, untilMs, { air: 'simulated', events: due }, values);
    track.between(course, next.state);
    steps.push(...next.steps);
    course = next.state;
    points.push(pointOf(course, next.steps.at(-1)));
  }
  const highest = steps.reduce((peak, step) => (step.relativeHumidityPct > peak.relativeHumidityPct ? { relativeHumidityPct: step.relativeHumidityPct, atMs: step.toMs } : peak), { relativeHumidityPct: state.course.relativeHumidityPct, atMs: fromMs });
  // What stays at the cap is not above it, whatever the rounding.
  const capPct = input.humidityCapPct + 1e-6;
  const over = state.course.relativeHumidityPct > capPct ? fromMs : (steps.find((step) => step.relativeHumidityPct > capPct)?.toMs ?? null);
  return { fromMs, toMs, points, peak: highest, overCapMs: over, items: track.items(course, fromMs, toMs) };
}

function nextHour(afterMs: number, toMs: number): number {
  return Math.min(toMs, (Math.floor(afterMs / HOUR_MS) + 1) * HOUR_MS);
}

/** The clock of a thing is the one that was kept through its readings; its groups go on from there; the slow one carries the dose that counts. */
function withClocks({ course, hanging }: RoomState): RoomCourseState {
  const doseOf = (id: string): number => hanging[thingIdOf(id)]?.clock?.dose ?? 0;
  return { ...course, resume: null, groups: course.groups.map((group) => ({ ...group, dose: doseOf(group.id) })) };
}

function pointOf(course: RoomCourseState, step: CourseStep | undefined): ForecastPoint {
  return {
    atMs: course.atMs, airTempC: course.forcing.airTempC, relativeHumidityPct: course.relativeHumidityPct, humidityRatio: course.humidityRatio,
    evaporationKgPerH: step?.evaporationKgPerH ?? 0, outdoorAirKgPerH: step?.outdoorAirKgPerH ?? 0, dehumidifiersKgPerH: step?.dehumidifiersKgPerH ?? 0, waterKg: waterLeftKg(course),
  };
}

/** Water in everything that hangs above what counts as dry, kg. */
export function waterLeftKg({ groups }: Pick<RoomCourseState, 'groups'>): number {
  return groups.reduce((sum, { count, dryMassKg, moistureX, targetX }) => sum + count * dryMassKg * Math.max(0, moistureX - targetX), 0);
}

/** The error of the speed counts from when the water was last known, not from now. */
function atPace(knownAtMs: number, dryAtMs: number | null, share: number): number | null {
  return dryAtMs === null ? null : knownAtMs + Math.max(0, dryAtMs - knownAtMs) * share;
}

/** Follows doses through the hours, to tell when they reach amber and red. */
class Track {
  private readonly amber = new Map<string, number>();
  private readonly red = new Map<string, number>();

  constructor(private readonly state: RoomState, private readonly values: CalibrationValues, private readonly speeds: readonly FittedSpeed[]) {}

  between(before: RoomCourseState, after: RoomCourseState): void {
    const doses = new Map(before.groups.map(({ id, dose }) => [id, dose]));
    for (const { id, dose } of after.groups) {
      const from = doses.get(id) ?? dose;
      for (const [found, limit] of [[this.amber, this.values.amberDose], [this.red, this.values.redDose]] as const) {
        if (found.has(id) || dose < limit) continue;
        found.set(id, from >= limit ? before.atMs : Math.round(before.atMs + ((limit - from) / (dose - from)) * (after.atMs - before.atMs)));
      }
    }
  }

  private speedOf({ material, build }: CourseGroup, arrangement: HangingState['arrangement'] | undefined): FittedSpeed | null {
    if (arrangement === undefined || typeof material !== 'string') return null;
    const key = keyOf({ material, build, arrangement });
    return this.speeds.find((speed) => keyOf(speed) === key) ?? null;
  }

  items(end: RoomCourseState, fromMs: number, toMs: number): ItemForecast[] {
    const groups = new Map(end.groups.map((group) => [group.id, group]));
    const moments = dryMoments(end);
    const within = (ms: number | null): number | null => (ms !== null && ms <= toMs ? Math.round(ms) : null);
    return end.groups.filter(({ id }) => !isEndId(id)).map((group) => {
      const slow = groups.get(slowIdOf(group.id)) ?? group;
      const { earliestMs = null, latestMs = null } = moments.get(group.id) ?? {};
      const thin = group.build === 'thin';
      const hanging = this.state.hanging[group.id];
      const knownAtMs = hanging?.knownAtMs ?? fromMs;
      const shares = bandShares(this.speedOf(group, hanging?.arrangement), this.values);
      return {
        itemId: group.id,
        dryEarliestMs: within(atPace(knownAtMs, earliestMs, shares.fast)),
        dryExpectedMs: thin ? within(group.dryAtMs) : null,
        modelDryMs: within(group.dryAtMs),
        dryLatestMs: within(thin ? atPace(knownAtMs, latestMs, shares.slow) : latestMs),
        amberMs: hanging?.clock == null ? null : (this.amber.get(slow.id) ?? null),
        redMs: hanging?.clock == null ? null : (this.red.get(slow.id) ?? null),
      };
    });
  }
}
