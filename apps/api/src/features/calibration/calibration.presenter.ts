import type { z } from 'zod';
import type { CalibrationDecision, CalibrationView } from '#application';
import { translate, type Language } from '#care';
import type { CalibrationBody, CalibrationDecisionBody } from '#contracts';
import { iso } from '../../presenters/time.js';

/** Why a number is what it is stands in English in the table of its library and is said in the language; so is a unit that is a word. */
export function presentCalibration({ number, numbers }: CalibrationView, language: Language): z.output<typeof CalibrationBody> {
  return {
    number,
    numbers: numbers.map(({ library, key, entry, inForce, decision, lapsed }) => ({
      library, key, unit: translate(entry.unit, language), default: entry.value, inForce, min: entry.min, max: entry.max, whole: entry.whole ?? false,
      mark: entry.mark, why: translate(entry.why, language), decision: decision && presentCalibrationDecision(decision), lapsed,
    })),
  };
}

export function presentCalibrationDecision({ id, number, library, key, value, reason, lead, decidedAtMs }: CalibrationDecision): z.output<typeof CalibrationDecisionBody> {
  return { id, number, library, key, value, reason, decidedBy: lead, decidedAt: iso(decidedAtMs) };
}
