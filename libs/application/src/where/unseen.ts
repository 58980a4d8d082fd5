import { sightCalibrationInForce } from '../calibration/in-force.js';
import { UNSEEN_AFTER, type SightCalibrationKey } from '../calibration/sight-table.js';
import type { UnseenBefore } from '../ports/where-store.js';
import type { Stores } from '../ports/work.js';

const HOUR_MS = 3_600_000;

/** Before when a thing of each stage must have been seen last to count as unseen now, by the numbers of the network. */
export async function unseenBefore(stores: Pick<Stores, 'calibration'>, nowMs: number): Promise<UnseenBefore> {
  const values = await sightCalibrationInForce(stores);
  return Object.fromEntries((Object.entries(UNSEEN_AFTER) as [string, SightCalibrationKey][]).map(([stage, key]) => [stage, nowMs - values[key] * HOUR_MS]));
}
