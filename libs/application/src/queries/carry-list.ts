/** What vehicles take with them next, by the plan in force. */
import type { Message } from '#care';
import type { CalibrationValues } from '#climate';
import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { climateCalibrationInForce } from '../calibration/in-force.js';
import { liftOf } from '../care/hands-on.js';
import { reckonedKg } from '../planning/rides.js';
import type { PlannedRide, PlanRevisionRecord } from '../ports/plan-store.js';
import type { CarryRow } from '../ports/work-rows.js';
import type { Stores } from '../ports/work.js';
import { liftInWords } from './work-people.js';

/** A thing to be carried, with what it weighs as wet as it was last seen. Nobody has weighed it. */
export interface ToCarry extends CarryRow {
  /** Whole kg of the whole lot, at least 1; null where nothing is known of such a weight. */
  kg: number | null;
  /** People who lift one piece of it together; null for what takes an aid instead of people. */
  peopleNeeded: number | null;
  liftingAid: boolean;
  liftInWords: Message[];
}

/** What leaves together. */
export interface Departure {
  rideId: string;
  ride: PlannedRide;
  leavesAtMs: number;
  arrivesAtMs: number;
  /** The moment of leaving has passed, and these are still here. */
  overdue: boolean;
  kg: number;
  maxLoadKg: number | null;
  items: ToCarry[];
}

export interface CarryList {
  incidentId: string;
  atMs: number;
  /** Null when there is no plan yet. */
  revision: Pick<PlanRevisionRecord, 'number' | 'createdAtMs'> | null;
  /** In the order of leaving. */
  departures: Departure[];
}

/**
 * What the plan in force has carried to other sites and is still where the ride begins. It moves nothing: a ride is loaded by a manifest,
 * by its own rules.
 * @throws Problem not_found
 */
export async function getCarryList(stores: Stores, call: UseCaseCall, { incidentId, limit }: { incidentId: string; limit: number }): Promise<CarryList> {
  if (!(await stores.places.incident(incidentId))) throw notFound('incident');
  const revision = await stores.plans.currentRevision(incidentId);
  const rows = revision === null ? [] : await stores.plans.toCarry(revision.id, limit);
  const climate = await climateCalibrationInForce(stores);
  const { nowMs } = call.env;
  return { incidentId, atMs: nowMs, revision, departures: departuresOf(rows.map((row) => weighed(row, climate)), nowMs) };
}

/** Things that take the same ride at the same time, in the order in which they come. */
export function departuresOf(things: readonly ToCarry[], nowMs: number): Departure[] {
  const found = new Map<string, Departure>();
  for (const thing of things) {
    const { rideId, ride, leavesAtMs, arrivesAtMs, maxLoadKg } = thing;
    const key = `${rideId} ${leavesAtMs}`;
    const departure = found.get(key) ?? { rideId, ride, leavesAtMs, arrivesAtMs, overdue: leavesAtMs < nowMs, kg: 0, maxLoadKg, items: [] };
    departure.kg += thing.kg ?? 0;
    departure.items.push(thing);
    found.set(key, departure);
  }
  return [...found.values()];
}

function weighed(row: CarryRow, climate: CalibrationValues): ToCarry {
  const kg = reckonedKg(row, climate);
  if (kg === null) return { ...row, kg, peopleNeeded: null, liftingAid: false, liftInWords: [] };
  const { loadKg, peopleNeeded } = liftOf('pack', row, row.wetState, climate);
  return { ...row, kg, peopleNeeded, liftingAid: peopleNeeded === null, liftInWords: liftInWords(loadKg, peopleNeeded) };
}
