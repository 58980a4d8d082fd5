import type { UseCaseCall } from '../call.js';
import { calibrationView, type CalibrationView } from '../calibration/view.js';
import type { CalibrationDecision } from '../ports/calibration-store.js';
import type { Stores } from '../ports/work.js';

/** Every number of our own calibration that a network may set, with its default, its limits, and who set it to what and why. */
export async function getCalibration(stores: Stores): Promise<CalibrationView> {
  return calibrationView(await stores.calibration.inForce());
}

/** What a network has decided about our own calibration, newest first. */
export async function listCalibrationDecisions(stores: Stores, _call: UseCaseCall, input: { limit: number; before: number | null }): Promise<CalibrationDecision[]> {
  return stores.calibration.page(input.limit, input.before);
}
