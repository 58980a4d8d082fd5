/** The data of a room's course: see `room-course.ts`. All of it is plain JSON, to be stored and taken up again. */
import type { Dehumidifier } from './dehumidifier.js';
import type { Build } from './drying.js';
import type { ReachInput } from './evaporation.js';
import type { Material, SorptionProperties } from './materials.js';
import type { MouldClass } from './mould-clock.js';

/** Like things hung alike at one time. Mass and area are of ONE item; the area counts every breathing face. */
export interface CourseGoods extends ReachInput {
  /** The caller's name of the group, 1 to 200 characters, once in a room at a time. */
  id: string;
  count: number;
  dryMassKg: number;
  exposedAreaM2: number;
  material: Material | SorptionProperties;
  /** Moisture X at the time of hanging, kg water per kg dry. */
  moistureX: number;
  /** Mould dose gained before, 0 if absent. */
  dose?: number;
  /** Moisture that counts as dry; the dry target of the material if absent. */
  targetX?: number;
  mouldClass?: MouldClass;
  /** How many times faster it takes water up in damp air than it gives it off (0.01 to 100); 1 if absent. */
  uptakeTimes?: number;
  /** `thin` if absent. Thick and closed goods load the room as thin ones do; when THEY are dry only weighing tells. */
  build?: Build;
}

/** A group as it stands at the state's `atMs`. */
export interface CourseGroup extends CourseGoods {
  dose: number;
  targetX: number;
  mouldClass: MouldClass;
  build: Build;
  hungAtMs: number;
  /** Dose at the time of hanging: `dose - doseAtHanging` was gained in this room. */
  doseAtHanging: number;
  /** When the thin-goods model reached the target; `null` while it has not. For thick and closed goods the earliest only. */
  dryAtMs: number | null;
}

/** What acts on a room until something changes. Units and ranges as in `RoomInput`. */
export interface RoomForcing {
  /** 1 to 45 C for drying; down to -40 C goods are reckoned to stand still. */
  airTempC: number;
  airChangesPerH: number;
  outdoorTempC: number;
  outdoorRelativeHumidityPct: number;
  /** The machines that RUN: leave out what has tripped. */
  dehumidifiers: readonly Dehumidifier[];
  /** Over the racks, 0 to 2 m/s; `null` when nobody measured it. */
  airSpeedMPerS: number | null;
}

/**
 * Something that happened, or is foreseen, at a time. A `reading` sets the air of the room; `outdoor` the weather; `machines`
 * replaces the list of those that run (a trip is a shorter list, a return a longer one).
 */
export type RoomEvent = { atMs: number } & (
  | { kind: 'reading'; airTempC: number; relativeHumidityPct: number }
  | { kind: 'room-temp'; airTempC: number }
  | { kind: 'outdoor'; outdoorTempC: number; outdoorRelativeHumidityPct: number }
  | { kind: 'machines'; dehumidifiers: readonly Dehumidifier[] }
  | { kind: 'ventilation'; airChangesPerH: number }
  | { kind: 'air-speed'; airSpeedMPerS: number | null }
  | { kind: 'hang'; goods: CourseGoods }
  /** Takes `count` of the group away, or all of it when absent. */
  | { kind: 'take'; id: string; count?: number }
  /** A weighing: the group's moisture is this from here on, whatever was reckoned. */
  | { kind: 'weighed'; id: string; moistureX: number }
  /** Spread out, packed, or a fan put up: the group's air from here on. */
  | ({ kind: 'rearranged'; id: string } & ReachInput)
);

/**
 * Where the water went since the start, kg. `evaporatedKg = outdoorAirKg + dehumidifiedKg + condensedKg + notAttributedKg +
 * change of what the air holds`. While the air is measured nobody knows which way water left: that, and every correction that
 * a reading makes to reckoned air, is `notAttributedKg`.
 */
export interface CourseWater {
  evaporatedKg: number;
  outdoorAirKg: number;
  dehumidifiedKg: number;
  condensedKg: number;
  notAttributedKg: number;
  /** Worst imbalance of one step: a check on the arithmetic. */
  worstImbalanceKg: number;
}

/** The numbers that a step changes, by index of `groups`. */
export interface CourseInstant {
  atMs: number;
  humidityRatio: number;
  moistureX: readonly number[];
  dose: readonly number[];
  dryAtMs: readonly (number | null)[];
  water: CourseWater;
}

/** A room brought forward to `atMs`. Plain JSON; hand it back to `advanceRoomCourse` as it is. */
export interface RoomCourseState {
  format: 1;
  atMs: number;
  /** Steps end on whole multiples of this since 1970, at events, and where a reading has been held long enough. */
  stepMs: number;
  volumeM3: number;
  pressurePa: number;
  forcing: RoomForcing;
  /** How the air was taken last: as measured, or by the balance. */
  air: 'measured' | 'simulated';
  readingAtMs: number;
  /** Dry air in the room that stores vapour, kg. */
  dryAirKg: number;
  humidityRatio: number;
  relativeHumidityPct: number;
  groups: readonly CourseGroup[];
  water: CourseWater;
  /** Where the step stands that `atMs` cut through; going on starts from there, so that in parts equals in one. `null` between steps. */
  resume: CourseInstant | null;
}

/** What happened between two times. A step that `atMs` cut through is given again, whole, by the call that goes on. */
export interface CourseStep {
  fromMs: number;
  toMs: number;
  /** The air was measured, not reckoned. */
  measured: boolean;
  airTempC: number;
  /** At the end of the step. */
  humidityRatio: number;
  relativeHumidityPct: number;
  evaporationKgPerH: number;
  /** Reckoned air only, else 0. Negative: outdoor air brings water in. */
  outdoorAirKgPerH: number;
  dehumidifiersKgPerH: number;
  condensationKgPerH: number;
  /** Moisture X by group id at the end, when asked for. */
  moistureX?: Readonly<Record<string, number>>;
}

/** A course brought forward. */
export interface RoomCourseAdvance {
  state: RoomCourseState;
  steps: readonly CourseStep[];
  /** Groups (or the part of them) taken away, as they stood then, in order of time. */
  taken: readonly (CourseGroup & { takenAtMs: number })[];
}
