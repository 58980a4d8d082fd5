/** Our own calibration as a network has set it. */
import type { CareCalibration, PeopleCalibration } from '#care';
import type { CalibrationValues } from '#climate';
import type { AlarmValues } from '../climate/alarms/calibration.js';
import type { PlanningValues } from '../planning/planning-calibration.js';
import type { CalibrationRecord, CalibrationInForce, CalibrationLibrary } from '../ports/calibration-store.js';
import type { FoundValues } from './found-table.js';
import type { MessagesValues } from './messages-table.js';
import type { RetentionValues } from './retention-table.js';
import type { SightValues } from './sight-table.js';
import { CALIBRATE, entryOf, faultIn, type OwnValues } from './tables.js';

/** Where the decisions in force are read: the stores of either writer. */
export interface CalibrationSource {
  calibration: CalibrationInForce;
}

/** The numbers of the climate library that the network works with. */
export async function climateCalibrationInForce(stores: CalibrationSource): Promise<CalibrationValues> {
  return CALIBRATE.climate(ownValues('climate', await stores.calibration.inForce()));
}

/** The numbers of the people checks that the network works with. */
export async function peopleCalibrationInForce(stores: CalibrationSource): Promise<PeopleCalibration> {
  return CALIBRATE.people(ownValues('people', await stores.calibration.inForce()));
}

/** The numbers by which the network is alarmed. */
export async function alarmCalibrationInForce(stores: CalibrationSource): Promise<AlarmValues> {
  return CALIBRATE.alarms(ownValues('alarms', await stores.calibration.inForce()));
}

/** The numbers by which a plan reckons how long things take to dry. */
export async function planningCalibrationInForce(stores: CalibrationSource): Promise<PlanningValues> {
  return CALIBRATE.planning(ownValues('planning', await stores.calibration.inForce()));
}

/** The numbers of the care library that the network works with, before the choices of its rule book. */
export async function careCalibrationInForce(stores: CalibrationSource): Promise<CareCalibration> {
  return CALIBRATE.care(ownValues('care', await stores.calibration.inForce()));
}

/** The numbers after which things are looked for. */
export async function sightCalibrationInForce(stores: CalibrationSource): Promise<SightValues> {
  return CALIBRATE.sight(ownValues('sight', await stores.calibration.inForce()));
}

/** For how long what is personal is kept. */
export async function retentionCalibrationInForce(stores: CalibrationSource): Promise<RetentionValues> {
  return CALIBRATE.retention(ownValues('retention', await stores.calibration.inForce()));
}

/** What families are told by themselves, and how long it gathers. */
export async function messagesCalibrationInForce(stores: CalibrationSource): Promise<MessagesValues> {
  return CALIBRATE.messages(ownValues('messages', await stores.calibration.inForce()));
}

/** When what nobody claims is told of again, and when it may be decided about. */
export async function foundCalibrationInForce(stores: CalibrationSource): Promise<FoundValues> {
  return CALIBRATE.found(ownValues('found', await stores.calibration.inForce()));
}

/** What of the decisions about a library this version of the program can still take, by key. */
export function ownValues(library: CalibrationLibrary, decisions: readonly CalibrationRecord[]): OwnValues {
  return Object.fromEntries(takenOf(library, decisions).map(({ key, value }) => [key, value]));
}

type SetValue = CalibrationRecord & { value: number };

/**
 * A later version may have dropped a number or narrowed its limits; then the default stands, so that no work is refused for
 * it. Where the rest contradicts a new default, the oldest decisions give way.
 */
function takenOf(library: CalibrationLibrary, decisions: readonly CalibrationRecord[]): SetValue[] {
  const set = decisions.filter((one): one is SetValue => one.library === library && one.value !== null);
  if (holds(library, set)) return set;
  const taken = set.filter((one) => possible(library, one)).sort((a, b) => a.number - b.number);
  while (!holds(library, taken)) taken.shift();
  return taken;
}

function holds(library: CalibrationLibrary, set: readonly SetValue[]): boolean {
  return faultIn(library, Object.fromEntries(set.map(({ key, value }) => [key, value]))) === null;
}

/** Alone it may contradict a default that another decision moves, so only its name and limits count. */
function possible(library: CalibrationLibrary, { key, value }: SetValue): boolean {
  const entry = entryOf(library, key);
  return entry !== null && value >= entry.min && value <= entry.max && (entry.whole !== true || Number.isInteger(value));
}
