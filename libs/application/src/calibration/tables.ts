/** The numbers of our own calibration that a network may set, library by library, and how a set of them is checked. */
import { calibratePeople, PEOPLE_CALIBRATION, type CareCalibration, type PeopleCalibration } from '#care';
import { calibrate, CALIBRATION, type CalibrationValues } from '#climate';
import { ALARM_CALIBRATION, calibrateAlarms, type AlarmValues } from '../climate/alarms/calibration.js';
import { calibratePlanning, PLANNING_CALIBRATION, type PlanningValues } from '../planning/planning-calibration.js';
import type { CalibrationLibrary } from '../ports/calibration-store.js';
import { calibrateCare, CARE_CALIBRATION } from './care-table.js';
import { calibrateFound, FOUND_CALIBRATION, type FoundValues } from './found-table.js';
import type { CalibrationEntry } from './own-table.js';
import { calibrateMessages, MESSAGES_CALIBRATION, type MessagesValues } from './messages-table.js';
import { calibrateRetention, RETENTION_CALIBRATION, type RetentionValues } from './retention-table.js';
import { calibrateSight, SIGHT_CALIBRATION, type SightValues } from './sight-table.js';

export type { CalibrationEntry } from './own-table.js';

/** Own values by key. */
export type OwnValues = Readonly<Record<string, number>>;

/** What each library works with. */
export interface LibraryValues {
  people: PeopleCalibration;
  climate: CalibrationValues;
  alarms: AlarmValues;
  planning: PlanningValues;
  care: CareCalibration;
  sight: SightValues;
  retention: RetentionValues;
  messages: MessagesValues;
  found: FoundValues;
}

export const TABLES: Readonly<Record<CalibrationLibrary, Readonly<Record<string, CalibrationEntry>>>> = {
  people: PEOPLE_CALIBRATION, climate: CALIBRATION, alarms: ALARM_CALIBRATION, planning: PLANNING_CALIBRATION, care: CARE_CALIBRATION, sight: SIGHT_CALIBRATION,
  retention: RETENTION_CALIBRATION, messages: MESSAGES_CALIBRATION, found: FOUND_CALIBRATION,
};

/** The values of a library with a network's own. They throw a RangeError for what they do not know or cannot take. */
export const CALIBRATE: { readonly [L in CalibrationLibrary]: (own: OwnValues) => LibraryValues[L] } = {
  people: calibratePeople, climate: calibrate, alarms: calibrateAlarms, planning: calibratePlanning, care: calibrateCare, sight: calibrateSight,
  retention: calibrateRetention, messages: calibrateMessages, found: calibrateFound,
};

/** The entry of a key; null when the library has none of that name. */
export function entryOf(library: CalibrationLibrary, key: string): CalibrationEntry | null {
  return Object.hasOwn(TABLES[library], key) ? (TABLES[library][key] ?? null) : null;
}

/** Why a library cannot take these values, in a sentence; null when it can. */
export function faultIn(library: CalibrationLibrary, own: OwnValues): string | null {
  try {
    CALIBRATE[library](own);
    return null;
  } catch (error) {
    if (error instanceof RangeError) return error.message;
    throw error;
  }
}
