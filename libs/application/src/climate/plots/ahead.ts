/** What comes, hour by hour, with the water and clock of every thing: the forecast of the room as it is stored, looked at on the way. */
import { advanceRoomCourse, type CalibrationValues, type CourseStep, type RoomCourseState, type RoomEvent } from '#climate';
import { HOUR_MS } from '../durations.js';
import type { OutdoorAir } from '../room/inputs.js';
import { fastIdOf, moistures, slowIdOf, type RoomState } from '../room/state.js';

export interface HourAhead {
  course: RoomCourseState;
  /** The last step of the hour; null at the present moment. */
  step: CourseStep | null;
}

/** The present, then every whole hour until `untilMs`, and that. Nothing is hung, taken or switched. */
export function* hoursAhead(state: RoomState, weather: readonly OutdoorAir[], untilMs: number, values: CalibrationValues): Generator<HourAhead> {
  const events = weather.map((air): RoomEvent => ({ kind: 'outdoor', atMs: air.atMs, outdoorTempC: air.airTempC, outdoorRelativeHumidityPct: air.relativeHumidityPct }));
  let course = withDoses(state);
  yield { course, step: null };
  while (course.atMs < untilMs) {
    const [fromMs, toMs] = [course.atMs, Math.min(untilMs, (Math.floor(course.atMs / HOUR_MS) + 1) * HOUR_MS)];
    const next = advanceRoomCourse(course, toMs, { air: 'simulated', events: events.filter(({ atMs }) => atMs >= fromMs && atMs < toMs) }, values);
    course = next.state;
    yield { course, step: next.steps.at(-1) ?? null };
  }
}

/** Doses go on from the clocks that were kept through the readings. */
function withDoses({ course, hanging }: RoomState): RoomCourseState {
  const clocks = new Map(Object.entries(hanging).flatMap(([id, { clock }]) => [[id, clock], [slowIdOf(id), clock], [fastIdOf(id), clock]]));
  return { ...course, resume: null, groups: course.groups.map((group) => ({ ...group, dose: clocks.get(group.id)?.dose ?? 0 })) };
}

/** Water in everything that hangs above what counts as dry, kg: by the thin-goods model, and at most. */
export function roomWater(course: Pick<RoomCourseState, 'groups'>): { kg: number; atMostKg: number } {
  const water = moistures(course);
  let [kg, atMostKg] = [0, 0];
  for (const { id, count, dryMassKg, targetX } of course.groups) {
    const { x = 0, mostX = 0 } = water.get(id) ?? {};
    kg += count * dryMassKg * Math.max(0, x - targetX);
    atMostKg += count * dryMassKg * Math.max(0, mostX - targetX);
  }
  return { kg, atMostKg };
}
