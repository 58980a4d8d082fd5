/**
 * When something that was found and that nobody claims is told of again, and when two people decide about it. All numbers are our own calibration, which a
 * network sets. None is a period of law: what the law of a place says about found property we do not know, and it comes first.
 */
import { own, OwnNumberError, valuesOver, type CalibrationEntry } from './own-table.js';

const LAW = 'No period of law: local law on found property decides, so ask the authority first.';
const RANGE = [1, 36_500] as const;

/** The table, for display and as the defaults. */
export const FOUND_CALIBRATION = Object.freeze({
  firstNoticeDays: own(14, 'days', RANGE, `Until the notice at the desk is looked after the first time: families have come back to the place by then. ${LAW}`, true),
  secondNoticeDays: own(60, 'days', RANGE, `Until it is looked after the second time: two months, in which those come who had to live elsewhere at first. ${LAW}`, true),
  decideDays: own(365, 'days', RANGE, `Until two people may decide: a year, because families may have lost their home and hear of it late. ${LAW}`, true),
} satisfies Record<string, CalibrationEntry>);

export type FoundCalibrationKey = keyof typeof FOUND_CALIBRATION;
export type FoundValues = Readonly<Record<FoundCalibrationKey, number>>;

/** The defaults with a network's own values put over them. @throws RangeError for an unknown name, a value out of its limits, or days that do not follow each other */
export function calibrateFound(overrides: Readonly<Record<string, number>> = {}): FoundValues {
  const values = valuesOver(FOUND_CALIBRATION, overrides);
  const { firstNoticeDays, secondNoticeDays, decideDays } = values;
  if (firstNoticeDays < secondNoticeDays && secondNoticeDays < decideDays) return values;
  throw new OwnNumberError(`firstNoticeDays (${firstNoticeDays}), secondNoticeDays (${secondNoticeDays}) and decideDays (${decideDays}) must follow each other.`);
}
