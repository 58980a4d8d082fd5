import type { CareCalibration } from './calibration.js';
import { DEFAULT_CALIBRATION } from './calibration.js';
import { triage } from './triage.js';
import type { Assessment, Question, TriageContext } from './types.js';

/** Unanswered observations (`unknown` or `null`), the one whose answers could change most first. */
export function askNext(assessment: Assessment, context: TriageContext, calibration: CareCalibration = DEFAULT_CALIBRATION): Question[] {
  return triage(assessment, context, calibration).askNext;
}
