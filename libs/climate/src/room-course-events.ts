/** What changes a room's course: checks of what is handed in, and what each event does. See `room-course.ts`. */
import { ClimateRangeError, requireNumber, type NumberRule } from './climate-range.error.js';
import type { CalibrationValues } from './calibration.js';
import { requireDehumidifier } from './dehumidifier.js';
import { BUILDS } from './drying.js';
import { AIR_SPEED_RULE, arrangementFactor } from './evaporation.js';
import { specificVolume } from './moist-air.core.js';
import { RELATIVE_HUMIDITY_RULE } from './psychrometrics.js';
import { checkGroup } from './room-simulation.js';
import type { CourseGoods, CourseGroup, RoomEvent, RoomForcing } from './room-course.types.js';
import type { CourseWork } from './room-course-step.js';
import { ACH_RULE, OUTDOOR_TEMP_RULE, ratioAtHumidity } from './room.js';
import { MOISTURE_RULE } from './water-in-things.js';

/** Goods dry from 1 to 45 C; in colder rooms they are reckoned to stand still. */
export const COURSE_TEMP_RULE: NumberRule = { min: -40, max: 45, unit: 'C', hint: 'Give the room temperature in degrees Celsius; goods are not dried above 45 C.' };

const GOODS_EVENTS: ReadonlySet<RoomEvent['kind']> = new Set(['hang', 'take', 'weighed', 'rearranged']);

/** Dry air in a room, kg. */
export function dryAirOf(volumeM3: number, airTempC: number, humidityRatio: number, pressurePa: number): number {
  return volumeM3 / specificVolume(airTempC, humidityRatio, pressurePa);
}

/** A copy with nothing else in it. @throws ClimateRangeError */
export function checkedForcing(forcing: RoomForcing): RoomForcing {
  return {
    airTempC: requireNumber('airTempC', forcing.airTempC, COURSE_TEMP_RULE),
    airChangesPerH: requireNumber('airChangesPerH', forcing.airChangesPerH, ACH_RULE),
    outdoorTempC: requireNumber('outdoorTempC', forcing.outdoorTempC, OUTDOOR_TEMP_RULE),
    outdoorRelativeHumidityPct: requireNumber('outdoorRelativeHumidityPct', forcing.outdoorRelativeHumidityPct, RELATIVE_HUMIDITY_RULE),
    dehumidifiers: forcing.dehumidifiers.map((machine) => ({ ...requireDehumidifier(machine) })),
    airSpeedMPerS: forcing.airSpeedMPerS === null ? null : requireNumber('airSpeedMPerS', forcing.airSpeedMPerS, AIR_SPEED_RULE),
  };
}

/** A group as it is hung. @throws ClimateRangeError */
export function checkedGoods(goods: CourseGoods, atMs: number, values: CalibrationValues): CourseGroup {
  if (typeof goods.id !== 'string' || goods.id.length < 1 || goods.id.length > 200) throw new ClimateRangeError('id of a group must be a text of 1 to 200 characters.', 'id');
  const build = goods.build ?? 'thin';
  if (!BUILDS.includes(build)) throw new ClimateRangeError(`build is ${String(build)}; choose one of: ${BUILDS.join(', ')}.`, 'build');
  const dose = goods.dose ?? 0;
  const checked = checkGroup({ ...goods, startX: goods.moistureX, startDose: dose }, values);
  const dryAtMs = goods.moistureX <= checked.target ? atMs : null;
  return { ...goods, build, dose, mouldClass: goods.mouldClass ?? 'sensitive', targetX: checked.target, hungAtMs: atMs, doseAtHanging: dose, dryAtMs };
}

/** Does what the event says; what was taken away comes back. @throws ClimateRangeError and then nothing counts */
export function applyRoomEvent(work: CourseWork, event: RoomEvent, values: CalibrationValues): (CourseGroup & { takenAtMs: number }) | null {
  work.readyAir = null;
  if (GOODS_EVENTS.has(event.kind)) work.readyGroups = null;
  switch (event.kind) {
    case 'reading':
      read(work, event);
      break;
    case 'room-temp':
      work.forcing = checkedForcing({ ...work.forcing, airTempC: event.airTempC });
      refill(work, work.humidityRatio);
      break;
    case 'outdoor':
      work.forcing = checkedForcing({ ...work.forcing, outdoorTempC: event.outdoorTempC, outdoorRelativeHumidityPct: event.outdoorRelativeHumidityPct });
      break;
    case 'machines':
      work.forcing = checkedForcing({ ...work.forcing, dehumidifiers: event.dehumidifiers });
      break;
    case 'ventilation':
      work.forcing = checkedForcing({ ...work.forcing, airChangesPerH: event.airChangesPerH });
      break;
    case 'air-speed':
      work.forcing = checkedForcing({ ...work.forcing, airSpeedMPerS: event.airSpeedMPerS });
      break;
    case 'hang':
      if (work.groups.some((group) => group.id === event.goods.id)) throw new ClimateRangeError(`The group ${event.goods.id} hangs in this room already; give what is added an id of its own.`, 'id');
      work.groups.push(checkedGoods(event.goods, event.atMs, values));
      break;
    case 'take':
      return take(work, event);
    case 'weighed': {
      const group = groupOf(work, event.id);
      group.moistureX = requireNumber('moistureX', event.moistureX, MOISTURE_RULE);
      group.dryAtMs = group.moistureX <= group.targetX ? (group.dryAtMs ?? event.atMs) : null;
      break;
    }
    case 'rearranged': {
      const group = groupOf(work, event.id);
      const { airReach: _reach, arrangementFactor: _factor, ...rest } = group;
      const reach = { ...(event.airReach === undefined ? {} : { airReach: event.airReach }), ...(event.arrangementFactor === undefined ? {} : { arrangementFactor: event.arrangementFactor }) };
      arrangementFactor(reach, values);
      work.groups = work.groups.map((other) => (other === group ? { ...rest, ...reach } : other));
      break;
    }
    default:
      throw new ClimateRangeError(`kind of an event is ${String((event as { kind: unknown }).kind)}; see the list of room events.`, 'kind');
  }
  return null;
}

function read(work: CourseWork, event: { atMs: number; airTempC: number; relativeHumidityPct: number }): void {
  work.forcing = checkedForcing({ ...work.forcing, airTempC: event.airTempC });
  const rh = requireNumber('relativeHumidityPct', event.relativeHumidityPct, RELATIVE_HUMIDITY_RULE);
  refill(work, ratioAtHumidity(event.airTempC, rh, work.pressurePa));
  work.readingAtMs = event.atMs;
}

/** The room's air is now this; what it holds more or less than reckoned came or went unseen. */
function refill(work: CourseWork, humidityRatio: number): void {
  const before = work.dryAirKg * work.humidityRatio;
  work.dryAirKg = dryAirOf(work.volumeM3, work.forcing.airTempC, humidityRatio, work.pressurePa);
  work.humidityRatio = humidityRatio;
  work.water.notAttributedKg += before - work.dryAirKg * humidityRatio;
}

function groupOf(work: CourseWork, id: string): CourseGroup {
  const group = work.groups.find((one) => one.id === id);
  if (group === undefined) throw new ClimateRangeError(`No group ${id} hangs in this room at that time.`, 'id');
  return group;
}

function take(work: CourseWork, event: { atMs: number; id: string; count?: number }): CourseGroup & { takenAtMs: number } {
  const group = groupOf(work, event.id);
  const count = requireNumber('count', event.count ?? group.count, { min: 0, max: group.count, unit: 'items', hint: `The group has ${group.count}.` });
  const gone = { ...group, count, takenAtMs: event.atMs };
  if (count === group.count) work.groups = work.groups.filter((other) => other !== group);
  else group.count -= count;
  return gone;
}
