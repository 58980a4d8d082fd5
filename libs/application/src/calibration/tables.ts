/** The numbers of our own calibration that a network may set, library by library, and how a set of them is checked. */
import { calibratePeople, PEOPLE_CALIBRATION, type PeopleCalibration } from '#care';
import { calibrate, CALIBRATION, type CalibrationValues } from '#climate';
import type { CalibrationLibrary } from '../ports/calibration-store.js';

/** A number of a library: its default, unit and limits, and why it is what it is. */
export interface CalibrationEntry {
  readonly value: number;
  readonly unit: string;
  readonly min: number;
  readonly max: number;
  readonly whole?: boolean;
  readonly mark: 'own-calibration';
  readonly why: string;
}

/** Own values by key. */
export type OwnValues = Readonly<Record<string, number>>;

/** What each library works with. */
export interface LibraryValues {
  people: PeopleCalibration;
  climate: CalibrationValues;
}

export const TABLES: Readonly<Record<CalibrationLibrary, Readonly<Record<string, CalibrationEntry>>>> = { people: PEOPLE_CALIBRATION, climate: CALIBRATION };

/** The values of a library with a network's own. They throw a RangeError for what they do not know or cannot take. */
export const CALIBRATE: { readonly [L in CalibrationLibrary]: (own: OwnValues) => LibraryValues[L] } = { people: calibratePeople, climate: calibrate };

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
