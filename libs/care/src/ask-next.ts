import type { CareCalibration } from './calibration.js';
import { DEFAULT_CALIBRATION } from './calibration.js';
import type { Book } from './rule-book/index.js';
import { DEFAULT_BOOK } from './rule-book/index.js';
import { triage } from './triage.js';
import type { Assessment, Question, TriageContext } from './types.js';

/** Unanswered observations (`unknown` or `null`), the one whose answers could change most first. */
export function askNext(assessment: Assessment, context: TriageContext, calibration: CareCalibration = DEFAULT_CALIBRATION, book: Book = DEFAULT_BOOK): Question[] {
  return triage(assessment, context, calibration, book).askNext;
}
