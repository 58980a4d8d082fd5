import type { CareCalibration } from './calibration.js';
import { DEFAULT_CALIBRATION } from './calibration.js';
import type { Assessment } from './types.js';

/**
 * Positive integer weight for the planner: significance times only copy times lot size. Our calibration
 * (`CareCalibration.weight`), not a published scale; an only copy nobody asked about counts as one.
 */
export function planningWeight(assessment: Pick<Assessment, 'significance' | 'onlyCopy' | 'count'>, calibration: CareCalibration = DEFAULT_CALIBRATION): number {
  const { significance, onlyCopyFactor, lotBands } = calibration.weight;
  const band = [...lotBands].sort((a, b) => b.fromCount - a.fromCount).find(({ fromCount }) => assessment.count >= fromCount);
  const copies = assessment.onlyCopy === false ? 1 : onlyCopyFactor;
  return Math.max(1, Math.round(significance[assessment.significance] * copies * (band?.factor ?? 1)));
}
